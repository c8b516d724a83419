// Rehearsals of PDFs that a person has already: a target and a deck. What the pages are is read
// from the pages alone; the truth judges what was read.
#include "app/own_pdf.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "app/impose.h"
#include "app/rehearse.h"
#include "app/rehearse_job.h"
#include "app/target.h"
#include "artwork/raster.h"
#include "core/files.h"
#include "core/json.h"
#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "support/findings.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

// As in rehearsal_test.cpp: what the simulated carriage, hands and ink leave at 200 dpi.
constexpr double kOffsetLimitMm = 0.05;
constexpr double kRotationLimitMrad = 0.25;

class OwnPdfTest : public testing::Test {
 protected:
  TargetRequest target(const std::string& name) {
    TargetRequest request;
    request.paper = parse_paper("letter");
    request.turn = Turn::short_edge;
    request.sheets = 3;
    request.run = "K7QX";
    request.fed_round = {2};
    request.pdf = scratch_ / name;
    return request;
  }

  /// Nine cards a sheet that touch, their backs of one plain colour at the edge.
  ImposeReport deck(int cards, Reach oversize, const std::optional<PrinterProfile>& profile) {
    Raster card;
    card.width_px = 186;
    card.height_px = 260;
    card.channels = 1;
    card.samples.assign(static_cast<std::size_t>(card.width_px * card.height_px), 120);
    std::filesystem::create_directories(scratch_ / "fronts");
    for (int i = 1; i <= cards; ++i) {
      write_file_atomically(scratch_ / ("fronts/" + std::to_string(i) + ".png"), encode_png(card),
                            true);
    }
    ImposeRequest request;
    request.cards.fronts = scratch_ / "fronts";
    request.cards.back = scratch_ / "fronts/1.png";
    request.cards.size = {63, 88};
    request.backs.profile = profile;
    request.backs.oversize = oversize;
    request.outputs.pdf = scratch_ / "deck.pdf";  // the cut card is its last page
    auto report = run_impose(request, {});
    EXPECT_TRUE(report) << report.refusal();
    return report.value();
  }

  /// Off as the simulated printer is on average, and varying as it does: five made-up sheets whose
  /// offsets lie symmetrically about that mean.
  static PrinterProfile profile_of_simulated_printer() {
    const rehearse::PassSettings printer;
    ReadingSession session{"target.json", {}};
    session.readings.paper = parse_paper("a4");
    session.readings.created = "2026-11-01T10:00:00Z";
    constexpr std::array<std::array<double, 3>, 5> kDraws = {{{1.2, 0.3, -0.9},
                                                              {-0.6, 1.3, 0.2},
                                                              {0.1, -1.4, 1.3},
                                                              {-1.3, -0.5, -1.2},
                                                              {0.6, 0.3, 0.6}}};
    for (std::size_t i = 0; i < kDraws.size(); ++i) {
      SheetReading sheet;
      sheet.sheet = static_cast<int>(i) + 1;
      sheet.run = "ABCD";
      sheet.model = RegistrationModel::rigid;
      RegistrationVector v = printer.mean.vec();
      for (std::size_t c = 0; c < 3; ++c) {
        v[static_cast<int>(c)] += kDraws[i][c] * printer.feed_sd.vec()[static_cast<int>(c)];
      }
      v.tail<3>().setZero();
      sheet.registration = Registration::from(v);
      sheet.covariance = RegistrationMatrix::Identity() * 1e-4;
      session.readings.sheets.push_back(sheet);
    }
    return estimate_profile({session}, {"simulated printer", "", "", ""}).value();
  }

  testing_support::ScratchFolder scratch_;
};

TEST_F(OwnPdfTest, ATargetSaysItselfWhatItIs) {
  run_target(target("target.pdf"));
  const auto read = read_own_pdf(scratch_ / "target.pdf", OwnKind::target, {});
  ASSERT_TRUE(read) << read.refusal();
  EXPECT_EQ(read.value().identity.run, "K7QX");
  EXPECT_EQ(read.value().identity.turn, Turn::short_edge);
  EXPECT_EQ(read.value().identity.paper, parse_paper("letter"));
  EXPECT_EQ(read.value().sheets.size(), 3u);
  EXPECT_EQ(read.value().fed_round(), (std::set<int>{2}));

  const auto wrong = read_own_pdf(scratch_ / "target.pdf", OwnKind::job, {});
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.refusal().code, "not_this_kind");
}

TEST_F(OwnPdfTest, PassesAreReadInTheOrderInWhichTheyAreFed) {
  TargetRequest request = target("passes.pdf");
  request.fed_round.clear();
  request.passes = 3;
  request.sheets = 2;
  run_target(request);
  const auto read = read_own_pdf(scratch_ / "passes.pdf", OwnKind::target, {});
  ASSERT_TRUE(read) << read.refusal();
  EXPECT_EQ(read.value().identity.passes, 3);
  ASSERT_EQ(read.value().sheets.size(), 2u);
  EXPECT_EQ(read.value().sheets[1].number, 2);
}

