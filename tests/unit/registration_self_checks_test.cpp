// The self-checks of a sheet, each on both sides of its limit: what an ordinary sheet passes in
// silence, and what is said, or refused, beyond. The limits are the project's own: a tenth of what
// a card shows, several times what scanner and paper do (see tests/bench/README.md).
#include <gmock/gmock.h>

#include <cmath>
#include <functional>

#include "core/doubt.h"
#include "registration/page_order.h"
#include "registration/sheet_registration.h"
#include "support/findings.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using ::testing::Contains;
using ::testing::IsEmpty;
using ::testing::Not;
using testing_support::fact;

constexpr double kScanSdMm = 0.005;

const Paper& a4() {
  static const Paper paper = parse_paper("a4");
  return paper;
}
TurnAxis axis() { return turn_axis(Turn::long_edge, a4()); }

/// Which features a sheet has.
struct Features {
  bool punched = false;
  bool pricked = false;
  bool edges = false;
};
constexpr Features kPunched{true, false, false};
constexpr Features kPricked{false, true, false};
constexpr Features kEdges{false, false, true};
constexpr Features kPunchedAndEdges{true, false, true};

/// A perfect reading of one side of a perfect sheet whose holes were made by hand.
SideReading side_with(const Features& wanted, Side side) {
  SideReading reading;
  reading.identity = {a4(), Turn::long_edge, "T3ST", 1, side};
  reading.scan_name = side == Side::recto ? "front.png" : "back.png";
  reading.rings_expected = reading.rings_found = 88;
  reading.page_from_scan = {Eigen::Matrix2d::Identity() * 0.1, Eigen::Vector2d::Zero()};
  reading.printed_scale = {1.0, 1.0};
  const TargetGeometry geometry = target_geometry(a4(), Turn::long_edge);
  const Eigen::Matrix2d view =
      side == Side::recto ? Eigen::Matrix2d::Identity() : verso_from_recto(axis()).linear();
  int number = 0;
  const auto add = [&](const std::string& id, FeatureKind kind, const Eigen::Vector2d& recto,
                       const Eigen::Vector2d& normal, int pin_sign = 0) {
    SideFeature f;
    f.id = id;
    f.kind = kind;
    f.pin_sign = pin_sign;
    f.at = Point<PageMm>::from(view * recto);
    f.normal = view * normal;
    f.paper_sd_mm = 0.006;
    reading.places.features.push_back(f);
  };
  for (const HolePlace& hole : geometry.holes) {
    const bool punch = hole.kind == HoleKind::punch;
    if (punch ? !wanted.punched : !wanted.pricked) continue;
    ++number;
    const Eigen::Vector2d hand(0.7 * std::sin(2.1 * number), 0.7 * std::cos(3.7 * number));
    add(hole.id, punch ? FeatureKind::punch : FeatureKind::prick, hole.at.vec() + hand, {0, 0},
        hole.pin_sign());
  }
  for (const EdgePlace& edge : geometry.edges) {
    if (!wanted.edges) break;
    add(edge.id, FeatureKind::edge, edge.ring.vec() + edge.inset_mm * edge.outward, edge.outward);
  }
  const auto n = static_cast<Eigen::Index>(2 * reading.places.features.size());
  reading.places.scan_covariance_mm2 = Eigen::MatrixXd::Identity(n, n) * kScanSdMm * kScanSdMm;
  reading.places.ring_response = Eigen::MatrixXd::Zero(n, 0);
  return reading;
}

using Change = std::function<void(SideFeature&)>;

/// A sheet whose back was changed; `also` may change anything else.
Result<SheetReading> sheet_with(
    const Features& wanted, const Change& change, DatumChoice datum = DatumChoice::automatic,
    const std::function<void(SheetScans&)>& also = [](SheetScans&) {}) {
  SheetScans scans{{side_with(wanted, Side::recto)}, {side_with(wanted, Side::verso)}};
  for (SideFeature& f : scans.verso.front().places.features) change(f);
  also(scans);
  return register_sheet(scans, datum);
}

void unchanged(SideFeature&) {}

/// A pattern that no shift, rotation, scale or shear takes up.
Change twisted(double mm) {
  return [=](SideFeature& f) {
    if (f.kind != FeatureKind::edge) f.at.x += f.at.x * f.at.y > 0 ? mm : -mm;
  };
}

