#include "core/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace versolay {

void for_each_item(int count, int chunk, int threads,
                   const std::function<std::function<void(int)>()>& make_worker) {
  if (threads <= 0) threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  threads = std::clamp(threads, 1, std::max(1, (count + chunk - 1) / chunk));

  std::atomic<int> next{0};
  std::mutex mutex;
  std::exception_ptr failure;
  const auto work = [&] {
    try {
      const auto worker = make_worker();
      for (;;) {
        const int first = next.fetch_add(chunk);
        if (first >= count) return;
        for (int item = first; item < std::min(count, first + chunk); ++item) worker(item);
      }
    } catch (...) {
      const std::scoped_lock lock(mutex);
      failure = std::current_exception();
      next = count;
    }
  };
  std::vector<std::thread> others;
  try {
    for (int i = 1; i < threads; ++i) others.emplace_back(work);
  } catch (const std::system_error&) {  // no more to be had; in a browser there is but this one
  }
  work();
  for (std::thread& other : others) other.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace versolay
