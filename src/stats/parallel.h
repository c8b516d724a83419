// Many independent items of work on all cores.
#pragma once

#include <functional>

namespace versolay::stats {

/// Calls worker(item) once for every item 0..count-1. `make_worker` is called once per thread, so
/// that each thread has its own scratch memory. An item must depend on its number only: then the
/// results are the same for any number of threads. threads = 0: one per core.
void for_each_item(int count, int threads,
                   const std::function<std::function<void(int)>()>& make_worker);

}  // namespace versolay::stats
