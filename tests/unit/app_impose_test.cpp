#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/impose.h"
#include "core/natural_order.h"
#include "imposition/deck.h"
#include "support/findings.h"
#include "support/image_files.h"
#include "support/pdf_render.h"
#include "target/waste_code.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

const Registration kMean{0.431, -0.287, 1.7, 350, -220, 0.4};

PrinterProfile profile_of(const Registration& mean, Turn turn) {
  PrinterProfile profile;
  profile.printer = "desk printer";
  profile.paper = parse_paper("a4");
  profile.turn = turn;
  profile.mean = mean;
  return profile;
}

/// A white image with black discs of 3 mm at 12 mm from each corner of a 63 x 88 mm card, the one
/// at the upper left larger.
Raster card_picture(int ppi) {
  Raster r;
  r.width_px = static_cast<int>(std::lround(63 * ppi / 25.4));
  r.height_px = static_cast<int>(std::lround(88 * ppi / 25.4));
  r.channels = 1;
  r.samples.assign(static_cast<std::size_t>(r.width_px) * static_cast<std::size_t>(r.height_px),
                   255);
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      // Four by four sub-pixels, so that the discs have soft edges and a true centre.
      int inside = 0;
      for (int i = 0; i < 16; ++i) {
        const double mx = (x + (i % 4 + 0.5) / 4) / r.width_px * 63;
        const double my = (y + (i / 4 + 0.5) / 4) / r.height_px * 88;
        for (const double cx : {12.0, 51.0}) {
          for (const double cy : {12.0, 76.0}) {
            const double radius = cx < 30 && cy < 30 ? 4.0 : 3.0;
            if (std::hypot(mx - cx, my - cy) < radius) ++inside;
          }
        }
      }
      r.at(x, y, 0) = static_cast<std::uint16_t>(255 - 255 * inside / 16);
    }
  }
  return r;
}

class ImposeTest : public testing::Test {
 protected:
  ImposeTest() {
    std::filesystem::create_directory(scratch_ / "fronts");
    for (int i = 1; i <= 11; ++i) {
      Raster front = testing_support::test_picture(630, 880, 3);
      front.at(i, 0, 0) = 0;
      write_file_atomically(scratch_ / ("fronts/bird" + std::to_string(i) + ".jpg"),
                            testing_support::jpeg_bytes(front), false);
    }
    write_file_atomically(scratch_ / "back.png", encode_png(card_picture(300)), false);
    request_.cards.fronts = scratch_ / "fronts";
    request_.cards.back = scratch_ / "back.png";
    request_.cards.size = {63, 88};
    request_.outputs.pdf = scratch_ / "job.pdf";
    request_.outputs.cut_card = scratch_ / "job-cutcard.pdf";
    request_.backs.profile = profile_of(kMean, Turn::long_edge);
    request_.backs.profile_name = "printer.json";
    request_.backs.oversize = Reach{0.7, 0.7};
  }

  ImposeReport done() {
    auto result = run_impose(request_, {});
    if (!result) throw Error("", result.refusal());
    return result.value();
  }

  ImposeReport done_again() {
    request_.outputs.replace = true;
    return done();
  }

  ScratchFolder scratch_;
  ImposeRequest request_;
};

TEST_F(ImposeTest, MakesFrontAndBackPagesAndLeavesUnusedPlacesEmptyOnBothSides) {
  const ImposeReport report = done();
  EXPECT_EQ(report.plan.placed.size(), 11);
  EXPECT_EQ(report.plan.sheets, 2);
  EXPECT_EQ(report.plan.blank_cells, 7);
  const std::string pdf = "'" + request_.outputs.pdf.string() + "'";
  EXPECT_EQ(run("qpdf --check " + pdf).status, 0);
  EXPECT_THAT(run("pdfinfo " + pdf).output, HasSubstr("Pages:           4"));
  // Sheet 2 holds two cards: in the left and middle column of the front, so behind them in the
  // right and middle column of the back.
  const RenderedPage front =
      render_page(Renderer::pdftocairo, request_.outputs.pdf, 3, report.plan.paper, 50);
  const RenderedPage back =
      render_page(Renderer::pdftocairo, request_.outputs.pdf, 4, report.plan.paper, 50);
  const auto inked = [](const RenderedPage& page, double x, double y) {
    double most = 0;
    for (double dx = -25; dx <= 25; dx += 1) {
      for (double dy = -38; dy <= 38; dy += 1) most = std::max(most, page.ink_at({x + dx, y + dy}));
    }
    return most > 0.3;
  };
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      const bool used = row == 0 && column < 2;
      const double x = (column - 1) * 63.0;
      const double y = (row - 1) * 88.0;
      EXPECT_EQ(inked(front, x, y), used) << row << column;
      EXPECT_EQ(inked(back, -x, y), used) << row << column;
    }
  }
}