TEST_F(OwnPdfTest, ATargetIsPlayedWithItsOwnRun) {
  run_target(target("target.pdf"));
  RehearseRequest request;
  request.folder = scratch_ / "dry";
  request.target = scratch_ / "target.pdf";
  request.proof_sheets = 1;
  request.seed = 31;
  request.settings.scanner.dpi = 200;
  const auto played = run_rehearse(request, {});
  ASSERT_TRUE(played) << played.refusal();
  const RehearseReport& report = played.value();
  EXPECT_EQ(report.run, "K7QX");
  EXPECT_THAT(report.rejected, testing::IsEmpty());
  ASSERT_EQ(report.sheets.size(), 3u);
  for (const RehearsedSheet& s : report.sheets) {
    SCOPED_TRACE("sheet " + std::to_string(s.sheet));
    ASSERT_TRUE(s.reading);
    EXPECT_EQ(s.reading->run, "K7QX");
    EXPECT_EQ(s.reading->fed_round, s.sheet == 2);
    EXPECT_NEAR(s.reading->registration.dx_mm, s.truth.dx_mm, kOffsetLimitMm);
    EXPECT_NEAR(s.reading->registration.dy_mm, s.truth.dy_mm, kOffsetLimitMm);
    EXPECT_NEAR(s.reading->registration.rotation_mrad, s.truth.rotation_mrad, kRotationLimitMrad);
  }
  // A target that is corrected is a proof: no printer is learned from it.
  const auto again = read_own_pdf(scratch_ / "dry/corrected.pdf", OwnKind::target, {});
  ASSERT_FALSE(again);
  EXPECT_EQ(again.refusal().code, "pages_moved");
}

TEST_F(OwnPdfTest, ADeckIsPrintedReadCheckedAndItsCardsAreCounted) {
  const Reach oversize{0.2, 0.15};  // so little that some cards show a sliver
  const PrinterProfile profile = profile_of_simulated_printer();
  const ImposeReport imposed = deck(25, oversize, profile);
  ASSERT_EQ(imposed.plan.sheets, 3);
  write_file_atomically(scratch_ / "club.json", to_text(json_of(profile)), true);

  RehearseJobRequest request;
  request.folder = scratch_ / "dry";
  request.job = scratch_ / "deck.pdf";
  request.profile = scratch_ / "club.json";
  request.seed = 8;
  request.settings.scanner.dpi = 200;
  const auto played = run_rehearse_job(request, {});
  ASSERT_TRUE(played) << played.refusal();
  const RehearseJobReport& report = played.value();
  EXPECT_EQ(report.run, imposed.run);
  EXPECT_THAT(report.rejected, testing::IsEmpty());
  EXPECT_LT((report.printer_mean.vec() - profile.mean.vec()).cwiseAbs().maxCoeff(), 1e-9);
  ASSERT_EQ(report.sheets.size(), 3u);
  ASSERT_TRUE(report.check);
  EXPECT_EQ(report.check->check.n_new, 3);

  // The truth once more, from the file that the simulator wrote: where every corner of every card
  // lands that is printed where the correction puts it. Cells of 3 x 3 cards of 63 x 88 mm.
  const Json truth = read_json(request.folder / "print/truth.json");
  int cards = 0, clean = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const RehearsedJobSheet& sheet = report.sheets[i];
    ASSERT_TRUE(sheet.cards);
    EXPECT_EQ(sheet.cards->cards, i < 2 ? 9 : 7);
    const Json& r = truth.at("sheets").at(i).at("registration");
    RegistrationVector v;
    for (std::size_t k = 0; k < 6; ++k) {
      v[static_cast<int>(k)] = r.at(std::string(kRegistrationKeys[k])).get<double>();
    }
    const Affine<VersoMm, VersoMm> landed =
        Registration::from(v).landed_from_page() * imposed.correction().landed_from_page();
    int clean_here = 0;
    double worst = 0.0;
    for (int cell = 0; cell < sheet.cards->cards; ++cell) {
      // Turned on the long edge: the left column of the fronts is the right one of the backs.
      const double x = 63.0 * (1 - cell % 3) + imposed.plan.moved_mm.x() * -1;
      const double y = 88.0 * (cell / 3 - 1) + imposed.plan.moved_mm.y();
      bool is_clean = true;
      for (const double dx : {-31.5, 31.5}) {
        for (const double dy : {-44.0, 44.0}) {
          const Point<VersoMm> corner{x + dx, y + dy};
          const Eigen::Vector2d e = landed(corner).vec() - corner.vec();
          worst = std::max(worst, e.norm());
          is_clean &= std::abs(e.x()) <= oversize.x_mm && std::abs(e.y()) <= oversize.y_mm;
        }
      }
      clean_here += is_clean ? 1 : 0;
    }
    EXPECT_EQ(sheet.cards->clean, clean_here) << "sheet " << i + 1;
    EXPECT_NEAR(sheet.cards->worst_off_mm, worst, 0.002);
    cards += sheet.cards->cards;
    clean += clean_here;
    ASSERT_TRUE(sheet.sheet.reading);
    EXPECT_NEAR(sheet.sheet.reading->registration.dx_mm, sheet.sheet.truth.dx_mm, 0.1);
    EXPECT_NEAR(sheet.sheet.reading->registration.dy_mm, sheet.sheet.truth.dy_mm, 0.1);
  }
  EXPECT_EQ(cards, 25);
  EXPECT_GT(clean, 0);
  EXPECT_LT(clean, 25);
}

TEST_F(OwnPdfTest, TheCutCardBehindADeckIsNoSheet) {
  deck(2, {0.5, 0.5}, std::nullopt);
  const auto read = read_own_pdf(scratch_ / "deck.pdf", OwnKind::job, {});
  ASSERT_TRUE(read) << read.refusal();
  EXPECT_EQ(read.value().sheets.size(), 1u);  // the cut card behind it is no sheet
  const auto wrong = read_own_pdf(scratch_ / "deck.pdf", OwnKind::target, {});
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.refusal().code, "not_this_kind");
}

}  // namespace
}  // namespace versolay
