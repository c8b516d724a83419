// The spread of sheets that were fed several times, against what it was drawn from.
#include <gmock/gmock.h>

#include <Eigen/Cholesky>

#include "profile/estimate.h"
#include "profile/pass_components.h"
#include "stats/random.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

const RegistrationMatrix kKept = [] {
  RegistrationMatrix kept = RegistrationMatrix::Zero();
  kept.diagonal().head<3>().setOnes();
  return kept;
}();

Eigen::Matrix3d covariance(double xx, double yy, double rr, double xy) {
  Eigen::Matrix3d c = Eigen::Vector3d(xx, yy, rr).asDiagonal();
  c(0, 1) = c(1, 0) = xy;
  return c;
}

const Eigen::Matrix3d kFront = covariance(.010, .020, .30, .005);
const Eigen::Matrix3d kBack = covariance(.030, .010, .20, -.004);
const Eigen::Matrix3d kSheet = covariance(.008, .004, .05, .0);

Eigen::Vector3d draw(const Eigen::Matrix3d& covariance, stats::Random& random) {
  const Eigen::Vector3d z(random.normal(), random.normal(), random.normal());
  return covariance.llt().matrixL() * z;
}

Registration rigid(const Eigen::Vector3d& v) { return {v[0], v[1], v[2]}; }

struct Design {
  int sheets;
  int passes;
  Eigen::Matrix3d sheet = kSheet;
  double drift_mm = 0.0;
};

std::vector<ProfileFeed> feeds(const Design& design, stats::Random& random) {
  std::vector<ProfileFeed> list;
  for (int s = 1; s <= design.sheets; ++s) {
    const Eigen::Vector3d of_sheet = draw(design.sheet, random);
    const Eigen::Vector3d front = draw(kFront, random);
    const Eigen::Vector3d back = draw(kBack, random);
    for (int pass = 1; pass <= design.passes; ++pass) {
      ProfileFeed& feed = list.emplace_back();
      feed.sheet = s;
      feed.run = "K7QF";
      feed.pass = pass;
      const Eigen::Vector3d f = pass == 1 ? front : draw(kFront, random);
      Eigen::Vector3d b = pass == 1 ? back : draw(kBack, random);
      b[1] += design.drift_mm * (pass - 1);
      feed.registration = rigid(of_sheet + b - f);
      feed.verso_pass_lay = rigid(b - back);
      feed.recto_pass_lay =
          Registration::from(seen_from_back(rigid(f - front), TurnAxis::vertical));
    }
  }
  return list;
}

template <class Value>
Value mean_over(int repetitions, const Design& design,
                const std::function<Value(const std::vector<ProfileFeed>&)>& of, Value sum) {
  for (int r = 0; r < repetitions; ++r) {
    stats::Random random(static_cast<std::uint64_t>(r), 7);
    sum += of(feeds(design, random)) / repetitions;
  }
  return sum;
}

// e -> M f M with the mirror of the turn: written out by the affine maps.
TEST(PassComponents, AFrontIsSeenFromTheBackInTheMirror) {
  const Registration r{.4, -.3, 1.2, 150, -80, .7};
  for (const TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
    const Registration seen = Registration::from(seen_from_back(r, axis));
    for (const Eigen::Vector2d& p :
         {Eigen::Vector2d(0, 0), Eigen::Vector2d(80, -120), Eigen::Vector2d(-30, 55)}) {
      const auto mirror = verso_from_recto(axis);
      const Eigen::Vector2d there = mirror.linear() * p;  // the same place on the front
      const Eigen::Vector2d moved =
          mirror.linear() * r.displacement_mm(Point<VersoMm>::from(there));
      EXPECT_LT((seen.displacement_mm(Point<VersoMm>::from(p)) - moved).norm(), 1e-12);
    }
  }
}

TEST(PassComponents, PartsAreThoseThatWereDrawn) {
  const Design design{6, 4};
  const auto part = [&](RegistrationMatrix PassComponents::*which) {
    return mean_over<RegistrationMatrix>(
        2000, design,
        [&](const auto& f) -> RegistrationMatrix {
          return pass_components(f, TurnAxis::vertical, kKept).*which;
        },
        RegistrationMatrix::Zero());
  };
  // 2,000 x 18 degrees of freedom: a variance is known to 0.75 %.
  const RegistrationMatrix front = part(&PassComponents::front_covariance);
  const RegistrationMatrix back = part(&PassComponents::back_covariance);
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(front(i, i), kFront(i, i), 0.03 * kFront(i, i));
    EXPECT_NEAR(back(i, i), kBack(i, i), 0.03 * kBack(i, i));
  }
  EXPECT_NEAR(front(0, 1), kFront(0, 1), 0.0005);
  EXPECT_NEAR(back(0, 1), kBack(0, 1), 0.0005);
}

// One sheet's worth of usual sheets (0.3 of both passes) is among the m of the sample.
TEST(PassComponents, TheSpreadIsThatOfAPlainFeed) {
  for (const Design& design : {Design{3, 5}, Design{5, 4}, Design{8, 2}}) {
    const RegistrationMatrix spread = mean_over<RegistrationMatrix>(
        3000, design,
        [](const auto& f) -> RegistrationMatrix {
          const stats::Sample s = equivalent_sample(f, TurnAxis::vertical, kKept);
          return s.scatter / s.dof;
        },
        RegistrationMatrix::Zero());
    const Eigen::Matrix3d passes = kFront + kBack;
    const Eigen::Matrix3d whole = passes + kSheet + (0.3 * passes - kSheet) / design.sheets;
    for (int i = 0; i < 3; ++i) EXPECT_NEAR(spread(i, i), whole(i, i), 0.05 * whole(i, i));
    EXPECT_NEAR(spread(0, 1), whole(0, 1), 0.0015);
  }
}