std::vector<std::string> codes_of(const Result<SheetReading>& sheet) {
  if (!sheet) return {"refused: " + sheet.refusal().code};
  std::vector<std::string> codes;
  for (const Notice& n : sheet.value().warnings) codes.push_back(n.code);
  return codes;
}

bool has_hole(const SheetReading& sheet, const std::string& id) {
  return std::any_of(sheet.features.begin(), sheet.features.end(),
                     [&](const FeatureReading& f) { return f.id == id; });
}

/// The refusal, or the warning of this kind; throws std::runtime_error without one.
Finding finding_in(const Result<SheetReading>& sheet, const std::string& code) {
  if (!sheet) return sheet.refusal();
  for (const Notice& n : sheet.value().warnings) {
    if (n.code == code) return n;
  }
  throw std::runtime_error("no " + code);
}

std::vector<std::string> note_codes(const Result<SheetReading>& sheet) {
  std::vector<std::string> codes;
  for (const Notice& n : sheet.value().datum_notes) codes.push_back(n.code);
  return codes;
}

TEST(SelfChecks, PassASoundSheetInSilence) {
  for (const Features& features : {kPunched, kPricked, kEdges, kPunchedAndEdges}) {
    const auto sheet = sheet_with(features, unchanged);
    EXPECT_THAT(codes_of(sheet), IsEmpty());
    EXPECT_LT(sheet.value().registration.vec().norm(), 1e-6);
  }
}

// The rms of the twist is its size over the square root of two.
TEST(SelfChecks, PunchedHolesMayDisagreeByFourHundredths) {
  EXPECT_THAT(codes_of(sheet_with(kPunched, twisted(0.049))), IsEmpty());
  EXPECT_THAT(codes_of(sheet_with(kPunched, twisted(0.065))), Contains("holes_disagree"));
  const auto refused = sheet_with(kPunched, twisted(0.13));
  EXPECT_THAT(codes_of(refused), Contains("refused: holes_disagree"));
  EXPECT_NEAR(fact<double>(finding_in(refused, ""), "rms_mm"), 0.13 / std::sqrt(2.0), 1e-3);
}

TEST(SelfChecks, PrickedHolesMayDisagreeByMore) {
  EXPECT_THAT(codes_of(sheet_with(kPricked, twisted(0.09))), IsEmpty());
  EXPECT_THAT(codes_of(sheet_with(kPricked, twisted(0.13))), Not(IsEmpty()));
}

TEST(SelfChecks, TwoHolesMustBeAsFarApartOnBothSides) {
  const auto two_holes = [](SheetScans& scans) {
    for (auto* side : {&scans.recto, &scans.verso}) {
      SideReading& reading = side->front();
      reading.places.features.resize(2);
      reading.places.scan_covariance_mm2 = Eigen::MatrixXd::Identity(4, 4) * kScanSdMm * kScanSdMm;
      reading.places.ring_response = Eigen::MatrixXd::Zero(4, 0);
    }
  };
  const auto apart_by = [](double mm) {
    return [=](SideFeature& f) { f.at.x += f.at.x > 0 ? mm / 2 : -mm / 2; };
  };
  const auto read = [&](double mm) {
    return sheet_with(kPunched, apart_by(mm), DatumChoice::holes, two_holes);
  };
  EXPECT_THAT(codes_of(read(0.05)), IsEmpty());
  EXPECT_THAT(codes_of(read(0.4)), Contains("refused: holes_disagree"));
}

TEST(SelfChecks, ATornHoleAmongEightIsLeftOutAndNamed) {
  const auto torn = [](double mm) {
    return [=](SideFeature& f) {
      if (f.id == "P3") f.at.y += mm;
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kPricked, torn(0.05))), IsEmpty());
  const auto sheet = sheet_with(kPricked, torn(0.5));
  ASSERT_THAT(codes_of(sheet), Contains("hole_left_out"));
  EXPECT_EQ(fact(finding_in(sheet, "hole_left_out"), "hole"), "P3");
  EXPECT_FALSE(has_hole(sheet.value(), "P3"));
  EXPECT_NEAR(sheet.value().registration.dy_mm, 0.0, 1e-3);
}

TEST(SelfChecks, HolesFarOffAreNotOfOneSheet) {
  const auto sheet = sheet_with(kPunched, twisted(0.6));
  EXPECT_THAT(codes_of(sheet), Contains("refused: not_same_sheet"));
}

