#include <gmock/gmock.h>

#include <algorithm>
#include <set>

#include "profile/comparison.h"
#include "profile/experiment_plan.h"
#include "profile/monitor.h"
#include "profile/profile_json.h"
#include "profile/recommendation.h"
#include "stats/random.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::kLabels;
using testing::nine_cards;
using testing::profile_of;
using testing::readings_of;

std::vector<Registration> feeds_like(int n, double dx, double sd, std::uint64_t seed) {
  stats::Random random(seed);
  std::vector<Registration> feeds;
  for (int i = 0; i < n; ++i) {
    feeds.push_back({dx + sd * random.normal(), -.3 + sd * random.normal(), .9 + random.normal()});
  }
  return feeds;
}

const PrinterProfile& ten_feeds() {
  static const PrinterProfile profile = profile_of(feeds_like(10, .3, .2, 1));
  return profile;
}

Check check_of(const std::vector<Registration>& feeds, bool corrected = false) {
  return check_readings(ten_feeds(), readings_of(feeds, "NEWS"), corrected).value();
}

TEST(CheckReadings, PoolsFeedsOfTheSamePrinter) {
  int pooled = 0;
  for (std::uint64_t seed = 10; seed < 30; ++seed) {
    pooled += check_of(feeds_like(6, .3, .2, seed)).verdict == CheckVerdict::pool ? 1 : 0;
  }
  EXPECT_GE(pooled, 15);  // four questions at 1 to 5 % each
}

TEST(CheckReadings, RecentresWhenTheMeanMovedAndStartsAgainWhenTheSpreadDid) {
  const Check moved = check_of(feeds_like(6, 1.3, .2, 5));
  EXPECT_EQ(moved.verdict, CheckVerdict::recentre);
  EXPECT_TRUE(moved.mean_moved);
  EXPECT_GT(moved.moved[0].low, 0.0);
  EXPECT_EQ(check_of(feeds_like(12, .3, 1.6, 6)).verdict, CheckVerdict::start_again);
}

TEST(CheckReadings, OneSheetIsJudgedByItsDistanceOnly) {
  EXPECT_FALSE(check_of({{.35, -.25, 1.0}}).feeds[0].out);
  const Check far = check_of({{2.5, -.3, .9}});
  EXPECT_TRUE(far.feeds[0].out);
  EXPECT_EQ(far.verdict, CheckVerdict::recentre);
}

TEST(CheckReadings, ProductionSheetsThatAreRightReadZero) {
  const std::vector<Registration> feeds = feeds_like(6, .3, .2, 31);
  std::vector<Registration> residuals = feeds;
  for (Registration& r : residuals) {
    r = registration_from(r.landed_from_page() * ten_feeds().mean.page_from_wanted());
  }
  EXPECT_EQ(check_of(residuals, true).verdict, check_of(feeds).verdict);
  EXPECT_NEAR(check_of(residuals, true).moved[0].estimate, check_of(feeds).moved[0].estimate, 1e-9);
  EXPECT_GT(std::abs(check_of(residuals, false).moved[0].estimate), 0.15);
}

TEST(CheckReadings, RefusesAProfileThatCannotTell) {
  const auto code = [](const PrinterProfile& profile, const std::vector<Registration>& feeds) {
    return check_readings(profile, readings_of(feeds), false).refusal().code;
  };
  EXPECT_EQ(code(profile_of({eight_feeds()[0]}), eight_feeds()), "spread_unknown");
  EXPECT_EQ(code(ten_feeds(), {}), "no_sheets");
}

