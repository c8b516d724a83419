// What is true of the sheets, and that the pictures show it.
#include <gmock/gmock.h>

#include <Eigen/Dense>

#include "core/json.h"
#include "rehearse/punch.h"
#include "unit/rehearse_support.h"

namespace versolay::rehearse {
namespace {

constexpr Registration kAllSix{0.42, -0.31, 1.4, 900.0, -600.0, 0.7};

const std::vector<HolePlace> kPlaces = {{"p1", {-40.0, -60.0}, HoleKind::punch, 5.0},
                                        {"p2", {40.0, -60.0}, HoleKind::punch, 5.0},
                                        {"n1", {-35.0, 50.0}, HoleKind::prick, 3.0},
                                        {"n2", {30.0, 55.0}, HoleKind::prick, 3.0}};

TEST(Passes, RegistrationIsTheMeanWhenNothingVaries) {
  PassSettings s;
  s.mean = kAllSix;
  s.feed_sd = Registration{};
  for (TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
    const RegistrationVector r = draw_passes(s, axis, Random(3, "passes")).registration().vec();
    for (int i = 0; i < 6; ++i) EXPECT_NEAR(r[i], kAllSix.vec()[i], 1e-6) << i;
  }
}

TEST(Passes, VaryFromFeedToFeedAsStated) {
  PassSettings s;
  constexpr int kFeeds = 4000;
  RegistrationVector sum = RegistrationVector::Zero(), squares = RegistrationVector::Zero();
  for (std::uint64_t feed = 0; feed < kFeeds; ++feed) {
    const RegistrationVector r =
        draw_passes(s, TurnAxis::vertical, Random(11, "passes", feed)).registration().vec();
    sum += r;
    squares += r.cwiseProduct(r);
  }
  for (int i = 0; i < 6; ++i) {
    const double mean = sum[i] / kFeeds, sd = std::sqrt(squares[i] / kFeeds - mean * mean);
    const double stated = s.feed_sd.vec()[i];
    EXPECT_NEAR(mean, s.mean.vec()[i], 4.5 * stated / std::sqrt(kFeeds)) << i;
    EXPECT_NEAR(sd, stated, 4.5 * stated / std::sqrt(2.0 * kFeeds)) << i;
  }
}

TEST(Passes, PaperThatGrowsInBetweenMakesTheBackLookSmall) {
  PassSettings s = perfect_settings().passes;
  s.growth_x_ppm = 1000;
  s.growth_y_ppm = 200;
  const Registration r = draw_passes(s, TurnAxis::vertical, Random(1, "passes")).registration();
  EXPECT_NEAR(r.scale_x_ppm, -1000, 1.1);
  EXPECT_NEAR(r.scale_y_ppm, -200, 0.1);
}

TEST(Passes, WithTheSheetTurnedTheWrongWayPutTheBackUpsideDown) {
  PassSettings s = perfect_settings().passes;
  s.mean.dx_mm = 0.4;
  s.turned_the_wrong_way = true;
  const auto landed = draw_passes(s, TurnAxis::vertical, Random(1, "passes")).landed_from_page();
  EXPECT_NEAR(landed(Point<VersoMm>{30.0, 50.0}).x, -30.0 + 0.4, 1e-9);
  EXPECT_NEAR(landed(Point<VersoMm>{30.0, 50.0}).y, -50.0, 1e-9);
}

TEST(Holes, TellTheRegistrationByTheIdentityOfTheContract) {
  PassSettings s;
  s.mean = kAllSix;
  HoleSettings hands;
  hands.made = HolesMade::both;
  hands.lean_um = hands.lean_sd_um = 0;
  for (TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
    SheetTruth sheet;
    sheet.passes = draw_passes(s, axis, Random(5, "passes"));
    sheet.holes = make_holes(kPlaces, sheet.passes, hands, Random(5, "holes"));
    ASSERT_EQ(sheet.holes.size(), kPlaces.size());
    for (const Hole& hole : sheet.holes) {
      const Point<VersoMm> verso = sheet.hole_in_verso(hole);
      const Eigen::Vector2d e =
          verso_from_recto(axis)(sheet.hole_in_recto(hole)).vec() - verso.vec();
      const Eigen::Vector2d expected = sheet.registration().displacement_mm(verso);
      EXPECT_NEAR(e.x(), expected.x(), 1e-9);
      EXPECT_NEAR(e.y(), expected.y(), 1e-9);
    }
  }
}

TEST(Holes, OfOnePunchStrokeKeepTheirDistance) {
  const Passes passes = draw_passes({}, TurnAxis::vertical, Random(2, "passes"));
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    const auto holes = make_holes(kPlaces, passes, {}, Random(seed, "holes"));
    ASSERT_EQ(holes.size(), 2u);  // pricks are not asked for
    EXPECT_NEAR((holes[0].front.centre_mm - holes[1].front.centre_mm).norm(), 80.0, 1e-9);
  }
}

TEST(Holes, PrickedWithTheSheetTurnedRoundLeanTheOtherWay) {
  HoleSettings hands;
  hands.made = HolesMade::pricked;
  hands.lean_sd_um = 0;
  Passes passes;  // identity
  const auto holes = make_holes(kPlaces, passes, hands, Random(4, "holes"));
  ASSERT_EQ(holes.size(), 2u);
  const auto lean = [](const Hole& hole) {
    return Eigen::Vector2d(
        front_from_back(TurnAxis::vertical)(Point<SheetBackMm>::from(hole.back.centre_mm)).vec() -
        hole.front.centre_mm);
  };
  EXPECT_FALSE(holes[0].sheet_was_turned);
  EXPECT_TRUE(holes[1].sheet_was_turned);
  EXPECT_NEAR(lean(holes[0]).norm(), hands.lean_um * 1e-3, 1e-9);
  EXPECT_NEAR((lean(holes[0]) + lean(holes[1])).norm(), 0.0, 1e-9);
}

/// Four discs round every hole, as a target has them.
DrawnPage discs_round_holes(TurnAxis axis, Side side) {
  DrawnPage page;
  for (const HolePlace& hole : kPlaces) {
    const Point<PageMm> at = side == Side::recto ? relabel<PageMm>(hole.at)
                                                 : relabel<PageMm>(verso_from_recto(axis)(hole.at));
    for (const auto& [dx, dy] : {std::pair{-7.0, 0.0}, {7.0, 0.0}, {0.0, -7.0}, {0.0, 7.0}}) {
      page.push_back({at.x + dx, at.y + dy, 1.5});
    }
  }
  return page;
}

/// Page place of the hole, by the discs round it: an affine map fitted to the four.
Eigen::Vector2d read_hole(const ScanImage& image, const DrawnPage& page, std::size_t hole,
                          const std::function<Point<ScanPx>(const Eigen::Vector2d&)>& roughly,
                          const Eigen::Vector2d& hole_in_page, double reach_mm) {
  Eigen::Matrix<double, 4, 3> px;
  Eigen::Matrix<double, 4, 2> mm;
  for (int i = 0; i < 4; ++i) {
    const DrawnDisc& d = page[4 * hole + static_cast<std::size_t>(i)];
    const Darkness found = darkness_near(image, roughly({d.x_mm, d.y_mm}), 2.1 * 300 / 25.4);
    px.row(i) << found.centre.x, found.centre.y, 1.0;
    mm.row(i) << d.x_mm, d.y_mm;
  }
  const Eigen::Matrix<double, 3, 2> page_from_px = px.colPivHouseholderQr().solve(mm);
  const Darkness dark = darkness_near(image, roughly(hole_in_page), reach_mm * 300 / 25.4);
  return page_from_px.transpose() * Eigen::Vector3d(dark.centre.x, dark.centre.y, 1.0);
}

TEST(Pictures, ReadWithPlainCentroidsGiveTheRegistrationOfTheTruth) {
  for (Turn turn : {Turn::long_edge, Turn::short_edge}) {
    const double w = 120, h = 170;
    const TurnAxis axis = turn_axis(turn, paper_of_size(w, h));
    const DrawnPage recto_page = discs_round_holes(axis, Side::recto);
    const DrawnPage verso_page = discs_round_holes(axis, Side::verso);
    TestJob test(w, h, {recto_page, verso_page});
    test.job.turn = turn;
    test.job.holes = kPlaces;
    RehearsalSettings s = perfect_settings();
    s.passes.mean = kAllSix;
    s.passes.lay_sd = {0.4, 0.5, 0.6, 60.0, 60.0, 0.05};
    s.holes.made = HolesMade::both;
    s.holes.hand_error_mm = 0.5;
    s.scanner.orientations = {0, 90, 180, 270};
    s.scanner.skew_deg = 2;
    s.scanner.scale_x_ppm = 1500;
    s.scanner.shear_mrad = 1;
    s.scanner.placement_mm = 2;
    const RehearsalScans scans = test.run(s);
    const SheetTruth& sheet = scans.sheets[0];
    for (std::size_t i = 0; i < kPlaces.size(); ++i) {
      const Hole& hole = sheet.holes[i];
      std::array<Eigen::Vector2d, 2> read;
      for (const ScanTruth& scan : scans.pictures) {
        const bool is_recto = scan.side == Side::recto;
        const auto roughly = [&](const Eigen::Vector2d& p) {
          const Affine<SheetMm, PageMm> placed =
              is_recto ? relabel_affine<SheetMm, PageMm>(sheet.passes.front)
                       : relabel_affine<SheetMm, PageMm>(sheet.passes.back);
          const Point<BedMm> bed = scan.pose.bed_from_sheet()(placed(Point<PageMm>::from(p)));
          return Point<ScanPx>{bed.x * 300 / 25.4, bed.y * 300 / 25.4};
        };
        const Eigen::Vector2d nominal =
            is_recto ? sheet.hole_in_recto(hole).vec() : sheet.hole_in_verso(hole).vec();
        const double reach = hole.kind == HoleKind::punch ? 3.8 : 1.2;
        read[is_recto ? 0 : 1] =
            read_hole(picture(scans, 1, scan.side), is_recto ? recto_page : verso_page, i, roughly,
                      nominal, reach);
      }
      const Eigen::Vector2d e =
          verso_from_recto(axis)(Point<RectoMm>::from(read[0])).vec() - read[1];
      const Eigen::Vector2d expected =
          sheet.registration().displacement_mm(Point<VersoMm>::from(read[1]));
      const double tolerance = hole.kind == HoleKind::punch ? 0.002 : 0.005;
      EXPECT_NEAR(e.x(), expected.x(), tolerance) << hole.id;
      EXPECT_NEAR(e.y(), expected.y(), tolerance) << hole.id;
    }
  }
}

TEST(Truth, IsWrittenApartFromTheScans) {
  TestJob test(120, 170,
               {discs_round_holes(TurnAxis::vertical, Side::recto),
                discs_round_holes(TurnAxis::vertical, Side::verso)});
  test.job.holes = kPlaces;
  RehearsalSettings s;
  s.scanner.dpi = 75;
  const RehearsalScans scans = test.run(s);
  EXPECT_NE(scans.truth_file.parent_path(), scans.scans[0].parent_path());
  const Json json = read_json(scans.truth_file);
  const JsonPlace truth(json, "truth.json");
  EXPECT_EQ(require_schema(truth, "truth", 1), 1);
  const JsonPlace sheet = truth.at("sheets").items().at(0);
  EXPECT_NEAR(sheet.at("registration").at("dx_mm").number(), scans.sheets[0].registration().dx_mm,
              1e-6);
  EXPECT_EQ(sheet.at("holes").items().size(), 2u);
  EXPECT_EQ(truth.at("scans").items().size(), 2u);
  EXPECT_EQ(truth.at("settings").at("seed").integer(), 1);
}

}  // namespace
}  // namespace versolay::rehearse
