#include "scan/plane_budget.h"

namespace versolay {

std::shared_ptr<const void> PlaneBudget::take(std::int64_t bytes) {
  std::unique_lock lock(mutex_);
  room_.wait(lock, [&] { return taken_ == 0 || taken_ + bytes <= bytes_; });
  taken_ += bytes;
  return {this, [bytes](PlaneBudget* budget) { budget->give_back(bytes); }};
}

void PlaneBudget::give_back(std::int64_t bytes) {
  const std::scoped_lock lock(mutex_);
  taken_ -= bytes;
  room_.notify_all();
}

}  // namespace versolay