TEST(SelfChecks, TheLeanOfThePinIsToldAndAveragedOut) {
  const auto leaning = [](double mm) {
    return [=](SideFeature& f) { f.at.x -= f.pin_sign > 0 ? mm : -mm; };
  };
  EXPECT_THAT(note_codes(sheet_with(kPricked, leaning(0.0))), Not(Contains("pin_leaned")));
  const auto sheet = sheet_with(kPricked, leaning(0.06));
  EXPECT_THAT(codes_of(sheet), IsEmpty());
  ASSERT_THAT(note_codes(sheet), Contains("pin_leaned"));
  EXPECT_NEAR(fact<double>(sheet.value().datum_notes.back(), "lean_mm"), 0.06, 1e-6);
  EXPECT_NEAR(sheet.value().registration.dx_mm, 0.0, 1e-6);
}

TEST(SelfChecks, AHoleThatCouldNotBeReadIsNamedIfItsKindIsInUse) {
  const auto missed = [](const std::string& id, HoleMiss miss) {
    return [=](SheetScans& scans) {
      SideReading& back = scans.verso.front();
      back.misses.push_back(
          {id, miss, id.starts_with("H") ? FeatureKind::punch : FeatureKind::prick});
    };
  };
  const auto read = [&](const std::string& id, HoleMiss miss) {
    return sheet_with(
        kPunched,
        [&](SideFeature& f) {
          if (f.id == id) f.id = "gone";
        },
        DatumChoice::automatic, missed(id, miss));
  };
  const auto pale = read("H2", HoleMiss::poor_contrast);
  ASSERT_THAT(codes_of(pale), Contains("hole_unreadable"));
  EXPECT_EQ(fact(finding_in(pale, "hole_unreadable"), "hole"), "H2");
  EXPECT_EQ(fact(finding_in(pale, "hole_unreadable"), "reason"), "poor_contrast");
  EXPECT_THAT(codes_of(read("P2", HoleMiss::ragged)), IsEmpty());  // nobody pricked
}

// Nobody said why it was not found: a finger of the scanner's lid may cover it.
TEST(SelfChecks, AHoleThatOnlyOneSideShowsIsNamedWithThatSide) {
  const auto gone_from = [](Side side, const std::string& id) {
    return sheet_with(kPunched, unchanged, DatumChoice::automatic, [=](SheetScans& scans) {
      auto& scan = side == Side::recto ? scans.recto : scans.verso;
      for (SideFeature& f : scan.front().places.features) {
        if (f.id == id) f.id = "gone";
      }
    });
  };
  const auto back = gone_from(Side::verso, "H2");
  ASSERT_THAT(codes_of(back), Contains("hole_on_one_side"));
  EXPECT_EQ(fact(finding_in(back, "hole_on_one_side"), "hole"), "H2");
  EXPECT_EQ(fact(finding_in(back, "hole_on_one_side"), "blind_scan"), "back.png");
  const auto front = gone_from(Side::recto, "H3");
  ASSERT_THAT(codes_of(front), Contains("hole_on_one_side"));
  EXPECT_EQ(fact(finding_in(front, "hole_on_one_side"), "blind_scan"), "front.png");
}

TEST(SelfChecks, EdgesMayBeRoughToALimit) {
  const auto rough = [](double mm) {
    return [=](SideFeature& f) {
      const bool odd = (f.id.back() - '0') % 2 == 1;
      f.at = Point<PageMm>::from(f.at.vec() + (odd ? mm : -mm) * f.normal);
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kEdges, rough(0.04))), IsEmpty());
  EXPECT_THAT(codes_of(sheet_with(kEdges, rough(0.10))), Contains("edges_disagree"));
  EXPECT_THAT(codes_of(sheet_with(kEdges, rough(0.30))), Contains("refused: edges_disagree"));
  // Rough edges do not cost a sheet whose holes are sound.
  const auto sheet = sheet_with(kPunchedAndEdges, rough(0.30));
  EXPECT_THAT(codes_of(sheet), Contains("edges_left_out"));
  EXPECT_EQ(sheet.value().datum, (Datums{.punched = true}));
}