TEST_F(ImposeTest, NoPageIsBlankInEitherRenderer) {
  request_.outputs.cut_card.clear();
  const ImposeReport report = done();
  for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
    for (int page = 1; page <= 2 * report.plan.sheets + 1; ++page) {
      const RenderedPage rendered =
          render_page(renderer, request_.outputs.pdf, page, report.plan.paper, 50);
      double ink = 0;
      for (const std::uint16_t value : rendered.raster.samples) ink += 1 - value / 255.0;
      EXPECT_GT(ink / static_cast<double>(rendered.raster.samples.size()), 0.005)
          << program(renderer) << " page " << page;
    }
  }
}

// Vector art, because renderers place a picture to whole pixels of their own (see the next test).
TEST_F(ImposeTest, EveryCellIsWithinAMicrometreOfItsPlanInTwoRenderers) {
  PdfPage card{{"card", 63.0, 88.0}, {Disc{{0, 0}, 6.0, 0.0, {}}}};
  write_file_atomically(scratch_ / "card.pdf", render_pdf({"card", Turn::long_edge, {card}}), true);
  write_file_atomically(scratch_ / "deck.csv", "front,quantity\ncard.pdf,9\n", true);
  request_.cards.fronts = scratch_ / "deck.csv";
  request_.cards.back = scratch_ / "card.pdf";
  for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
    request_.backs.profile = profile_of(kMean, turn);
    const ImposeReport report = done_again();
    const auto mirrored = verso_from_recto(turn_axis(turn, report.plan.paper));
    for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
      const RenderedPage front = render_page(renderer, request_.outputs.pdf, 1, report.plan.paper);
      const RenderedPage back = render_page(renderer, request_.outputs.pdf, 2, report.plan.paper);
      double worst_mm = 0;
      for (const Cell& cell : report.plan.grid.cells) {
        const Point<PageMm> recto = relabel<PageMm>(cell.centre);
        const Point<PageMm> verso =
            relabel<PageMm>(report.correction().landed_from_page()(mirrored(cell.centre)));
        for (const auto& [page, plan] : {std::pair{&front, recto}, {&back, verso}}) {
          worst_mm = std::max(worst_mm, (page->centroid(plan, 9.0).vec() - plan.vec()).norm());
        }
      }
      RecordProperty(std::string(program(renderer)) + std::string(to_string(turn)) + "_um",
                     std::to_string(worst_mm * 1e3));
      EXPECT_LT(worst_mm, 0.001) << program(renderer);
    }
  }
}