TEST(CheckReadings, DoesWithoutTheSingleSheetsOfTheProfile) {
  PrinterProfile bare = ten_feeds();
  bare.feeds.clear();
  const Readings fresh = readings_of(eight_feeds());
  const Check with = check_readings(ten_feeds(), fresh, false).value();
  const Check without = check_readings(bare, fresh, false).value();
  EXPECT_FALSE(without.spread_known);
  EXPECT_EQ(without.mean_moved, with.mean_moved);
  for (std::size_t i = 0; i < with.feeds.size(); ++i) {
    EXPECT_DOUBLE_EQ(without.feeds[i].t2, with.feeds[i].t2);
  }
  EXPECT_EQ(updated_profile(bare, {"new.json", fresh}, without).refusal().code, "no_feeds");
}

TEST(UpdatedProfile, PoolsOrStartsAgainAndKeepsItsHistory) {
  const Readings fresh = readings_of(feeds_like(6, .3, .2, 11), "NEWS");
  Check check = check_readings(ten_feeds(), fresh, false).value();
  check.verdict = CheckVerdict::pool;
  const PrinterProfile pooled = updated_profile(ten_feeds(), {"new.json", fresh}, check).value();
  EXPECT_EQ(pooled.n_feeds, 16);
  EXPECT_EQ(pooled.sessions.size(), 2U);
  EXPECT_EQ(pooled.history.size(), 2U);
  EXPECT_EQ(pooled.printer, kLabels.printer);
  PrinterProfile studied = ten_feeds();
  studied.studies.fed_round = FedRoundCheck{5, 5, {0.01, 0.0}, {0.02, 0.02}, 0.4, false};
  EXPECT_EQ(
      updated_profile(studied, {"new.json", fresh}, check).value().studies.fed_round->sheets_round,
      5);
  const Json json = json_of(pooled);
  EXPECT_EQ(json_of(profile_from(json, "P.json")), json);

  check.verdict = CheckVerdict::start_again;
  const PrinterProfile again = updated_profile(pooled, {"new.json", fresh}, check).value();
  EXPECT_EQ(again.n_feeds, 6);
  EXPECT_EQ(again.history.size(), 3U);
}

TEST(UpdatedProfile, WillNotCountTheSameSheetsTwice) {
  const Readings same = readings_of(feeds_like(10, .3, .2, 1));
  Check check = check_readings(ten_feeds(), same, false).value();
  check.verdict = CheckVerdict::pool;
  EXPECT_EQ(updated_profile(ten_feeds(), {"again.json", same}, check).refusal().code,
            "duplicate_sheet");
}

SetUp set_up(const std::string& name, const std::vector<Registration>& feeds) {
  return {name, profile_of(feeds)};
}

TEST(CompareSetUps, TellsADifferenceOfTheConstantPartAndNotOneThatIsNotThere) {
  const versolay::SetUp rear = set_up("rear", feeds_like(10, .3, .15, 2));
  const Comparison differs =
      compare_set_ups(rear, set_up("front", feeds_like(10, .9, .15, 3)), false).value();
  EXPECT_TRUE(differs.differs);
  EXPECT_TRUE(differs.components[0].differs);
  EXPECT_FALSE(differs.components[1].differs);
  EXPECT_GT(differs.components[0].difference.low, 0.2);
  EXPECT_LT(differs.components[0].difference.high, 1.0);
  const Comparison same =
      compare_set_ups(rear, set_up("again", feeds_like(10, .3, .15, 4)), false).value();
  EXPECT_FALSE(same.differs);
  EXPECT_GT(same.components[0].detectable_difference, 0.1);
}

TEST(CompareSetUps, InPairsWhatAPairSharesDropsOut) {
  const std::vector<Registration> a = feeds_like(8, .3, .3, 12);
  std::vector<Registration> b = a;
  for (std::size_t i = 0; i < b.size(); ++i) b[i].dx_mm += .1 + .01 * static_cast<double>(i % 3);
  const auto differs = [&](bool paired) {
    return compare_set_ups(set_up("a", a), set_up("b", b), paired).value().components[0].differs;
  };
  EXPECT_FALSE(differs(false));
  EXPECT_TRUE(differs(true));
  b.pop_back();
  EXPECT_EQ(compare_set_ups(set_up("a", a), set_up("b", b), true).refusal().code, "not_paired");
}

