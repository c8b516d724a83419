// The whole chain on paper that is arithmetic: a deck is imposed with a profile, its pages are
// rendered by two renderers, printed through the simulated printer (src/rehearse, which shares the
// frames and nothing else) and cut where the front's guides say.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/impose.h"
#include "rehearse/passes.h"
#include "support/findings.h"
#include "support/image_files.h"
#include "support/pdf_render.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using rehearse::draw_passes;
using rehearse::Passes;
using rehearse::PassSettings;
using rehearse::Random;
using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::ScratchFolder;

/// Plain grey with a black disc in the middle, 63 x 88 mm at 300 ppi.
Raster disc_back() {
  Raster r;
  r.width_px = 744;
  r.height_px = 1039;
  r.channels = 1;
  r.samples.assign(744U * 1039U, 255);
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      int inside = 0;
      for (int i = 0; i < 16; ++i) {
        const double dx = x + (i % 4 + 0.5) / 4 - 372;
        const double dy = y + (i / 4 + 0.5) / 4 - 519.5;
        if (std::hypot(dx, dy) < 48) ++inside;
      }
      r.at(x, y, 0) = static_cast<std::uint16_t>(255 - 255 * inside / 16);
    }
  }
  return r;
}

class ProofTest : public ::testing::Test {
 protected:
  ProofTest() {
    save(testing_support::test_picture(744, 1039, 3), "front.png");
    save(disc_back(), "disc.png");
    Raster plain = testing_support::test_picture(744, 1039, 1);
    std::fill(plain.samples.begin(), plain.samples.end(), std::uint16_t{90});
    save(plain, "plain.png");
    request_.cards.size = {63, 88};
    request_.outputs.pdf = scratch_ / "job.pdf";
    request_.outputs.cut_card = scratch_ / "cut.pdf";
    request_.outputs.replace = true;
  }
  void save(const Raster& r, const std::string& name) {
    write_file_atomically(scratch_ / name, encode_png(r), true);
  }
  void list(int cards, const std::string& back) {
    write_file_atomically(
        scratch_ / "deck.csv",
        "front,quantity,back\nfront.png," + std::to_string(cards) + "," + back + "\n", true);
    request_.cards.fronts = scratch_ / "deck.csv";
  }
  ImposeReport impose_it() {
    auto result = run_impose(request_, {});
    if (!result) throw Error("", result.refusal());
    return result.value();
  }

  ScratchFolder scratch_;
  ImposeRequest request_;
};

/// Where the blade goes, as the guides of the front page show it: the middle of the ink of one line
/// beside the block.
double guide_at(const RenderedPage& page, bool vertical, double across, double along) {
  const Point<PageMm> at = vertical ? Point<PageMm>{across, along} : Point<PageMm>{along, across};
  const Point<PageMm> found = page.centroid(at, 0.5);
  return vertical ? found.x : found.y;
}

struct Job {
  const char* paper;
  Turn turn;
  GridShape grid;
  std::vector<Renderer> renderers = {Renderer::pdftocairo, Renderer::mutool};
};

TEST_F(ProofTest, BacksLandBehindTheCutThatTheFrontsGuidesShow) {
  const std::vector<Renderer> one = {Renderer::pdftocairo};
  for (const Job& job :
       {Job{"a4", Turn::long_edge, {3, 3}}, Job{"a4", Turn::short_edge, {3, 3}},
        Job{"297x210mm", Turn::long_edge, {4, 2}, one},
        Job{"297x210mm", Turn::short_edge, {4, 2}, one}, Job{"a3", Turn::long_edge, {4, 4}, one}}) {
    PassSettings settings;
    settings.feed_sd = {};
    const Paper paper = parse_paper(job.paper);
    const TurnAxis axis = turn_axis(job.turn, paper);
    const Passes passes = draw_passes(settings, axis, Random(7, "proof"));
    PrinterProfile profile;
    profile.paper = paper;
    profile.turn = job.turn;
    profile.mean = settings.mean;
    request_.backs.profile = profile;
    request_.sheet.paper = paper;
    request_.sheet.grid = job.grid;
    request_.sheet.blocks = 1;
    request_.backs.oversize = Reach{};
    const int cards = job.grid.columns * job.grid.rows;
    list(cards, "disc.png");
    const ImposeReport report = impose_it();
    for (const Renderer renderer : job.renderers) {
      SCOPED_TRACE(std::string(job.paper) + " " + std::string(to_string(job.turn)) + " " +
                   program(renderer));
      const RenderedPage recto = render_page(renderer, request_.outputs.pdf, 1, paper, 600);
      const RenderedPage verso = render_page(renderer, request_.outputs.pdf, 2, paper, 600);
      const CardBlock& block = report.plan.grid.blocks[0];
      const double above = block.centre.y - block.height_mm / 2 - 2.5;
      const double left_of = block.centre.x - block.width_mm / 2 - 2.5;
      Eigen::Vector2d sum(0, 0);
      double worst = 0;
      for (const Cell& cell : report.plan.grid.cells) {
        const auto middle = [&](bool vertical, double centre, double size, double along) {
          return (guide_at(recto, vertical, centre - size / 2, along) +
                  guide_at(recto, vertical, centre + size / 2, along)) /
                 2;
        };
        const Point<RectoMm> cut{
            middle(true, cell.centre.x, report.plan.grid.card.width_mm, above),
            middle(false, cell.centre.y, report.plan.grid.card.height_mm, left_of)};
        EXPECT_NEAR(cut.x, cell.centre.x, 0.003);
        EXPECT_NEAR(cut.y, cell.centre.y, 0.003);
        const auto behind = rehearse::back_from_front(axis)(passes.front(cut));
        // Near to where it should be: through the true passes backwards.
        const Point<VersoMm> guess = passes.back.inverse()(behind);
        const Point<PageMm> disc = verso.centroid({guess.x, guess.y}, 6.0);
        const auto landed = passes.back({disc.x, disc.y});
        const Eigen::Vector2d off = landed.vec() - behind.vec();
        sum += off;
        worst = std::max(worst, off.norm());
      }
      const Eigen::Vector2d mean = sum / static_cast<double>(cards);
      RecordProperty("mean_um", std::to_string(1000 * mean.norm()));
      EXPECT_LT(mean.norm(), 0.02);
      // mutool takes the nearest pixel of a picture: a share of 85 um for a single card.
      EXPECT_LT(worst, renderer == Renderer::pdftocairo ? 0.005 : 0.03);
    }
  }
}

