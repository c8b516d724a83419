// Limits how much of a PDF is unpacked while it is opened: a few kilobytes of an object stream can
// expand to gigabytes, and qpdf has no limit of its own.
#pragma once

#include <cstddef>
#include <string>

namespace versolay {

/// While an instance exists, the unpacked bytes of streams (Flate, LZW, run length) on this thread
/// are counted, and unpacking stops at the limit. Streams that are written again later are not
/// counted.
class UnpackingBudget {
 public:
  static constexpr std::size_t kMostBytes = 128u << 20;

  /// @param file  for the message.
  explicit UnpackingBudget(std::string file);
  UnpackingBudget(const UnpackingBudget&) = delete;
  UnpackingBudget& operator=(const UnpackingBudget&) = delete;
  ~UnpackingBudget();

  /// What follows is not counted: the objects are in memory. Throws Error as require_kept.
  void close();
  /// Throws Error when the limit was exceeded. qpdf treats a stream that breaks off as damaged and
  /// goes on, so call this before trusting any other error of qpdf.
  void require_kept() const;

 private:
  std::string file_;
  UnpackingBudget* outer_;
  std::size_t used_ = 0;

  friend class CountedBytes;
};

}  // namespace versolay