// A page of 67 x 92 mm whose TrimBox lies 2 mm inside: the card of 63 x 88 mm keeps its size, and
// what is drawn beyond it (here a spot 1 mm beyond) is printed in the gap between the cards.
TEST_F(ImposeTest, APageWithATrimBoxIsPlacedByItAndBleedsIntoTheGap) {
  const Eigen::Vector2d spot(-32.5, 10.0);
  PdfPage card{{"card", 67.0, 92.0},
               {Disc{{0, 0}, 6.0, 0.0, {}}, Disc{{spot.x(), spot.y()}, 0.5, 0.0, {}}}};
  const std::filesystem::path file = scratch_ / "card.pdf";
  write_file_atomically(file, render_pdf({"card", Turn::long_edge, {card}}), true);
  const std::string qdf = "'" + (scratch_ / "qdf.pdf").string() + "'";
  ASSERT_EQ(run("qpdf --qdf '" + file.string() + "' " + qdf).status, 0);
  std::string text = read_file(scratch_ / "qdf.pdf");
  const std::size_t trim = text.find("/TrimBox [");
  ASSERT_NE(trim, std::string::npos);
  const double pt = 72 / 25.4;
  text.replace(trim, text.find(']', trim) - trim + 1,
               fmt::format("/TrimBox [ {} {} {} {} ]", 2 * pt, 2 * pt, 65 * pt, 90 * pt));
  write_file_atomically(scratch_ / "qdf.pdf", text, true);
  ASSERT_EQ(run("fix-qdf " + qdf + " > '" + file.string() + "'").status, 0);
  write_file_atomically(scratch_ / "deck.csv", "front,quantity\ncard.pdf,4\n", true);

  request_.cards.fronts = scratch_ / "deck.csv";
  request_.sheet.grid = GridShape{2, 2};
  request_.sheet.gutter_mm = 6.0;
  request_.marks.guides = false;
  const ImposeReport report = done();
  const RenderedPage front =
      render_page(Renderer::pdftocairo, request_.outputs.pdf, 1, report.plan.paper);
  for (const Cell& cell : report.plan.grid.cells) {
    const Point<PageMm> middle = relabel<PageMm>(cell.centre);
    double area = 0;
    EXPECT_LT((front.centroid(middle, 9.0, &area).vec() - middle.vec()).norm(), 0.001);
    EXPECT_NEAR(area, M_PI * 36, 0.1);
    const auto beyond = Point<PageMm>::from(middle.vec() + spot);
    EXPECT_LT((front.centroid(beyond, 1.5, &area).vec() - beyond.vec()).norm(), 0.001);
    EXPECT_NEAR(area, M_PI * 0.25, 0.01);
  }
}

TEST_F(ImposeTest, BacksLandBehindTheirFrontsOnceThePrinterHasMovedThem) {
  request_.backs.edge = EdgeKind::picture;  // it is white, and would not be enlarged
  for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
    request_.backs.profile = profile_of(kMean, turn);
    request_.outputs.replace = true;
    const ImposeReport report = done();
    const Affine<VersoMm, VersoMm> printed = kMean.landed_from_page();
    const TurnAxis axis = turn_axis(turn, report.plan.paper);
    // The picture of 744 x 1039 px (63 x 88 mm rounded to whole pixels) fills 63 + 2 x 0.7 mm, and
    // is scaled equally in height.
    const Eigen::Vector2d enlarged(64.4 / 63, 64.4 / 744 * 1039 / 88);
    for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
      const RenderedPage page = render_page(renderer, request_.outputs.pdf, 2, report.plan.paper);
      double sum = 0;
      int count = 0;
      for (const Cell& cell : report.plan.grid.cells) {
        // Where a disc of the back belongs on the sheet, in the view of the front: at the mirrored
        // place of the card, enlarged about the middle of the card.
        for (const double dx : {-19.5, 19.5}) {
          for (const double dy : {-32.0, 32.0}) {
            const Eigen::Vector2d in_card = enlarged.cwiseProduct(Eigen::Vector2d(dx, dy));
            const double upside = axis == TurnAxis::vertical ? 1.0 : -1.0;
            const Eigen::Vector2d wanted =
                verso_from_recto(axis)(cell.centre).vec() + upside * in_card;
            const Point<VersoMm> on_page = kMean.page_from_wanted()(Point<VersoMm>::from(wanted));
            const Point<PageMm> found = page.centroid({on_page.x, on_page.y}, 6.0);
            sum += (printed({found.x, found.y}).vec() - wanted).norm();
            ++count;
          }
        }
      }
      RecordProperty(std::string(program(renderer)) + std::string(to_string(turn)),
                     std::to_string(sum / count));
      // mutool takes the nearest pixel of a picture, so its own error is a share of one (85 um).
      const double gate_mm = renderer == Renderer::pdftocairo ? 0.002 : 0.012;
      EXPECT_LT(sum / count, gate_mm) << program(renderer);
    }
  }
}

TEST_F(ImposeTest, TheLargerDiscShowsThatCardsStayUprightWhenTurnedOver) {
  request_.backs.profile = profile_of({}, Turn::short_edge);
  const ImposeReport report = done();
  const RenderedPage page =
      render_page(Renderer::mutool, request_.outputs.pdf, 2, report.plan.paper, 300);
  // Turned over the top edge, the artwork of the back stands on its head as one looks at the page:
  // the upper left disc of the card is at the lower right.
  double lower_right = 0;
  double upper_left = 0;
  (void)page.centroid({19.9, 32.7}, 6.0, &lower_right);
  (void)page.centroid({-19.9, -32.7}, 6.0, &upper_left);
  EXPECT_GT(lower_right, 1.5 * upper_left);
}