TEST(SelfChecks, ANickInAnEdgeIsLeftOut) {
  const auto nicked = [](SideFeature& f) {
    if (f.id == "top-2" || f.id == "left-7") f.at = Point<PageMm>::from(f.at.vec() - f.normal);
  };
  const auto sheet = sheet_with(kEdges, nicked);
  EXPECT_THAT(codes_of(sheet), IsEmpty());
  ASSERT_THAT(note_codes(sheet), Contains("edge_places_left_out"));
  EXPECT_EQ(fact<std::int64_t>(sheet.value().datum_notes.back(), "places"), 2);
  EXPECT_LT(sheet.value().registration.vec().head<2>().norm(), 1e-3);
}

TEST(SelfChecks, ThePaperIsAsLargeFromBothSides) {
  const auto wider = [](double mm) {
    return [=](SideFeature& f) {
      if (f.normal.x() > 0.5) f.at.x += mm;
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kEdges, wider(0.15))), IsEmpty());
  const auto warned = sheet_with(kEdges, wider(0.3));
  ASSERT_THAT(codes_of(warned), Contains("paper_size_differs"));
  EXPECT_NEAR(fact<double>(finding_in(warned, "paper_size_differs"), "off_mm"), 0.3, 0.01);
  EXPECT_EQ(fact(finding_in(warned, "paper_size_differs"), "larger"), "wider");
  EXPECT_THAT(codes_of(sheet_with(kEdges, wider(0.5))), Contains("refused: paper_size_differs"));
}

TEST(SelfChecks, HolesAndEdgesAreOfOneSheet) {
  const auto edges_shifted = [](double mm) {
    return [=](SideFeature& f) {
      if (f.kind == FeatureKind::edge) f.at.x += mm;
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kPunchedAndEdges, edges_shifted(0.02))), IsEmpty());
  const auto doubtful = sheet_with(kPunchedAndEdges, edges_shifted(0.3));
  EXPECT_THAT(codes_of(doubtful), Contains("datums_disagree"));
  EXPECT_NEAR(doubtful.value().registration.dx_mm, 0.0, 1e-3);
  // What is stated covers what the edges say as well.
  EXPECT_GT(std::sqrt(doubtful.value().covariance(0, 0)), 0.29);
  EXPECT_THAT(codes_of(sheet_with(kPunchedAndEdges, edges_shifted(0.9))),
              Contains("refused: holes_against_edges"));
}

// One hole torn longer by e on one side: its middle moves by e / 2, its radius and the second
// harmonic of its outline change by e / 4 each (an ellipse of half axes r + e / 2 and r, to first
// order).
TEST(SelfChecks, AHoleLooksTheSameFromBothSides) {
  const auto torn = [](double longer_mm) {
    return [=](SideFeature& f) {
      if (f.id != "H2") return;
      f.at.x += longer_mm / 2;
      f.radius_mm += longer_mm / 4;
      f.oval_mm.x() += longer_mm / 4;
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kPunched, torn(0.02))), IsEmpty());
  const auto sheet = sheet_with(kPunched, torn(0.2));
  ASSERT_THAT(codes_of(sheet), Contains("hole_shapes_differ"));
  EXPECT_EQ(fact(finding_in(sheet, "hole_shapes_differ"), "hole"), "H2");
  // Under the mirror of the turn the sine of the second harmonic changes its sign.
  const auto slanted = [](SheetScans& scans) {
    for (SideFeature& f : scans.recto.front().places.features) f.oval_mm = {0.0, 0.1};
    for (SideFeature& f : scans.verso.front().places.features) f.oval_mm = {0.0, -0.1};
  };
  EXPECT_THAT(codes_of(sheet_with(kPunched, unchanged, DatumChoice::automatic, slanted)),
              IsEmpty());
}

// A short edge that curls on one side looks askew. Prints are sheared by up to about a mrad against
// each other; beyond it, something was seen wrongly.
TEST(SelfChecks, AnEdgeThatLiesAskewOnOneSideIsNoShear) {
  const auto askew = [](double mrad) {
    return [=](SideFeature& f) {
      if (f.normal.y() < -0.5) f.at.y += 1e-3 * mrad * f.at.x;
    };
  };
  EXPECT_THAT(codes_of(sheet_with(kEdges, askew(0.2))), IsEmpty());
  const auto sheet = sheet_with(kEdges, askew(4.0));
  EXPECT_THAT(doubts_in(sheet.value().warnings), Not(IsEmpty()));
}

