// How much of a PDF may be unpacked while it is opened: a few kilobytes of an object stream can
// stand for gigabytes, and qpdf unpacks what it is given.
#pragma once

#include <cstddef>
#include <string>

namespace versolay {

/// While one of these lives, what streams (Flate, LZW, runs) unpack to on this thread is
/// counted, and no more of
/// it is unpacked beyond the limit. Streams that are written again later are not counted.
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
  /// Throws Error when there was more. qpdf takes a stream that breaks off for a damaged one and
  /// goes on, so this has to be asked for, before any other error of qpdf is believed.
  void require_kept() const;

 private:
  std::string file_;
  UnpackingBudget* outer_;
  std::size_t used_ = 0;

  friend class CountedBytes;
};

}  // namespace versolay