TEST_F(ImposeTest, PassesJpegsOnByteForByteAndStoresEveryPictureOnce) {
  done();
  const std::string pdf = "'" + request_.outputs.pdf.string() + "'";
  ASSERT_EQ(run("pdfimages -all " + pdf + " '" + (scratch_ / "out").string() + "'").status, 0);
  EXPECT_EQ(read_file(scratch_ / "out-000.jpg"), read_file(scratch_ / "fronts/bird1.jpg"));
  EXPECT_EQ(read_file(scratch_ / "out-001.jpg"), read_file(scratch_ / "fronts/bird2.jpg"));
  std::istringstream list(run("pdfimages -list " + pdf).output);
  std::set<std::string> objects;
  int images = 0;
  for (std::string line; std::getline(list, line);) {
    std::istringstream fields(line);
    std::vector<std::string> f;
    for (std::string field; fields >> field;) f.push_back(field);
    if (f.size() < 12 || f[2] != "image") continue;
    ++images;
    objects.insert(f[10]);
  }
  EXPECT_EQ(images, 22);
  EXPECT_EQ(objects.size(), 12U);  // 11 fronts and one back
}

TEST_F(ImposeTest, OversizedBacksNeverReachOverTheCommonCut) {
  Raster black = card_picture(300);
  std::fill(black.samples.begin(), black.samples.end(), std::uint16_t{0});
  // One black back among white ones: what it inks beyond its cell is seen.
  write_file_atomically(scratch_ / "white.png", encode_png(testing_support::test_picture(7, 10, 1)),
                        false);
  std::filesystem::create_directory(scratch_ / "backs");
  Raster white = black;
  std::fill(white.samples.begin(), white.samples.end(), std::uint16_t{255});
  for (int i = 1; i <= 11; ++i) {
    write_file_atomically(scratch_ / ("backs/" + std::to_string(i) + ".png"),
                          encode_png(i == 5 || i == 1 ? black : white), false);
  }
  request_.cards.back = scratch_ / "backs";
  request_.backs.profile = profile_of({}, Turn::long_edge);
  const ImposeReport report = done();
  const RenderedPage page =
      render_page(Renderer::mutool, request_.outputs.pdf, 2, report.plan.paper, 600);
  EXPECT_EQ(page.ink_at({31.3, 0}), 1.0);  // the middle card is black up to its cut ...
  EXPECT_EQ(page.ink_at({31.7, 0}), 0.0);  // ... and not beyond
  EXPECT_EQ(page.ink_at({0, 43.8}), 1.0);
  EXPECT_EQ(page.ink_at({0, 44.2}), 0.0);
  // Card 1 is at the upper left of the front, so the upper right of the back: outer edges get all.
  EXPECT_EQ(page.ink_at({94.5 + 0.6, -88}), 1.0);
  EXPECT_EQ(page.ink_at({94.5 + 0.8, -88}), 0.0);
  EXPECT_EQ(page.ink_at({63, -132 - 0.6}), 1.0);
  EXPECT_EQ(page.ink_at({63, -132 - 0.8}), 0.0);
}

// The back that everybody owns: 8 px larger on every side than a card of 744 x 1039 px.
TEST_F(ImposeTest, ABackThatIsALittleLargerAllRoundIsSaidToHaveABleed) {
  const auto warning = [&](int width, int height) -> std::optional<Finding> {
    write_file_atomically(scratch_ / "large.png",
                          encode_png(testing_support::test_picture(width, height, 1)), true);
    request_.cards.back = scratch_ / "large.png";
    request_.outputs.replace = true;
    for (const Notice& n : done().warnings) {
      if (n.code == "like_bleed" && testing_support::fact<>(n, "side") == "back") return n;
    }
    return std::nullopt;
  };
  const auto found = warning(760, 1055);
  ASSERT_TRUE(found);
  EXPECT_EQ(testing_support::fact<double>(*found, "beyond_px"), 8.0);
  EXPECT_FALSE(warning(744, 1039));   // just the card
  EXPECT_FALSE(warning(760, 1062));   // enlarged equally in width and height
  EXPECT_FALSE(warning(1488, 2078));  // of 600 ppi
  request_.backs.art.bleed_mm = 8 * 25.4 / 300;
  EXPECT_FALSE(warning(760, 1055));  // said
}