TEST(CompareSetUps, TellsASpreadThatIsFourTimesAsLarge) {
  const Comparison c = compare_set_ups(set_up("a", feeds_like(20, .3, .1, 7)),
                                       set_up("b", feeds_like(20, .3, .4, 8)), false)
                           .value();
  EXPECT_TRUE(c.components[0].spread_differs);
  EXPECT_GT(c.components[0].spread_ratio.low, 1.0);
}

TEST(ChanceTest, FindsTheConstantPartOfTheEightFeeds) {
  const ChanceTest off = test_chance(set_up("off", eight_feeds()));
  EXPECT_FALSE(off.only_chance_possible);
  EXPECT_GT(off.constant_share, 0.6);
  std::vector<Registration> centred = eight_feeds();
  for (Registration& r : centred) r = {r.dx_mm - .34125, r.dy_mm + .3675, r.rotation_mrad - .95};
  const ChanceTest chance = test_chance(set_up("centred", centred));
  EXPECT_TRUE(chance.only_chance_possible);
  EXPECT_EQ(chance.constant_share, 0.0);
}

// The plain plan is the row of the table; several feeds a sheet come below it with less paper.
TEST(Plan, PutsSheetsThatAreFedSeveralTimesBesidePlainOnes) {
  const SampleSizePlan plan = plan_sample_size({.sd_mm = 0.2});
  ASSERT_EQ(plan.choices.size(), 4u);
  const auto choice = [&](int sheets, int passes) {
    for (const PlanChoice& c : plan.choices) {
      if (c.sheets == sheets && c.passes == passes) return c;
    }
    throw std::runtime_error("no such choice");
  };
  const PlanChoice plain = choice(plan.advised, 1);
  const auto row = static_cast<std::size_t>(plan.advised - plan.rows.front().sheets);
  EXPECT_NEAR(plain.oversize_mm, plan.rows[row].oversize_mm, 0.06 * plain.oversize_mm);
  EXPECT_EQ(plain.feeds, 2 * plan.advised);
  EXPECT_LT(choice(5, 4).oversize_mm, plain.oversize_mm);
  EXPECT_LT(choice(3, 5).oversize_mm, 1.02 * plain.oversize_mm);
  EXPECT_EQ(choice(3, 5).scans, 6);
  EXPECT_EQ(choice(3, 5).feeds, 30);
}

// What plan foretells is what advise gives on average, within 5 % (here on simulated printers of
// the same spread, other seeds than plan's own).
TEST(PlanSheets, ForetellWhatAdviseGivesOnAverage) {
  const SampleSizePlan plan = plan_sample_size({.sd_mm = 0.2});
  AdviceRequest request;
  request.grid = nine_cards();
  for (const int n : {5, 10}) {
    double sum = 0.0;
    constexpr int kRuns = 60;
    for (int i = 0; i < kRuns; ++i) {
      stats::Random random(77, static_cast<std::uint64_t>(100 * n + i));
      std::vector<Registration> feeds;
      for (int k = 0; k < n; ++k) {  // a little rotation: without any, its reading is assumed
        feeds.push_back({0.2 * random.normal(), 0.2 * random.normal(), 0.01 * random.normal()});
      }
      const Advice advice =
          advise(profile_of(feeds), request, {.populations = 20, .sheets = 50}).value();
      sum += advice.if_normal.x_mm;
    }
    const double foretold = plan.rows[static_cast<std::size_t>(n - 4)].oversize_mm;
    EXPECT_NEAR(foretold / (sum / kRuns), 1.0, 0.08) << n;
  }
  // SOURCE  two independent normals within +-q together in 95 of 100: q = 2.2365 (pnorm in R).
  EXPECT_NEAR(plan.limit_mm, 0.2 * 2.2365, 0.003);
  EXPECT_LE(plan.advised, 10);
  EXPECT_EQ(plan_sample_size({.coverage = 0.99, .sd_mm = 1.0}).advised, 15);
  EXPECT_THROW(plan_sample_size({.sd_mm = 0.0}), Error);
}

