#include "cli/terminal.h"

#include <chrono>
#include <cmath>
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
constexpr double kLeastShare = 0.02;  // of the work: before it, the time left is a guess

bool line_is_shown = false;

struct State {
  Clock::time_point started = Clock::now();
  Clock::time_point last_shown{};
  double whole = 0.0;
  std::mutex mutex;
};

double seconds(Clock::duration time) { return std::chrono::duration<double>(time).count(); }

}  // namespace

std::string time_left_words(double seconds) {
  if (seconds <= 0) return "";
  if (seconds < 90) {
    const int step = seconds < 20 ? 1 : 10;
    return tr("about {} s left", static_cast<int>(std::ceil(seconds / step)) * step);
  }
  return tr("about {} minutes left", static_cast<int>(std::ceil(seconds / 60)));
}

std::string progress_words(const WorkDone& work, double seconds_so_far) {
  const double share = work.total > 0 ? static_cast<double>(work.done) / work.total : 0.0;
  std::string text = tr("{}: {} of {}", words::word_for(work.what.name), work.done, work.total);
  if (std::abs(share - work.whole) > 1e-9) {  // a part of longer work
    text += tr(", {} % in total", static_cast<int>(100 * work.whole));
  }
  if (work.whole >= kLeastShare && work.whole < 1) {
    text += ", " + time_left_words(seconds_so_far * (1 - work.whole) / work.whole);
  }
  return text;
}

Progress terminal_progress() {
  auto state = std::make_shared<State>();
  return [state](const WorkDone& work) {
    const std::scoped_lock lock(state->mutex);
    const auto now = Clock::now();
    if (work.whole < state->whole) state->started = now;  // something else has begun
    state->whole = work.whole;
    if (now - state->started < kSilence || now - state->last_shown < kPause) return;
    state->last_shown = now;
    line_is_shown = true;
    std::cerr << "\r\033[K" << progress_words(work, seconds(now - state->started)) << std::flush;
  };
}

bool progress_lines_are_wanted() {
  const char* wanted = std::getenv("VERSOLAY_PROGRESS");
  return wanted != nullptr && std::string_view(wanted) == "lines";
}

Progress progress_lines() {
  auto state = std::make_shared<State>();
  return [state](const WorkDone& work) {
    const std::scoped_lock lock(state->mutex);
    const auto now = Clock::now();
    if (work.done < work.total && now - state->last_shown < kPause) return;
    state->last_shown = now;
    const Json line = {
        {"progress",
         {{"what", words::word_for(work.what.name)}, {"done", work.done}, {"total", work.total}}}};
    std::cerr << line.dump() << "\n" << std::flush;
  };
}

void clear_progress() {
  if (line_is_shown) std::cerr << "\r\033[K" << std::flush;
  line_is_shown = false;
}

}  // namespace versolay::cli