TEST_F(ImposeTest, FlagsImagesThatAreTooCoarseOrOfTheWrongShape) {
  write_file_atomically(scratch_ / "fronts/bird12.jpg",
                        testing_support::jpeg_bytes(testing_support::test_picture(400, 400, 3)),
                        false);
  const ImposeReport report = done();
  std::set<std::string> codes;
  for (const Notice& n : report.warnings) codes.insert(n.code);
  EXPECT_THAT(codes, testing::Contains("low_resolution"));
  EXPECT_THAT(codes, testing::Contains("wrong_aspect"));
  // 400 px over the 88 mm of the height.
  EXPECT_NEAR(report.plan.artwork.front_ppi.lowest, 400 / 88.0 * 25.4, 0.1);
  for (const Notice& n : report.warnings) {
    if (n.code != "low_resolution" && n.code != "wrong_aspect") continue;
    const char* file = n.code == "low_resolution" ? "coarsest" : "worst";
    EXPECT_THAT(testing_support::fact<>(n, file), HasSubstr("bird12.jpg"));
    EXPECT_EQ(testing_support::fact<std::int64_t>(n, "width_px"), 744);
    EXPECT_EQ(testing_support::fact<std::int64_t>(n, "height_px"), 1039);
  }
}

TEST_F(ImposeTest, RefusesAProfileOfAnotherPaperOrTurn) {
  request_.sheet.turn = Turn::short_edge;
  auto result = run_impose(request_, {});
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.refusal().code, "profile_turn");
  request_.sheet.turn.reset();
  request_.sheet.paper = parse_paper("letter");
  result = run_impose(request_, {});
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.refusal().code, "profile_paper");
  EXPECT_FALSE(std::filesystem::exists(request_.outputs.pdf));
}

TEST_F(ImposeTest, SaysJobSheetSideTurnAndProfileOnEveryPage) {
  request_.outputs.job = "Meadow birds";
  done();
  const std::string file = "'" + request_.outputs.pdf.string() + "' -";
  const std::string front = run("pdftotext -f 3 -l 3 " + file).output;
  for (const char* word : {"Meadow birds", "sheet 2 of 2", "front", "long edge", "printer.json"}) {
    EXPECT_THAT(front, HasSubstr(word));
  }
  EXPECT_THAT(run("pdftotext -f 4 -l 4 " + file).output, HasSubstr("back"));
}

