#include "cli/terminal.h"

#include <chrono>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <mutex>
#include <string_view>

#include "core/json.h"
#include "words/sentences.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto kSilence = std::chrono::seconds(1);
constexpr auto kPause = std::chrono::milliseconds(100);

bool line_is_shown = false;

struct State {
  Clock::time_point started = Clock::now();
  Clock::time_point last_shown{};
  std::mutex mutex;
};

}  // namespace

Progress terminal_progress() {
  auto state = std::make_shared<State>();
  return [state](int done, int total, Term what) {
    const std::scoped_lock lock(state->mutex);
    const auto now = Clock::now();
    if (now - state->started < kSilence || now - state->last_shown < kPause) return;
    state->last_shown = now;
    line_is_shown = true;
    std::cerr << "\r\033[K" << tr("{}: {} of {}", words::word_for(what.name), done, total);
    if (done > 0 && done < total) {
      const auto left = (now - state->started) * (total - done) / done;
      std::cerr << tr(", about {} s left",
                      std::chrono::duration_cast<std::chrono::seconds>(left).count() + 1);
    }
    std::cerr << std::flush;
  };
}

bool progress_lines_are_wanted() {
  const char* wanted = std::getenv("VERSOLAY_PROGRESS");
  return wanted != nullptr && std::string_view(wanted) == "lines";
}

Progress progress_lines() {
  auto state = std::make_shared<State>();
  return [state](int done, int total, Term what) {
    const std::scoped_lock lock(state->mutex);
    const auto now = Clock::now();
    if (done < total && now - state->last_shown < kPause) return;
    state->last_shown = now;
    const Json line = {
        {"progress", {{"what", words::word_for(what.name)}, {"done", done}, {"total", total}}}};
    std::cerr << line.dump() << "\n" << std::flush;
  };
}

void clear_progress() {
  if (line_is_shown) std::cerr << "\r\033[K" << std::flush;
  line_is_shown = false;
}

}  // namespace versolay::cli
