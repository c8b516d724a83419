// Several scans of one side: what averages away, what does not, and who is told.
#include <gmock/gmock.h>

#include <Eigen/Dense>
#include <cmath>
#include <functional>

#include "registration/combined_features.h"
#include "registration/findings.h"
#include "registration/scan_checks.h"
#include "support/findings.h"
#include "support/noise.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using testing_support::Noise;

constexpr double kScanSdMm = 0.004;
constexpr double kRingSdMm = 0.008;
constexpr double kPaperSdMm = 0.006;
constexpr double kSwathSdMm = 0.005;

SideFeature hole(const std::string& id, double x, double y) {
  SideFeature f;
  f.id = id;
  f.at = {x, y};
  f.paper_sd_mm = kPaperSdMm;
  f.print.varying_along_mm2[1].diagonal().setConstant(kSwathSdMm * kSwathSdMm);
  return f;
}

SideFeature edge(const std::string& id, const Eigen::Vector2d& normal, double x, double y) {
  SideFeature f = hole(id, x, y);
  f.kind = FeatureKind::edge;
  f.normal = normal;
  return f;
}

Affine<PageMm, ScanPx> turned_by(double degrees) {
  const double a = degrees * M_PI / 180;
  Eigen::Matrix2d m;
  m << std::cos(a), -std::sin(a), std::sin(a), std::cos(a);
  return {m * 0.08, Eigen::Vector2d::Zero()};
}

/// A scan that shows these features; each is read by four rings of its own, at equal weights.
SideReading scan_of(std::vector<SideFeature> features, double scan_sd_mm = kScanSdMm) {
  SideReading scan;
  scan.identity = {parse_paper("a4"), Turn::long_edge, "TEST", 1, Side::recto};
  scan.scan_name = "scan.png";
  scan.rings_expected = 90;
  const auto n = static_cast<Eigen::Index>(features.size());
  scan.places.scan_covariance_mm2 =
      Eigen::MatrixXd::Identity(2 * n, 2 * n) * scan_sd_mm * scan_sd_mm;
  scan.places.ring_sd_mm = kRingSdMm;
  scan.places.ring_response = Eigen::MatrixXd::Zero(2 * n, 8 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const SideFeature& f = features[static_cast<std::size_t>(i)];
    for (int k = 0; k < 4; ++k) {
      // Named by the feature's identifier, so that another scan of it sees the same rings.
      const double id = static_cast<double>(std::hash<std::string>{}(f.id) % 100000);
      scan.rings.push_back({{}, {id, static_cast<double>(k)}, true});
      scan.places.ring_response.block<2, 2>(2 * i, 2 * (4 * i + k)) =
          Eigen::Matrix2d::Identity() / 4;
    }
  }
  scan.page_from_scan = turned_by(0);
  scan.places.features = std::move(features);
  return scan;
}

std::vector<SideFeature> four_holes() {
  return {hole("H1", -40, -136), hole("H2", 40, -136), hole("H3", 40, 136), hole("H4", -40, 136)};
}

double variance(const CombinedFeatures& c, std::size_t feature) {
  return c.covariance_mm2(static_cast<Eigen::Index>(2 * feature),
                          static_cast<Eigen::Index>(2 * feature));
}

TEST(CombinedFeatures, OneScanStaysAsItIs) {
  const SideReading scan = scan_of(four_holes());
  const CombinedFeatures c = combine_scans({scan});
  ASSERT_EQ(c.features.size(), 4u);
  EXPECT_NEAR(c.features[2].at.x, 40, 1e-12);
  const Eigen::MatrixXd expected =
      scan.places.scan_covariance_mm2 +
      kRingSdMm * kRingSdMm * scan.places.ring_response * scan.places.ring_response.transpose() +
      repeated_covariance_mm2(scan.places.features);
  EXPECT_LT((c.covariance_mm2 - expected).cwiseAbs().maxCoeff(), 1e-15);
  EXPECT_EQ(c.scan_variance_factor, 1.0);
  EXPECT_THAT(c.differences, testing::IsEmpty());
}