TEST_F(ImposeTest, TheCutCardListsEveryCutWithItsSettingAndTheCautions) {
  done();
  const std::string text =
      run("pdftotext -layout '" + request_.outputs.cut_card.string() + "' -").output;
  for (const char* words : {"189 mm", "264 mm", "126 mm", "63 mm", "176 mm", "88 mm",
                            "never be laminated", "guard on", "manual"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
}

/// The words of a PDF, lines joined.
std::string words_of(const std::string& pdftotext_arguments) {
  std::string text = run("pdftotext " + pdftotext_arguments + " -").output;
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

TEST_F(ImposeTest, ScalesTheCutCardByAMeasuredLengthAndRefusesNonsense) {
  request_.cutting.laminated = LaminatedScale{1.004, 1.002};
  const ImposeReport report = done();
  EXPECT_NEAR(report.plan.cuts.cuts[2].fence_mm, 189.756, 1e-9);
  EXPECT_NEAR(report.plan.cuts.cuts[3].fence_mm, 264.528, 1e-9);
  request_.outputs.replace = true;
  EXPECT_THAT(words_of("'" + request_.outputs.cut_card.string() + "'"),
              HasSubstr("63.25 x 88.18 mm"));  // the finished card
  request_.cutting.laminated = LaminatedScale{1.05, 1.0};
  EXPECT_THROW((void)run_impose(request_, {}), Error);
}

TEST_F(ImposeTest, PutsTheCutCardOnTheLastPageWhenAskedTo) {
  request_.outputs.cut_card.clear();
  request_.marks.ticks_mm = 0.25;
  request_.cutting.paper_thickness = Thickness{0.22, 0.22};
  request_.cutting.pouch_thickness = Thickness{0.08, 0.08};
  done();
  EXPECT_THAT(run("pdfinfo '" + request_.outputs.pdf.string() + "'").output,
              HasSubstr("Pages:           5"));
  const std::string text = words_of("-f 5 -l 5 '" + request_.outputs.pdf.string() + "'");
  for (const char* words : {"edge 1", "edge 2", "0.38 mm thick", "12 strokes", "20 with gutters",
                            "at a lamp", "0.5 mm", "0.25 mm to the left"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
  EXPECT_FALSE(std::filesystem::exists(scratch_ / "job-cutcard.pdf"));
}

TEST_F(ImposeTest, AppliesTheCorrectionThatItsMarksName) {
  const ImposeReport report = done();
  EXPECT_EQ(report.run.size(), 4U);
  const auto coded = coded_correction(report.correction());
  ASSERT_TRUE(coded);
  EXPECT_LT((coded->vec() - report.correction().vec()).cwiseAbs().maxCoeff(), 1e-6);
  const RegistrationVector exact = registration_from(kMean.page_from_wanted()).vec();
  const RegistrationVector rounding = (report.correction().vec() - exact).cwiseAbs();
  EXPECT_LE(rounding.head<3>().maxCoeff(), 0.0005 + 1e-9);  // mm, mrad
  EXPECT_LE(rounding.segment<2>(3).maxCoeff(), 0.5 + 1e-9);
  request_.marks.registration = false;
  request_.outputs.replace = true;
  const ImposeReport without = done();
  EXPECT_TRUE(without.run.empty());
  EXPECT_LT((without.correction().vec() - exact).norm(), 1e-9);
}

TEST_F(ImposeTest, WarnsWhenTheJobIsNotSetUpAsTheProfileWas) {
  request_.backs.profile->feed = "rear tray";
  request_.backs.profile->stock = "200 gsm matt";
  request_.backs.setup = {"Rear  tray", "glossy", ""};
  std::set<std::string> codes;
  for (const Notice& n : done().warnings) codes.insert(n.code);
  EXPECT_FALSE(codes.contains("profile_feed"));
  EXPECT_TRUE(codes.contains("profile_stock"));
  EXPECT_FALSE(codes.contains("profile_quality"));
}

TEST_F(ImposeTest, WarnsWhenTheTargetsWereNotPrintedAtActualSize) {
  request_.backs.profile->feeds.resize(1);
  request_.backs.profile->feeds[0].printed_scale = {0.985, 0.985};
  std::set<std::string> codes;
  for (const Notice& n : done().warnings) codes.insert(n.code);
  EXPECT_TRUE(codes.contains("profile_scale"));
}

TEST_F(ImposeTest, MovesThePageOnlyAsFarAsTheUserAllows) {
  request_.backs.can_scale = false;
  EXPECT_NEAR(done().correction().scale_x_ppm, 0, 4);  // the rotation's own square: 2.9
  EXPECT_NEAR(done_again().correction().rotation_mrad, -kMean.rotation_mrad, 1e-3);
  request_.backs.can_rotate = false;
  const Registration c = done_again().correction();
  EXPECT_DOUBLE_EQ(c.rotation_mrad, 0);
  EXPECT_DOUBLE_EQ(c.dx_mm, -kMean.dx_mm);
  EXPECT_DOUBLE_EQ(c.dy_mm, -kMean.dy_mm);
}

TEST_F(ImposeTest, NamesEveryCardWithItsPlace) {
  const ImposeReport report = done();
  ASSERT_EQ(report.plan.placed.size(), 11U);
  EXPECT_EQ(report.plan.placed[10].name, "bird11");
  EXPECT_EQ(report.plan.placed[10].sheet, 2);
  EXPECT_EQ(report.plan.placed[10].row, 0);
  EXPECT_EQ(report.plan.placed[10].column, 1);
}

TEST(NaturalLess, PutsCardTwoBeforeCardTen) {
  EXPECT_TRUE(natural_less("card2.png", "card10.png"));
  EXPECT_FALSE(natural_less("card10.png", "card2.png"));
  EXPECT_TRUE(natural_less("a1b2", "a1b10"));
  EXPECT_TRUE(natural_less("Card1", "card2"));
  EXPECT_TRUE(natural_less("card", "card1"));
  EXPECT_FALSE(natural_less("card1", "card1"));
}

}  // namespace
}  // namespace versolay