/// Is the card clean: does the ink of its back, as it landed, cover the card as it is cut?
bool clean(const Passes& passes, const ImposeReport& report, const Cell& cell, TurnAxis axis) {
  const Affine<VersoMm, VersoMm> page_from_wanted = report.correction().landed_from_page();
  const Point<VersoMm> centre = verso_from_recto(axis)(cell.centre);
  for (const double x : {-0.5, 0.5}) {
    for (const double y : {-0.5, 0.5}) {
      const Point<RectoMm> corner{cell.centre.x + x * report.plan.grid.card.width_mm,
                                  cell.centre.y + y * report.plan.grid.card.height_mm};
      const auto on_sheet = rehearse::back_from_front(axis)(passes.front(corner));
      const Point<VersoMm> drawn = page_from_wanted.inverse()(passes.back.inverse()(on_sheet));
      if (std::abs(drawn.x - centre.x) >
              report.plan.grid.card.width_mm / 2 + report.plan.back_reach.granted.x_mm ||
          std::abs(drawn.y - centre.y) >
              report.plan.grid.card.height_mm / 2 + report.plan.back_reach.granted.y_mm) {
        return false;
      }
    }
  }
  return true;
}

TEST_F(ProofTest, TheShareOfCleanCardsKeepsItsPromiseOnFiveHundredSheets) {
  PassSettings settings;
  settings.mean = {0.42, -0.31, 0.9, 0, 0, 0};
  settings.feed_sd = {0.15, 0.10, 0.7, 0, 0, 0};
  const TurnAxis axis = TurnAxis::vertical;
  list(9, "plain.png");
  constexpr int kCalibrations = 12;
  int kept = 0;
  double share_sum = 0;
  for (int c = 0; c < kCalibrations; ++c) {
    const auto feed = [c](const char* purpose, int i) {
      return Random(static_cast<std::uint64_t>(100 + c), purpose, static_cast<std::uint64_t>(i));
    };
    std::vector<Registration> feeds;
    for (int i = 0; i < 10; ++i) {
      feeds.push_back(draw_passes(settings, axis, feed("calibration", i)).registration());
    }
    request_.backs.profile = testing::profile_of(feeds);
    const ImposeReport report = impose_it();
    int good = 0;
    constexpr int kSheets = 500;
    for (int s = 0; s < kSheets; ++s) {
      const Passes passes = draw_passes(settings, axis, feed("job", s));
      for (const Cell& cell : report.plan.grid.cells)
        good += clean(passes, report, cell, axis) ? 1 : 0;
    }
    const double share = good / (9.0 * kSheets);
    share_sum += share;
    kept += share >= 0.95 ? 1 : 0;
  }
  // Promised: at least 95 % of the cards, in nine of ten calibrations. Of twelve that keep a
  // promise of 0.9, seven or fewer are seen once in two hundred times (binomial).
  RecordProperty("kept", kept);
  RecordProperty("mean_share", std::to_string(share_sum / kCalibrations));
  EXPECT_GE(kept, 8);
  EXPECT_LT(share_sum / kCalibrations, 0.9999);  // and not by an absurd oversize
}

}  // namespace
}  // namespace versolay