TEST(CombinedFeatures, OnlyTheErrorOfTheScansAveragesAway) {
  const CombinedFeatures one = combine_scans({scan_of(four_holes())});
  const CombinedFeatures many = combine_scans(std::vector<SideReading>(16, scan_of(four_holes())));
  const double repeated = variance(one, 0) - kScanSdMm * kScanSdMm;
  EXPECT_NEAR(variance(many, 0), repeated + many.scan_variance_factor * kScanSdMm * kScanSdMm / 16,
              1e-12);
  // What a swath of the print shares, between holes that lie on it; holes far along the page have
  // another swath.
  EXPECT_NEAR(one.covariance_mm2(0, 2), kSwathSdMm * kSwathSdMm, 1e-12);
  EXPECT_NEAR(many.covariance_mm2(0, 2), one.covariance_mm2(0, 2), 1e-12);
  EXPECT_NEAR(many.covariance_mm2(0, 4), 0.0, 1e-9);
}

TEST(CombinedFeatures, TheSharperScanCountsMore) {
  SideReading sharp = scan_of({hole("H1", 0.000, 0)}, 0.003);
  SideReading blunt = scan_of({hole("H1", 0.010, 0)}, 0.006);
  const CombinedFeatures c = combine_scans({sharp, blunt});
  EXPECT_NEAR(c.features[0].at.x, 0.010 / 5, 1e-12);  // weights 4 and 1
}

TEST(CombinedFeatures, HalvesMeetOnlyInWhatThePrintShares) {
  const auto all = four_holes();
  const CombinedFeatures c = combine_scans({scan_of({all[0], all[1]}), scan_of({all[2], all[3]})});
  const CombinedFeatures whole = combine_scans({scan_of(all)});
  ASSERT_EQ(c.features.size(), 4u);
  EXPECT_LT((c.covariance_mm2 - whole.covariance_mm2).cwiseAbs().maxCoeff(), 1e-15);
  EXPECT_THAT(c.differences, testing::IsEmpty());
}

TEST(CombinedFeatures, WhereAlongAnEdgeItWasSeenDoesNotMatter) {
  const Eigen::Vector2d up(0, -1);
  const CombinedFeatures c = combine_scans(
      {scan_of({edge("top-1", up, 10.0, -148.50)}), scan_of({edge("top-1", up, 10.3, -148.51)})});
  EXPECT_NEAR(c.features[0].at.x, 10.15, 1e-12);
  EXPECT_NEAR(c.features[0].at.y, -148.505, 1e-12);
  ASSERT_EQ(c.differences.size(), 1u);
  EXPECT_EQ(c.differences[0].values, 1);
  EXPECT_NEAR(c.differences[0].rms_mm, 0.010, 1e-12);
}

TEST(CombinedFeatures, DisagreementWidensTheStatement) {
  auto moved = four_holes();
  for (SideFeature& f : moved) f.at.x += 0.03;
  const CombinedFeatures calm = combine_scans({scan_of(four_holes()), scan_of(four_holes())});
  const CombinedFeatures torn = combine_scans({scan_of(four_holes()), scan_of(moved)});
  EXPECT_LT(calm.scan_variance_factor, 1.0);
  EXPECT_GT(torn.scan_variance_factor, 4.0);
  EXPECT_GT(variance(torn, 0), variance(calm, 0));
}

TEST(CombinedFeatures, ScansTurnedRoundAreToldFromRepeats) {
  SideReading turned = scan_of(four_holes());
  turned.page_from_scan = turned_by(181);
  SideReading askew = scan_of(four_holes());
  askew.page_from_scan = turned_by(4);
  const CombinedFeatures c = combine_scans({scan_of(four_holes()), askew, turned});
  ASSERT_EQ(c.differences.size(), 3u);
  EXPECT_FALSE(c.differences[0].turned);
  EXPECT_TRUE(c.differences[1].turned);
  EXPECT_TRUE(c.differences[2].turned);
}

/// The page is laid on the bed upright or half turned; what the bed does to a place is read as a
/// displacement on the page.
SideReading scan_through(const std::function<Eigen::Vector2d(const Eigen::Vector2d&)>& bed_error_mm,
                         bool half_turned) {
  const double bed_from_page = half_turned ? -1.0 : 1.0;
  auto seen = four_holes();
  for (SideFeature& f : seen) {
    const Eigen::Vector2d error = bed_error_mm(bed_from_page * f.at.vec());
    f.at = Point<PageMm>::from(f.at.vec() + bed_from_page * error);
  }
  SideReading scan = scan_of(std::move(seen));
  scan.page_from_scan = turned_by(half_turned ? 180 : 0);
  return scan;
}