// A threefold spread in 5 new sheets against 10 old, and no more alarms than 5 % when nothing has
// changed. Tables with more of them: tests/bench/README.md.
TEST(CheckReadings, SeesAThreefoldSpreadInFiveSheetsAndRarelyCriesWolf) {
  int seen = 0;
  int alarms = 0;
  constexpr int kRuns = 120;
  for (int i = 0; i < kRuns; ++i) {
    stats::Random random(78, static_cast<std::uint64_t>(i));
    const auto feeds = [&](int n, double spread) {
      std::vector<Registration> list;
      for (int k = 0; k < n; ++k) {
        list.push_back({spread * 0.2 * random.normal(), spread * 0.2 * random.normal(),
                        spread * 0.7 * random.normal()});
      }
      return list;
    };
    const PrinterProfile profile = profile_of(feeds(10, 1));
    const auto check = [&](double spread) {
      return check_readings(profile, readings_of(feeds(5, spread), "NEWS"), false).value();
    };
    seen += check(3).spread_changed ? 1 : 0;
    alarms += check(1).verdict != CheckVerdict::pool ? 1 : 0;
  }
  EXPECT_GT(seen, kRuns / 2);
  EXPECT_LE(alarms, kRuns * 0.11);  // 5 % within three standard errors
}

TEST(RunOrder, HoldsEverySetUpOnceInEveryBlockInAnOrderThatTheSeedGives) {
  const RunOrderRequest request{{"rear", "front", "manual"}, 6, 5};
  const std::vector<versolay::Run> runs = run_order(request);
  ASSERT_EQ(runs.size(), 18U);
  std::set<std::vector<std::size_t>> orders;
  for (std::size_t b = 0; b < 6; ++b) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < 3; ++i) order.push_back(runs[3 * b + i].set_up);
    orders.insert(order);
    std::sort(order.begin(), order.end());
    EXPECT_THAT(order, ::testing::ElementsAre(0U, 1U, 2U));
  }
  EXPECT_GT(orders.size(), 1U);
  const std::vector<versolay::Run> again = run_order(request);
  EXPECT_TRUE(std::equal(
      runs.begin(), runs.end(), again.begin(),
      [](const versolay::Run& a, const versolay::Run& b) { return a.set_up == b.set_up; }));
  EXPECT_THROW(run_order({{"alone"}, 6, 1}), Error);
}

// What the power says, by playing paired comparisons: three components share the 5 %.
TEST(RunPower, IsThatOfThePairedComparison) {
  const double shift = run_power(6).paired_difference;
  int found = 0;
  int runs = 0;
  constexpr int kRuns = 300;
  for (int i = 0; i < kRuns; ++i) {
    stats::Random random(79, static_cast<std::uint64_t>(i));
    std::vector<Registration> a;
    std::vector<Registration> b;
    for (int k = 0; k < 6; ++k) {
      a.push_back({random.normal(), random.normal(), random.normal()});
      b.push_back({random.normal() + shift * std::sqrt(2.0), random.normal(), random.normal()});
    }
    const auto comparison = compare_set_ups(set_up("a", a), set_up("b", b), true);
    if (!comparison) continue;  // one looked like a misfeed, and its pair is lost
    ++runs;
    found += comparison.value().differs ? 1 : 0;
  }
  ASSERT_GT(runs, kRuns / 2);
  EXPECT_NEAR(found / static_cast<double>(runs), 0.8, 0.09);
  EXPECT_GT(run_power(6).spread_ratio, run_power(20).spread_ratio);
  EXPECT_EQ(run_power(3).spread_ratio, 0.0);
}

}  // namespace
}  // namespace versolay
