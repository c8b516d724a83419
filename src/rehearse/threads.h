// Work shared among threads, when the order does not matter.
#pragma once

#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace versolay::rehearse {

/// Calls work(i) for i = 0 .. count - 1, at most `threads` at a time. The first exception is
/// thrown again here, after all threads have stopped.
template <class Work>
void in_parallel(int count, int threads, const Work& work) {
  std::atomic<int> next{0};
  std::exception_ptr failure;
  std::mutex failure_mutex;
  const auto run = [&] {
    for (int i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::scoped_lock lock(failure_mutex);
        if (!failure) failure = std::current_exception();
        next = count;
      }
    }
  };
  std::vector<std::thread> helpers;
  for (int t = 1; t < threads && t < count; ++t) helpers.emplace_back(run);
  run();
  for (std::thread& t : helpers) t.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace versolay::rehearse
