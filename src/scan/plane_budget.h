// How many grey planes may be in memory at the same time, when scans are read in parallel.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <memory>
#include <mutex>

namespace versolay {

/// Bytes that planes may take together. A plane waits until there is room for it; one that is
/// larger than the whole budget waits until it is alone. No holder of a plane may take a second
/// one, or it may wait for itself.
class PlaneBudget {
 public:
  explicit PlaneBudget(std::int64_t bytes) : bytes_(bytes) {}
  PlaneBudget(const PlaneBudget&) = delete;
  PlaneBudget& operator=(const PlaneBudget&) = delete;

  /// Room for a plane, until the last copy of the result is gone. The budget must outlive it.
  std::shared_ptr<const void> take(std::int64_t bytes);

 private:
  void give_back(std::int64_t bytes);

  const std::int64_t bytes_;
  std::int64_t taken_ = 0;
  std::mutex mutex_;
  std::condition_variable room_;
};

}  // namespace versolay
