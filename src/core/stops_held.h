// Ctrl-C and the like, put off until temporary files are gone.
#pragma once

namespace versolay {

/// While one of these lives, in whatever thread, SIGINT, SIGTERM and SIGHUP are only noted; when
/// the last is gone they take their course. Helper processes get them at once. Signals that the
/// program ignores stay ignored.
class StopsHeld {
 public:
  StopsHeld();
  StopsHeld(const StopsHeld&) = delete;
  StopsHeld& operator=(const StopsHeld&) = delete;
  ~StopsHeld();
};

/// Was a stop asked for, and held back?
bool stop_was_asked();

}  // namespace versolay
