// Many independent items of work on all cores.
#pragma once

#include <functional>

namespace versolay {

/// Calls worker(item) once for every item 0..count-1. `make_worker` is called once per thread, so
/// that each thread has its own scratch memory. An item must depend on its number only: then the
/// results are the same for any number of threads. Threads fetch `chunk` items at a time: 1 for
/// long items. threads = 0: one per core. An exception of a worker stops the work and is thrown
/// again.
void for_each_item(int count, int chunk, int threads,
                   const std::function<std::function<void(int)>()>& make_worker);

}  // namespace versolay