TEST(PassComponents, ItIsNeverWorthMoreFeedsThanThereWere) {
  for (int r = 0; r < 500; ++r) {
    stats::Random random(static_cast<std::uint64_t>(r), 3);
    const stats::Sample s = equivalent_sample(feeds({3, 5}, random), TurnAxis::vertical, kKept);
    EXPECT_GE(s.dof, 1);
    EXPECT_LE(s.dof, 14);
    EXPECT_GE(s.n, 3);
    EXPECT_LE(s.n, 15);
  }
}

TEST(PassComponents, WithoutPassesItIsThePlainSample) {
  stats::Random random(1, 1);
  const auto plain = feeds({7, 1}, random);
  const stats::Sample s = equivalent_sample(plain, TurnAxis::vertical, kKept);
  RegistrationVector mean = RegistrationVector::Zero();
  for (const ProfileFeed& f : plain) mean += f.registration.vec() / 7.0;
  EXPECT_EQ(s.n, 7);
  EXPECT_EQ(s.dof, 6);
  EXPECT_LT((s.mean - mean).norm(), 1e-12);
}

// At a level of 0.05, three components by Bonferroni.
TEST(PassComponents, TestsSpeakAsOftenAsTheirLevelSaysAndSeeWhatIsThere) {
  const auto share = [](const Design& design, double PassComponents::*p) {
    return mean_over<double>(
        1000, design,
        [&](const auto& f) {
          return pass_components(f, TurnAxis::vertical, kKept).*p < 0.05 ? 1.0 : 0.0;
        },
        0.0);
  };
  const Eigen::Matrix3d hardly = 1e-12 * Eigen::Matrix3d::Identity();
  EXPECT_LT(share({5, 4, hardly}, &PassComponents::sheets_differ_p), 0.07);
  EXPECT_LT(share({5, 4, hardly}, &PassComponents::drift_p), 0.07);
  EXPECT_GT(share({5, 4, 4 * (kFront + kBack)}, &PassComponents::sheets_differ_p), 0.8);
  EXPECT_GT(share({5, 4, hardly, 0.2}, &PassComponents::drift_p), 0.8);
}

/// Two sheets, the first fed three times.
Readings some_readings() {
  Readings readings = testing::readings_of(testing::eight_feeds());
  for (SheetReading& sheet : readings.sheets) {
    for (int pass = 2; pass <= 3; ++pass) {
      const double p = pass + 0.1 * sheet.sheet;
      sheet.recto_passes.push_back({pass, {.01 * p, -.02, .3}, RegistrationMatrix::Zero()});
      sheet.verso_passes.push_back({pass, {-.03, .01 * p, -.1}, RegistrationMatrix::Zero()});
    }
  }
  readings.sheets[1].verso_passes.pop_back();  // its pass 3 cannot be used
  return readings;
}

TEST(PassComponents, AProfileHasARowForEveryPassOfBothSides) {
  const PrinterProfile p =
      estimate_profile({{"readings.json", some_readings()}}, testing::kLabels).value();
  EXPECT_EQ(p.n_sheets, 8);
  EXPECT_EQ(p.n_feeds, 23);
  ASSERT_EQ(p.feeds.size(), 23u);
  EXPECT_EQ(p.feeds[1].pass, 2);
  // b - M f M about the long edge: dx changes its sign, dy keeps it, rotation changes it.
  const RegistrationVector first = p.feeds[0].registration.vec();
  const RegistrationVector second = p.feeds[1].registration.vec();
  EXPECT_NEAR(second[0] - first[0], -.03 + .021, 1e-12);
  EXPECT_NEAR(second[1] - first[1], .021 + .02, 1e-12);
  EXPECT_NEAR(second[2] - first[2], -.1 + .3, 1e-12);
}

TEST(PassComponents, ASheetIsLeftOutWithAllItsPasses) {
  EstimateOptions options;
  options.leave_out = {{3, "", "torn"}};
  const PrinterProfile p =
      estimate_profile({{"readings.json", some_readings()}}, testing::kLabels, options).value();
  EXPECT_EQ(p.n_sheets, 8);
  EXPECT_EQ(p.n_feeds, 20);
  ASSERT_EQ(p.excluded.size(), 1u);
  EXPECT_EQ(p.excluded[0].sheet, 3);
  EXPECT_EQ(p.passes->sheets, 7);
}

TEST(PassComponents, ADoubtfulSheetIsLeftOutWithAllItsPasses) {
  Readings readings = some_readings();
  readings.sheets[4].warnings.push_back({"scan_lines_lost", {}});
  const PrinterProfile p =
      estimate_profile({{"readings.json", readings}}, testing::kLabels).value();
  EXPECT_EQ(p.passes->sheets, 7);
  EXPECT_EQ(p.excluded.size(), 1u);
  EXPECT_EQ(std::count_if(p.warnings.begin(), p.warnings.end(),
                          [](const Notice& n) { return n.code == "sheet_in_doubt"; }) +
                std::count_if(p.warnings.begin(), p.warnings.end(),
                              [](const Notice& n) { return n.code.starts_with("doubtful"); }),
            1);
}

}  // namespace
}  // namespace versolay
