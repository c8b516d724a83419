// No target at all: a deck is printed as it is, its sheets are scanned before they are cut, and the
// second deck is right. Simulated printer and scanner; the commands see scans only, and the cards
// are judged by the truth.
#include <gmock/gmock.h>

#include <cmath>

#include "app/check.h"
#include "app/impose.h"
#include "app/measure.h"
#include "app/profile.h"
#include "artwork/raster.h"
#include "bench/card_errors.h"
#include "core/files.h"
#include "profile/profile_json.h"
#include "rehearse/simulate.h"
#include "support/findings.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

constexpr int kSheets = 6;

class FirstDeckTest : public ::testing::Test {
 protected:
  void SetUp() override {
    Raster card;
    card.width_px = 372;
    card.height_px = 520;
    card.channels = 1;
    card.samples.assign(372u * 520u, 120);
    const std::string png = encode_png(card);
    make_folder(folder_ / "fronts");
    for (int i = 1; i <= 9 * kSheets; ++i) {
      write_file_atomically(folder_ / "fronts" / (std::to_string(i) + ".png"), png, true);
    }
    write_file_atomically(folder_ / "back.png", png, true);
  }

  ImposeReport impose(const std::string& name, const std::optional<PrinterProfile>& profile) {
    ImposeRequest request;
    request.cards.fronts = folder_ / "fronts";
    request.cards.back = folder_ / "back.png";
    request.cards.size = {63, 88};
    request.backs.profile = profile;
    request.outputs.pdf = folder_ / (name + ".pdf");
    request.outputs.cut_card = folder_ / (name + "-cut.pdf");
    auto report = run_impose(request, {});
    EXPECT_TRUE(report) << report.refusal();
    return std::move(report).value();
  }

  rehearse::RehearsalScans print(const std::string& name, std::uint64_t seed) {
    rehearse::RehearsalSettings settings;
    settings.seed = seed;
    settings.sheets = kSheets;
    settings.scanner.dpi = 200;
    settings.holes.made = rehearse::HolesMade::none;
    return rehearse::print_and_scan(
        settings, {folder_ / (name + ".pdf"), parse_paper("a4"), Turn::long_edge, {}, false},
        folder_ / name);
  }

  std::filesystem::path readings_of(const rehearse::RehearsalScans& scans,
                                    const std::string& name) {
    MeasureRequest measuring;
    measuring.scans = scans.scans;
    measuring.out = folder_ / (name + ".json");
    EXPECT_EQ(run_measure(measuring, {}).sheets.size(), static_cast<std::size_t>(kSheets));
    return measuring.out;
  }

  /// Of the cards that were really printed.
  static double good_cards(const ImposeReport& report, const rehearse::RehearsalScans& printed) {
    std::vector<Eigen::Vector2d> errors;
    for (const auto& sheet : printed.sheets) {
      const Registration left = registration_from(sheet.passes.landed_from_page() *
                                                  report.plan.correction.page_from_wanted);
      add_card_errors(left.vec().head<3>(), report.plan.grid, errors);
    }
    const Reach& reach = report.plan.back_reach.granted;
    return good_share(errors, reach.x_mm, reach.y_mm);
  }

  testing_support::ScratchFolder folder_;
};

TEST_F(FirstDeckTest, TheSecondDeckIsMovedAndEnlarged) {
  const ImposeReport first = impose("first", std::nullopt);
  EXPECT_EQ(first.plan.back_reach.granted.x_mm, 0.0);
  EXPECT_EQ(first.run.size(), 4u);  // its sheets can be read
  const auto first_print = print("first", 41);
  EXPECT_LT(good_cards(first, first_print), 0.05);

  ProfileRequest profiling;
  profiling.readings = {readings_of(first_print, "first-readings")};
  profiling.labels.printer = "simulated";
  profiling.out = folder_ / "profile.json";
  const PrinterProfile profile = run_profile(profiling).value();
  EXPECT_EQ(profile.n_feeds, kSheets);
  const rehearse::PassSettings printer;
  // Of six sheets: their own luck, and the reading by edges.
  EXPECT_NEAR(profile.mean.dx_mm, printer.mean.dx_mm,
              4 * printer.feed_sd.dx_mm / std::sqrt(kSheets) + 0.05);
  EXPECT_NEAR(profile.mean.dy_mm, printer.mean.dy_mm,
              4 * printer.feed_sd.dy_mm / std::sqrt(kSheets) + 0.05);

  const ImposeReport second = impose("second", profile);
  EXPECT_GT(second.plan.back_reach.granted.x_mm, 0.0);
  const auto second_print = print("second", 42);
  EXPECT_GE(good_cards(second, second_print), 0.9);

  // Its sheets tell the profile more: sheets of jobs pool with one another.
  CheckRequest check;
  check.profile = profiling.out;
  check.readings = readings_of(second_print, "second-readings");
  check.out = folder_ / "profile-2.json";
  const auto checked = run_check(check);
  ASSERT_TRUE(checked) << checked.refusal();
  ASSERT_TRUE(checked.value().updated);
  EXPECT_EQ(checked.value().updated->n_feeds, 2 * kSheets);
  const ImposeReport third = impose("third", checked.value().updated);
  EXPECT_LT(third.plan.back_reach.granted.x_mm, second.plan.back_reach.granted.x_mm + 0.1);
  EXPECT_GE(good_cards(third, print("third", 43)), 0.9);
}

}  // namespace
}  // namespace versolay
