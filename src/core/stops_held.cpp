#include "core/stops_held.h"

#include <signal.h>

#include <array>
#include <mutex>

namespace versolay {
namespace {

constexpr std::array kStops = {SIGINT, SIGTERM, SIGHUP};

std::mutex mutex;
int holders = 0;
std::array<struct sigaction, kStops.size()> before;
volatile sig_atomic_t noted = 0;

void note(int signal) { noted = signal; }

}  // namespace

StopsHeld::StopsHeld() {
  const std::scoped_lock lock(mutex);
  if (holders++ > 0) return;
  struct sigaction hold {};
  hold.sa_handler = note;
  sigemptyset(&hold.sa_mask);
  for (std::size_t i = 0; i < kStops.size(); ++i) {
    sigaction(kStops[i], nullptr, &before[i]);
    if (before[i].sa_handler != SIG_IGN) sigaction(kStops[i], &hold, nullptr);
  }
}

StopsHeld::~StopsHeld() {
  const std::scoped_lock lock(mutex);
  if (--holders > 0) return;
  for (std::size_t i = 0; i < kStops.size(); ++i) sigaction(kStops[i], &before[i], nullptr);
  if (noted == 0) return;
  const int signal = noted;
  noted = 0;
  raise(signal);
}

bool stop_was_asked() { return noted != 0; }

}  // namespace versolay
