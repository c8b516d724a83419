// libharu with its errors turned into exceptions, outside of its callback.
#pragma once

#include <hpdf.h>

#include <array>
#include <string>

namespace versolay {

/// One libharu document. libharu reports an error through a C callback (through which no exception
/// may pass) and then hands out null handles; so the callback records, and check() throws.
class HaruDocument {
 public:
  HaruDocument();
  HaruDocument(const HaruDocument&) = delete;
  HaruDocument& operator=(const HaruDocument&) = delete;
  ~HaruDocument();

  /// Throws Error when a call before this one failed. `doing` is what was being done.
  void check(const std::string& doing) const;

  HPDF_Page add_page(double width_pt, double height_pt);
  /// Embedded, UTF-8 encoded. Throws Error when the font file is missing or damaged.
  HPDF_Font font(bool bold);
  /// The bytes of the document. The document cannot be drawn on afterwards.
  std::string save();

  HPDF_Doc handle() const { return document_; }

 private:
  struct Failure {
    HPDF_STATUS code = HPDF_OK;
    HPDF_STATUS detail = HPDF_OK;
  };
  static void record(HPDF_STATUS code, HPDF_STATUS detail, void* failure);

  Failure failure_;
  HPDF_Doc document_ = nullptr;
  std::array<HPDF_Font, 2> fonts_{};
};

}  // namespace versolay
