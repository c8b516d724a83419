// Word from long work to whoever started it. The work does not know about terminals.
#pragma once

#include <functional>

#include "versolay/finding.h"

namespace versolay {

/// Called now and then with how much is done (0..total) and what is being done: a term of the list
/// in words/terms.cpp. May be called from several threads, one at a time. Empty: nobody listens.
using Progress = std::function<void(int done, int total, Term what)>;

inline void tell(const Progress& progress, int done, int total, Term what) {
  if (progress) progress(done, total, what);
}

}  // namespace versolay