double worst_error_mm(const CombinedFeatures& combined) {
  const auto truth = four_holes();
  double worst = 0.0;
  for (std::size_t i = 0; i < truth.size(); ++i) {
    worst = std::max(worst, (combined.features[i].at.vec() - truth[i].at.vec()).norm());
  }
  return worst;
}

// Source  The reversal of straightness measurement: an error that is the same at opposite places of
// the bed changes its sign on the page when the page is turned (Evans, Hocken and Estler, CIRP
// Annals 45, 1996, "Self-calibration: reversal, redundancy, error separation"; from memory).
TEST(Reversal, EvenErrorsOfTheBedCancelAndOddOnesStay) {
  const auto even = [](const Eigen::Vector2d& bed) {
    const Eigen::Vector2d u = bed / 150;
    return Eigen::Vector2d(0.05 * u.y() * u.y() - 0.02 * u.x() * u.y(),
                           0.03 + 0.04 * u.x() * u.x());
  };
  const auto odd = [](const Eigen::Vector2d& bed) {
    const Eigen::Vector2d u = bed / 150;
    return Eigen::Vector2d(0.05 * u.y(), 0.04 * u.x() + 0.03 * std::pow(u.y(), 3));
  };
  EXPECT_GT(worst_error_mm(combine_scans({scan_through(even, false)})), 0.03);
  EXPECT_LT(worst_error_mm(combine_scans({scan_through(even, false), scan_through(even, true)})),
            1e-9);
  EXPECT_NEAR(worst_error_mm(combine_scans({scan_through(odd, false), scan_through(odd, true)})),
              worst_error_mm(combine_scans({scan_through(odd, false)})), 1e-9);
}

/// Scans drawn from the stated errors: the combination errs as much as it says. 400 sheets a seed.
class CombinedCoverage : public testing::TestWithParam<unsigned> {};
INSTANTIATE_TEST_SUITE_P(Seeds, CombinedCoverage, testing::Values(1u, 2u, 3u));

TEST_P(CombinedCoverage, TheStatedCovarianceIsThatOfTheError) {
  Noise noise(GetParam());
  double chi2 = 0.0;
  int values = 0;
  for (int sheet = 0; sheet < 400; ++sheet) {
    const auto truth = four_holes();
    const SideReading pattern = scan_of(truth);
    const Eigen::VectorXd ring_errors =
        noise.vector(pattern.places.ring_response.cols(), kRingSdMm);
    const Eigen::MatrixXd repeated = repeated_covariance_mm2(truth);
    const Eigen::VectorXd repeated_errors =
        Eigen::MatrixXd(repeated.llt().matrixL()) * noise.vector(repeated.rows(), 1.0);
    std::vector<SideReading> scans;
    for (const double sd : {0.004, 0.004, 0.012}) {
      SideReading scan = scan_of(truth, sd);
      const Eigen::VectorXd error =
          noise.vector(8, sd) + scan.places.ring_response * ring_errors + repeated_errors;
      for (std::size_t i = 0; i < 4; ++i) {
        scan.places.features[i].at = Point<PageMm>::from(
            scan.places.features[i].at.vec() + error.segment<2>(static_cast<Eigen::Index>(2 * i)));
      }
      scans.push_back(std::move(scan));
    }
    const CombinedFeatures c = combine_scans(scans);
    Eigen::VectorXd error(8);
    for (std::size_t i = 0; i < 4; ++i) {
      error.segment<2>(static_cast<Eigen::Index>(2 * i)) =
          c.features[i].at.vec() - truth[i].at.vec();
    }
    chi2 += error.dot(c.covariance_mm2.llt().solve(error));
    values += 8;
  }
  // 3,200 values: standard error of their mean square 0.025.
  EXPECT_NEAR(chi2 / values, 1.0, 0.1);
}

std::optional<Refusal> judge(const std::vector<SideReading>& scans, Notices& warnings) {
  return check_repeats(scans, combine_scans(scans), warnings);
}

