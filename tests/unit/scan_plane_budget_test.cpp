#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>
#include <vector>

#include "scan/plane_budget.h"

namespace versolay {
namespace {

TEST(PlaneBudget, IsNeverExceededByMany) {
  PlaneBudget budget(100);
  std::atomic<int> taken{0};
  std::atomic<int> most{0};
  std::vector<std::jthread> threads;
  for (int i = 0; i < 8; ++i) {
    threads.emplace_back([&] {
      for (int k = 0; k < 20; ++k) {
        const auto room = budget.take(40);
        const int now = taken += 40;
        int before = most;
        while (before < now && !most.compare_exchange_weak(before, now)) {
        }
        std::this_thread::sleep_for(std::chrono::microseconds(200));
        taken -= 40;
      }
    });
  }
  threads.clear();
  EXPECT_EQ(most, 80);  // two at a time, and two did meet
}

TEST(PlaneBudget, LetsAPlaneThatIsLargerThanItPassAlone) {
  PlaneBudget budget(100);
  auto room = budget.take(500);
  std::atomic<bool> second{false};
  std::jthread other([&] {
    const auto later = budget.take(10);
    second = true;
  });
  std::this_thread::sleep_for(std::chrono::milliseconds(20));
  EXPECT_FALSE(second);
  room.reset();
  other.join();
  EXPECT_TRUE(second);
}

}  // namespace
}  // namespace versolay