// Paper that grows between the passes changes the size by 0.1 % (0.35 % at the very worst, across
// the grain); 0.3 % of A4 is 0.9 mm.
TEST(SelfChecks, ABackIsNotPrintedMuchLargerThanItsFront) {
  const auto longer = [](double ppm) { return [=](SideFeature& f) { f.at.y *= 1 - 1e-6 * ppm; }; };
  EXPECT_THAT(codes_of(sheet_with(kPunched, longer(1500))), IsEmpty());
  EXPECT_THAT(codes_of(sheet_with(kPunched, longer(4000))), Contains("shape_implausible"));
}

TEST(SelfChecks, EdgesAloneStateWhatTheSizesDifferByBeyondTheUsual) {
  const auto shorter = [](SideFeature& f) {
    if (f.normal.y() > 0.5) f.at.y -= 0.19;
  };
  const auto sheet = sheet_with(kEdges, shorter);
  EXPECT_THAT(codes_of(sheet), IsEmpty());
  EXPECT_NEAR(std::abs(sheet.value().registration.dy_mm), 0.095, 0.01);
  EXPECT_GT(3 * std::sqrt(sheet.value().covariance(1, 1)),
            std::abs(sheet.value().registration.dy_mm));
}

TEST(SelfChecks, AnOffsetBeyondTheCaptureRangeIsRefused) {
  const auto shifted = [](double mm) { return [=](SideFeature& f) { f.at.y -= mm; }; };
  const auto large = sheet_with(kPunched, shifted(2.5));
  EXPECT_THAT(codes_of(large), IsEmpty());
  EXPECT_NEAR(large.value().registration.dy_mm, 2.5, 1e-6);
  EXPECT_THAT(codes_of(sheet_with(kPunched, shifted(3.5))), Contains("refused: offset_too_large"));
}

// Of two yardsticks that differ by more than 1 %, the one that finds the smaller fault.
TEST(SelfChecks, ThePrintHasItsSize) {
  const auto printed_at = [](double x, double y) {
    return [=](SheetScans& scans) {
      scans.recto.front().printed_scale = {x, y};
      scans.verso.front().printed_scale = {x, y};
    };
  };
  const auto read = [&](const Features& features, double x, double y) {
    return sheet_with(features, unchanged, DatumChoice::automatic, printed_at(x, y));
  };
  EXPECT_THAT(codes_of(read(kPunched, 1.004, 0.996)), IsEmpty());
  EXPECT_THAT(codes_of(read(kPunched, 1.0, 0.992)), Contains("printed_scale"));
  const auto shrunk = read(kPunched, 0.97, 0.97);
  ASSERT_THAT(codes_of(shrunk), Contains("refused: printed_scale"));
  EXPECT_NEAR(fact<double>(finding_in(shrunk, ""), "width_share"), 0.97, 1e-9);
  EXPECT_EQ(fact(finding_in(shrunk, ""), "cause"), "shrunk");
  const auto enlarged = read(kPunched, 1.03, 1.03);
  ASSERT_THAT(codes_of(enlarged), Contains("refused: printed_scale"));
  EXPECT_EQ(fact(finding_in(enlarged, ""), "cause"), "enlarged");
  // The paper's edges show that it is the file that names a false resolution.
  EXPECT_THAT(codes_of(read(kPunchedAndEdges, 0.97, 0.97)), IsEmpty());

  const auto without = [](SheetScans& scans) {
    scans.recto.front().printed_scale = scans.verso.front().printed_scale = {};
  };
  EXPECT_THAT(codes_of(sheet_with(kPunched, unchanged, DatumChoice::automatic, without)),
              Contains("printed_scale_unknown"));
  EXPECT_THAT(codes_of(sheet_with(kPunchedAndEdges, unchanged, DatumChoice::automatic, without)),
              IsEmpty());
}

TEST(SelfChecks, WhatAScanGaveCauseToSayIsKept) {
  const auto sheet = sheet_with(kPunched, unchanged, DatumChoice::automatic, [](SheetScans& scans) {
    scans.recto.front().warnings = {{"scan_black_and_white", {}}};
  });
  EXPECT_THAT(codes_of(sheet), Contains("scan_black_and_white"));
}

}  // namespace
}  // namespace versolay