SideReading moved_by(double mm, double degrees = 0.0) {
  auto features = four_holes();
  for (SideFeature& f : features) f.at = {f.at.x + mm, f.at.y + mm};
  SideReading scan = scan_of(features);
  scan.page_from_scan = turned_by(degrees);
  return scan;
}

TEST(CheckRepeats, SpeaksAtItsLimits) {
  const SideReading first = moved_by(0.0);
  Notices warnings;
  EXPECT_FALSE(judge({first, moved_by(0.029)}, warnings));
  EXPECT_FALSE(judge({first, moved_by(0.099, 180)}, warnings));
  EXPECT_THAT(warnings, testing::IsEmpty());
  EXPECT_FALSE(judge({first, moved_by(0.031)}, warnings));
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_EQ(warnings[0].code, "repeat_differs");
  EXPECT_NEAR(testing_support::fact<double>(warnings[0], "off_mm"), 0.031, 1e-6);
  EXPECT_FALSE(judge({first, moved_by(0.101, 180)}, warnings));
  EXPECT_EQ(warnings.at(1).code, "scanner_stretches");
  EXPECT_EQ(judge({first, moved_by(0.061)}, warnings)->code, "repeat_differs");
  EXPECT_EQ(judge({first, moved_by(0.201, 180)}, warnings)->code, "scanner_stretches");
  EXPECT_EQ(judge({first, moved_by(0.5)}, warnings)->code, "not_same_sheet");
}

/// A scan that does not show the rings for which `hidden` holds.
template <class Hidden>
SideReading half_scan(Side side, const Hidden& hidden) {
  SideReading scan = scan_of({});
  scan.identity.side = side;
  scan.rings_expected = 0;
  for (const Mark& mark : target_geometry(scan.identity.paper, scan.identity.turn).marks) {
    if (mark.kind != MarkKind::ring || mark.side != side) continue;
    if (hidden(mark.at)) {
      scan.rings_outside.push_back(mark.at);
    } else {
      ++scan.rings_expected;
    }
  }
  return scan;
}

TEST(CheckWholeSideShown, NamesTheHalfThatIsMissing) {
  const auto upper = half_scan(Side::recto, [](const Point<PageMm>& p) { return p.y > 3; });
  const auto lower = half_scan(Side::recto, [](const Point<PageMm>& p) { return p.y < -3; });
  const auto left = half_scan(Side::verso, [](const Point<PageMm>& p) { return p.x > 3; });
  EXPECT_FALSE(check_whole_side_shown({upper, lower}));
  const auto half = [](const char* where, const char* side) {
    return findings::half_missing(Term{where}, Term{"half"}, Term{side});
  };
  EXPECT_EQ(check_whole_side_shown({upper}), half("lower", "front"));
  EXPECT_EQ(check_whole_side_shown({lower, lower}), half("upper", "front"));
  EXPECT_EQ(check_whole_side_shown({left}), half("right", "back"));
  EXPECT_FALSE(check_whole_side_shown(
      {half_scan(Side::recto, [](const Point<PageMm>& p) { return p.y < -140; })}));
}

TEST(CheckEdgesShown, NamesTheEdgeAsOneLooksAtThatSide) {
  SideReading front = scan_of({edge("left-1", {-1, 0}, -105, 0)});
  front.misses = {{"right-3", EdgeMiss::cut_off, FeatureKind::edge, {1, 0}},
                  {"top-1", EdgeMiss::ragged, FeatureKind::edge, {0, -1}}};
  EXPECT_EQ(check_edges_shown({front}, combine_scans({front})),
            findings::edges_cut_off({"right"}, Term{"front"}));
  SideReading back = front;
  back.identity.side = Side::verso;  // turned on its long edge: left and right change places
  back.places.features = {edge("left-1", {1, 0}, 105, 0)};
  back.misses[0].outward = {-1, 0};
  EXPECT_EQ(check_edges_shown({back}, combine_scans({back})),
            findings::edges_cut_off({"left"}, Term{"back"}));
  // Another scan of the side shows it.
  SideReading other = scan_of({edge("right-3", {1, 0}, 105, 0)});
  EXPECT_FALSE(check_edges_shown({front, other}, combine_scans({front, other})));
}

}  // namespace
}  // namespace versolay
