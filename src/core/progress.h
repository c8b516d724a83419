// Progress of long work, reported to its caller. The work does not know about terminals.
#pragma once

#include <algorithm>
#include <functional>

#include "versolay/finding.h"

namespace versolay {

/// How far some work is.
struct WorkDone {
  int done = 0;  // 0..total
  int total = 1;
  Term what;           // is being done: a term of the list in words/terms.cpp
  double whole = 0.0;  // 0..1: of everything that was asked for, of which this may be a part
};

/// Called now and then. May be called from several threads, one at a time. Empty: nobody listens.
using Progress = std::function<void(const WorkDone&)>;

inline void tell(const Progress& progress, int done, int total, Term what) {
  if (progress) progress({done, total, what, total > 0 ? static_cast<double>(done) / total : 0.0});
}

/// For a part of longer work: reports its progress as the share `from`..`to` (0..1) of the whole.
inline Progress part_of(const Progress& whole, double from, double to) {
  if (!whole) return {};
  return [whole, from, to](const WorkDone& part) {
    whole({part.done, part.total, part.what, from + (to - from) * part.whole});
  };
}

/// Shares of longer work, one after the other.
class WorkShares {
 public:
  /// @param total  of all shares, in any unit.
  WorkShares(const Progress& whole, double total) : whole_(whole), total_(total) {}

  Progress next(double work) {
    const double from = done_ / total_;
    done_ += work;
    return part_of(whole_, from, std::min(1.0, done_ / total_));
  }

 private:
  const Progress& whole_;
  double total_;
  double done_ = 0.0;
};

}  // namespace versolay
