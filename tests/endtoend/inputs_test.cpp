// Scans as they really come: spoilt, mixed up, mirrored, of pages that are none of ours. Each is
// either read right or named for what it is; none gives a wrong number.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "app/target.h"
#include "measure/side_reading.h"
#include "registration/page_order.h"
#include "registration/sheet_registration.h"
#include "rehearse/simulate.h"
#include "support/findings.h"
#include "support/scratch_folder.h"
#include "words/say.h"

namespace versolay {
namespace {

using rehearse::RehearsalSettings;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr double kDpi = 200.0;
constexpr double kPxPerMm = kDpi / 25.4;
constexpr double kSigmas = 3.5;     // of the stated uncertainty
constexpr double kFloorMm = 0.030;  // what swaths and rollers do, and nobody can see

struct Printed {
  std::map<std::pair<int, Side>, Scan> scans;
  std::map<int, Registration> truth;
};

RehearsalSettings settings_with(std::uint64_t seed) {
  RehearsalSettings settings;
  settings.seed = seed;
  settings.scanner.dpi = kDpi;
  return settings;
}

Printed print_and_scan(const RehearsalSettings& settings, int sheets) {
  const testing_support::ScratchFolder folder;
  TargetRequest target;
  target.paper = parse_paper("a4");
  target.sheets = sheets;
  target.run = "T3ST";
  target.pdf = folder.path() / "target.pdf";
  target.geometry = folder.path() / "geometry.json";
  run_target(target);
  const auto done =
      rehearse::simulate(settings, target.pdf, *target.geometry, folder.path() / "print");
  Printed printed;
  for (const auto& picture : done.pictures) {
    printed.scans[{picture.sheet, picture.side}] = load_page(picture.file, 1);
  }
  for (const auto& sheet : done.sheets) printed.truth[sheet.sheet] = sheet.registration();
  return printed;
}

/// Two ordinary sheets, printed and scanned once for all tests.
const Printed& ordinary() {
  static const Printed printed = print_and_scan(settings_with(31), 2);
  return printed;
}

/// Two that nobody punched: there are the edges of the paper only.
const Printed& without_holes() {
  static const Printed printed = [] {
    RehearsalSettings settings = settings_with(36);
    settings.holes.made = rehearse::HolesMade::none;
    return print_and_scan(settings, 2);
  }();
  return printed;
}

cv::Mat mat_of(Scan& scan) {
  return {scan.grey.height, scan.grey.width, CV_8UC1, scan.grey.pixels.data()};
}

Scan with_picture(Scan scan, const cv::Mat& picture) {
  const cv::Mat whole = picture.clone();
  scan.grey.width = whole.cols;
  scan.grey.height = whole.rows;
  scan.grey.pixels.assign(whole.data, whole.data + whole.total());
  return scan;
}

using Spoil = std::function<cv::Mat(const cv::Mat&)>;
Scan spoilt(Scan scan, const Spoil& spoil) { return with_picture(scan, spoil(mat_of(scan))); }
Spoil untouched() {
  return [](const cv::Mat& m) { return m; };
}

Result<SheetReading> read_sheet(const Printed& printed, int sheet, const Spoil& spoil,
                                DatumChoice datum = DatumChoice::automatic) {
  SheetScans scans;
  for (const Side side : {Side::recto, Side::verso}) {
    auto reading = read_side(spoilt(printed.scans.at({sheet, side}), spoil));
    if (!reading) return reading.refusal();
    (side == Side::recto ? scans.recto : scans.verso).push_back(std::move(reading).value());
  }
  return register_sheet(scans, datum);
}

SideReading side_of(const Printed& printed, int sheet, Side side) {
  auto reading = read_side(printed.scans.at({sheet, side}));
  EXPECT_TRUE(reading) << reading.refusal();
  return std::move(reading).value();
}

void expect_true(const Result<SheetReading>& sheet, const Registration& truth) {
  ASSERT_TRUE(sheet) << sheet.refusal();
  const Eigen::Vector3d error = (sheet.value().registration.vec() - truth.vec()).head<3>();
  for (int i = 0; i < 3; ++i) {
    const double limit =
        std::max(kSigmas * std::sqrt(sheet.value().covariance(i, i)), i == 2 ? 0.2 : kFloorMm);
    EXPECT_LE(std::abs(error[i]), limit) << "component " << i;
  }
}

std::string code_of(const Result<SideReading>& reading) {
  return reading ? "read" : reading.refusal().code;
}
std::string code_of(const Result<SheetReading>& reading) {
  return reading ? "read" : reading.refusal().code;
}

// What people and programs do to pictures. Sizes: common practice, from memory.

Spoil sharpened(double amount, double radius_px) {
  return [=](const cv::Mat& m) {
    cv::Mat soft, sharp;
    cv::GaussianBlur(m, soft, {0, 0}, radius_px);
    cv::addWeighted(m, 1 + amount, soft, -amount, 0, sharp);
    return sharp;
  };
}
Spoil as_jpeg(int quality) {
  return [=](const cv::Mat& m) {
    std::vector<std::uint8_t> bytes;
    cv::imencode(".jpg", m, bytes, {cv::IMWRITE_JPEG_QUALITY, quality});
    return cv::imdecode(bytes, cv::IMREAD_GRAYSCALE);
  };
}
Spoil stretched_levels(double black, double white) {
  return [=](const cv::Mat& m) {
    cv::Mat out;
    m.convertTo(out, CV_8U, 255 / (white - black), -black * 255 / (white - black));
    return out;
  };
}
Spoil with_gamma(double exponent) {
  return [=](const cv::Mat& m) {
    cv::Mat table(1, 256, CV_8U);
    for (int i = 0; i < 256; ++i) {
      table.at<std::uint8_t>(i) =
          static_cast<std::uint8_t>(std::lround(255 * std::pow(i / 255.0, exponent)));
    }
    cv::Mat out;
    cv::LUT(m, table, out);
    return out;
  };
}
/// Darker to the corners by `share`, and to the right by as much.
Spoil unevenly_lit(double share) {
  return [=](const cv::Mat& m) {
    cv::Mat out = m.clone();
    for (int y = 0; y < m.rows; ++y) {
      for (int x = 0; x < m.cols; ++x) {
        const double u = 2.0 * x / m.cols - 1, v = 2.0 * y / m.rows - 1;
        const double light = 1 - share * (u * u + v * v) / 2 - share * (u + 1) / 4;
        out.at<std::uint8_t>(y, x) = static_cast<std::uint8_t>(m.at<std::uint8_t>(y, x) * light);
      }
    }
    return out;
  };
}
/// Coffee rings with a dark rim.
Spoil stained(int stains, double dark) {
  return [=](const cv::Mat& m) {
    cv::RNG random(7);
    cv::Mat light(m.size(), CV_32F, cv::Scalar(1.0));
    for (int i = 0; i < stains; ++i) {
      cv::Mat stain = cv::Mat::zeros(m.size(), CV_32F);
      const cv::Point at(random.uniform(0, m.cols), random.uniform(0, m.rows));
      const int radius = random.uniform(60, 250);
      cv::circle(stain, at, radius, cv::Scalar(dark), cv::FILLED);
      cv::circle(stain, at, radius, cv::Scalar(1.6 * dark), 7);
      cv::GaussianBlur(stain, stain, {0, 0}, 3);
      light = light.mul(1 - stain);
    }
    cv::Mat out;
    m.convertTo(out, CV_32F);
    out = out.mul(light);
    out.convertTo(out, CV_8U);
    return out;
  };
}
/// A share of the page hidden under slips of plain paper.
Spoil covered(double share) {
  return [=](const cv::Mat& m) {
    cv::RNG random(3);
    cv::Mat out = m.clone();
    const int side = static_cast<int>(8 * kPxPerMm);
    const int slips = static_cast<int>(share * static_cast<double>(m.total()) / (side * side));
    for (int i = 0; i < slips; ++i) {
      cv::Mat slip = out(
          cv::Rect(random.uniform(0, m.cols - side), random.uniform(0, m.rows - side), side, side));
      double least = 0, most = 0;
      cv::minMaxLoc(slip, &least, &most);
      if (most > 120) slip.setTo(most * 0.97, slip < 0.9 * most);
    }
    return out;
  };
}
Spoil torn_at_a_corner(double mm) {
  return [=](const cv::Mat& m) {
    cv::Mat out = m.clone();
    const int leg = static_cast<int>((mm + 8) * kPxPerMm);
    cv::fillPoly(out, std::vector<std::vector<cv::Point>>{{{0, 0}, {leg, 0}, {0, leg}}},
                 cv::Scalar(40));
    return out;
  };
}
Spoil creased(int folds) {
  return [=](const cv::Mat& m) {
    cv::RNG random(11);
    cv::Mat fold = cv::Mat::zeros(m.size(), CV_32F);
    for (int i = 0; i < folds; ++i) {
      cv::line(fold, {random.uniform(0, m.cols), 0}, {random.uniform(0, m.cols), m.rows},
               cv::Scalar(0.6), 3);
    }
    cv::GaussianBlur(fold, fold, {0, 0}, 1.5);
    cv::Mat out;
    m.convertTo(out, CV_32F);
    out = out.mul(1 - fold);
    out.convertTo(out, CV_8U);
    return out;
  };
}
/// On a bed much larger than the sheet, whose frame shows as black and white borders.
Spoil on_a_large_bed() {
  return [](const cv::Mat& m) {
    cv::Mat out;
    cv::copyMakeBorder(m, out, 500, 300, 350, 700, cv::BORDER_CONSTANT, cv::Scalar(42));
    for (int i = 0; i < 3; ++i) {
      const int inset = 30 * (i + 1);
      cv::rectangle(out, {inset, inset}, {out.cols - inset, out.rows - inset},
                    cv::Scalar(i % 2 == 0 ? 10 : 230), 10);
    }
    return out;
  };
}
Spoil resampled(double across, double down) {
  return [=](const cv::Mat& m) {
    cv::Mat out;
    cv::resize(m, out, {}, across, down, across < 1 || down < 1 ? cv::INTER_AREA : cv::INTER_CUBIC);
    return out;
  };
}

struct SpoilCase {
  const char* name;
  Spoil spoil;
};
void PrintTo(const SpoilCase& c, std::ostream* out) { *out << c.name; }

class SpoiltScan : public ::testing::TestWithParam<SpoilCase> {};

TEST_P(SpoiltScan, IsReadWithinItsUncertainty) {
  for (const int sheet : {1, 2}) {
    SCOPED_TRACE("sheet " + std::to_string(sheet));
    expect_true(read_sheet(ordinary(), sheet, GetParam().spoil), ordinary().truth.at(sheet));
  }
}

TEST_P(SpoiltScan, WithoutHolesIsReadByItsEdgesWithinItsUncertainty) {
  for (const int sheet : {1, 2}) {
    SCOPED_TRACE("sheet " + std::to_string(sheet));
    expect_true(read_sheet(without_holes(), sheet, GetParam().spoil),
                without_holes().truth.at(sheet));
  }
}

INSTANTIATE_TEST_SUITE_P(Ways, SpoiltScan,
                         ::testing::Values(SpoilCase{"untouched", untouched()},
                                           SpoilCase{"sharpened", sharpened(2, 1.5)},
                                           SpoilCase{"jpeg_quality_40", as_jpeg(40)},
                                           SpoilCase{"automatic_levels", stretched_levels(50, 200)},
                                           SpoilCase{"light_gamma", with_gamma(0.5)},
                                           SpoilCase{"dark_gamma", with_gamma(2.0)},
                                           SpoilCase{"unevenly_lit", unevenly_lit(0.4)},
                                           SpoilCase{"coffee_stains", stained(5, 0.3)},
                                           SpoilCase{"a_tenth_covered", covered(0.10)},
                                           SpoilCase{"torn_corner", torn_at_a_corner(25)},
                                           SpoilCase{"creased", creased(3)},
                                           SpoilCase{"on_a_large_bed", on_a_large_bed()},
                                           SpoilCase{"finer_across_than_down", resampled(2, 1)},
                                           SpoilCase{"finer_down_than_across", resampled(1, 2)},
                                           SpoilCase{"at_150_dpi", resampled(0.75, 0.75)}),
                         [](const auto& c) { return std::string(c.param.name); });

/// Paper that buckles, or ink that was dragged while it was wet: what is printed within `reach_mm`
/// lies up to `most_mm` off, here to one side and there to the other.
Spoil buckled(const Point<ScanPx>& middle, double reach_mm, double most_mm) {
  return [=](const cv::Mat& m) {
    cv::Mat x(m.size(), CV_32F), y(m.size(), CV_32F), out;
    for (int row = 0; row < m.rows; ++row) {
      for (int column = 0; column < m.cols; ++column) {
        const double u = (column + 0.5 - middle.x) / kPxPerMm;
        const double v = (row + 0.5 - middle.y) / kPxPerMm;
        const double r = std::hypot(u, v) / reach_mm;
        const double off_px = r < 1 ? kPxPerMm * most_mm * std::pow(std::sin(M_PI * r), 2) : 0.0;
        x.at<float>(row, column) = static_cast<float>(column + off_px * std::sin(v * 0.3));
        y.at<float>(row, column) = static_cast<float>(row + off_px * std::sin(u * 0.3 + 1));
      }
    }
    cv::remap(m, out, x, y, cv::INTER_LINEAR);
    return out;
  };
}

/// As printed; then the ink within `reach_mm` was wiped across by `by_mm`.
Spoil wiped(const Point<ScanPx>& middle, double reach_mm, double by_mm) {
  return [=](const cv::Mat& m) {
    cv::Mat out = m.clone();
    const int most = static_cast<int>(by_mm * kPxPerMm);
    for (int row = 0; row < m.rows; ++row) {
      for (int column = most; column < m.cols; ++column) {
        const double r = std::hypot(column - middle.x, row - middle.y) / kPxPerMm;
        if (r > reach_mm || r < 4.5) continue;
        for (int back = 1; back <= most; ++back) {
          const double fading = 0.9 * (1 - static_cast<double>(back) / (most + 1));
          const double paper = 215;
          const double trail = paper - fading * (paper - m.at<std::uint8_t>(row, column - back));
          out.at<std::uint8_t>(row, column) =
              std::min(out.at<std::uint8_t>(row, column), cv::saturate_cast<std::uint8_t>(trail));
        }
      }
    }
    return out;
  };
}

const SideFeature& hole_of(const SideReading& side, const char* id) {
  const auto hole = std::find_if(side.places.features.begin(), side.places.features.end(),
                                 [&](const SideFeature& f) { return f.id == id; });
  if (hole == side.places.features.end()) throw std::runtime_error(std::string("no hole ") + id);
  return *hole;
}

// Rings that disagree with all others are left out, and so do not show in what the others leave.
TEST(SmearedMarks, AroundAHoleAreNamedAndTheHoleIsNotBelieved) {
  const SideReading clean = side_of(ordinary(), 1, Side::recto);
  EXPECT_THAT(clean.warnings, IsEmpty());
  const auto at = hole_of(clean, "H1").seen;
  for (const double most_mm : {0.1, 0.25, 0.5}) {
    SCOPED_TRACE(most_mm);
    const auto smeared =
        read_side(spoilt(ordinary().scans.at({1, Side::recto}), buckled(at, 20, most_mm)));
    ASSERT_TRUE(smeared) << smeared.refusal();
    ASSERT_THAT(smeared.value().warnings, ::testing::SizeIs(1));
    EXPECT_EQ(smeared.value().warnings.front().code, "marks_smeared");
    EXPECT_EQ(testing_support::fact(smeared.value().warnings.front(), "hole"), "H1");
    EXPECT_THROW(hole_of(smeared.value(), "H1"), std::runtime_error);
    const SheetScans scans{{smeared.value()}, {side_of(ordinary(), 1, Side::verso)}};
    expect_true(register_sheet(scans), ordinary().truth.at(1));
  }
}

TEST(SmearedMarks, WipedWhileWetAreNamedOrHarmless) {
  const auto at = hole_of(side_of(ordinary(), 1, Side::recto), "H1").seen;
  for (const double by_mm : {0.3, 0.6, 1.5}) {
    SCOPED_TRACE(by_mm);
    const auto smeared =
        read_side(spoilt(ordinary().scans.at({1, Side::recto}), wiped(at, 20, by_mm)));
    ASSERT_TRUE(smeared) << smeared.refusal();
    const SheetScans scans{{smeared.value()}, {side_of(ordinary(), 1, Side::verso)}};
    expect_true(register_sheet(scans), ordinary().truth.at(1));
  }
}

/// A strip of plain paper across the page, of this share of its height.
Spoil strip_across(double share) {
  return [=](const cv::Mat& m) {
    cv::Mat out = m.clone();
    const int half = static_cast<int>(share * m.rows / 2);
    out.rowRange(m.rows * 2 / 5 - half, m.rows * 2 / 5 + half).setTo(235);
    return out;
  };
}

TEST(CoveredMarks, AreCountedOnceTheyAreMoreThanATenth) {
  const Scan& front = ordinary().scans.at({1, Side::recto});
  const auto sliver = read_side(spoilt(front, strip_across(0.005)));
  ASSERT_TRUE(sliver) << sliver.refusal();
  EXPECT_THAT(sliver.value().warnings, IsEmpty());
  const auto strip = read_side(spoilt(front, strip_across(0.15)));
  ASSERT_TRUE(strip) << strip.refusal();
  ASSERT_THAT(strip.value().warnings, ::testing::SizeIs(1));
  EXPECT_EQ(strip.value().warnings.front().code, "marks_missing");
}

TEST(Askew, ByUpToTenDegreesIsReadWithinItsUncertainty) {
  RehearsalSettings settings = settings_with(35);
  settings.scanner.skew_deg = 10;
  const Printed printed = print_and_scan(settings, 2);
  for (const int sheet : {1, 2}) {
    SCOPED_TRACE("sheet " + std::to_string(sheet));
    expect_true(read_sheet(printed, sheet, untouched()), printed.truth.at(sheet));
  }
}

TEST(WrongPicture, MirroredIsNamed) {
  const auto mirrored = [](const cv::Mat& m) {
    cv::Mat out;
    cv::flip(m, out, 1);
    return out;
  };
  const auto upside_down = [](const cv::Mat& m) {
    cv::Mat out;
    cv::flip(m, out, 0);
    return out;
  };
  const Scan& scan = ordinary().scans.at({1, Side::recto});
  EXPECT_EQ(code_of(read_side(spoilt(scan, mirrored))), "mirrored");
  EXPECT_EQ(code_of(read_side(spoilt(scan, upside_down))), "mirrored");
  EXPECT_EQ(code_of(read_side(scan)), "read");
}

TEST(WrongPicture, ANegativeIsNamed) {
  const auto inverted = [](const cv::Mat& m) { return cv::Mat(255 - m); };
  EXPECT_EQ(code_of(read_side(spoilt(ordinary().scans.at({1, Side::recto}), inverted))),
            "negative");
}

/// Paper on black card, with four punched holes and some dust.
cv::Mat blank_sheet() {
  cv::Mat bed(2400, 1740, CV_8UC1, cv::Scalar(35));
  cv::rectangle(bed, {40, 30}, {1693, 2368}, cv::Scalar(225), cv::FILLED);
  for (const cv::Point hole : {cv::Point(552, 124), {1182, 126}, {551, 2274}, {1181, 2275}}) {
    cv::circle(bed, hole, 24, cv::Scalar(35), cv::FILLED, cv::LINE_AA);
  }
  cv::RNG random(5);
  for (int i = 0; i < 15; ++i) {
    cv::circle(bed, {random.uniform(100, 1600), random.uniform(200, 2200)}, random.uniform(1, 5),
               cv::Scalar(90), cv::FILLED);
  }
  cv::Mat noise(bed.size(), CV_8UC1);
  random.fill(noise, cv::RNG::NORMAL, 4, 2);
  return bed + noise;
}

TEST(WrongPicture, BlankIsNamed) {
  EXPECT_EQ(code_of(read_side(with_picture({}, blank_sheet()))), "blank_page");
  EXPECT_EQ(code_of(read_side(with_picture({}, cv::Mat(2400, 1740, CV_8UC1, cv::Scalar(240))))),
            "blank_page");
}

TEST(WrongPicture, DarkIsNamed) {
  EXPECT_EQ(code_of(read_side(with_picture({}, cv::Mat(2400, 1740, CV_8UC1, cv::Scalar(12))))),
            "dark_picture");
}

TEST(WrongPicture, AnotherPrintIsNoTarget) {
  cv::Mat letter = blank_sheet();
  for (int line = 0; line < 40; ++line) {
    cv::putText(letter, "The owls were seen again by the pond.", {180, 250 + 48 * line},
                cv::FONT_HERSHEY_SIMPLEX, 1.0, cv::Scalar(40), 2);
  }
  EXPECT_EQ(code_of(read_side(with_picture({}, letter))), "no_marks");
}

TEST(PageOrder, OnlyOneSideIsNamed) {
  SheetScans scans;
  scans.recto = {side_of(ordinary(), 1, Side::recto)};
  const auto sheet = register_sheet(scans);
  ASSERT_EQ(code_of(sheet), "other_side_missing");
  EXPECT_EQ(testing_support::fact(sheet.refusal(), "missing"), "back");
}

TEST(PageOrder, BacksOnTheWrongSheetsAreNamed) {
  std::vector<RefusedSheet> refused;
  for (const auto& [front, back] : {std::pair{1, 2}, std::pair{2, 1}}) {
    SheetScans scans{{side_of(ordinary(), front, Side::recto)},
                     {side_of(ordinary(), back, Side::verso)}};
    // What is printed on the paper says that front and back belong together; the holes know better.
    scans.verso.front().identity.sheet = front;
    const auto sheet = register_sheet(scans);
    ASSERT_THAT(code_of(sheet), ::testing::AnyOf("not_same_sheet", "holes_disagree"));
    refused.push_back({scans, sheet.refusal()});
  }
  name_wrong_backs(refused);
  EXPECT_EQ(refused[0].refusal.code, "wrong_back");
  EXPECT_EQ(testing_support::fact<std::int64_t>(refused[0].refusal, "back_of_sheet"), 2);
  EXPECT_EQ(refused[1].refusal.code, "wrong_back");
}

TEST(PageOrder, OnePageOnBothSidesIsNamed) {
  // The back of a sheet, as it would look with the front page printed on it: the same holes.
  SheetScans scans;
  scans.recto = {side_of(ordinary(), 1, Side::recto), side_of(ordinary(), 1, Side::verso)};
  scans.recto[1].identity.side = Side::recto;
  EXPECT_EQ(code_of(register_sheet(scans)), "same_side_twice");
  // A repeat of the same side is none of that.
  scans.recto = {side_of(ordinary(), 1, Side::recto), side_of(ordinary(), 1, Side::recto)};
  scans.verso = {side_of(ordinary(), 1, Side::verso)};
  EXPECT_EQ(code_of(register_sheet(scans)), "read");
}

TEST(PageOrder, TurnedAboutTheOtherEdgeIsNamed) {
  RehearsalSettings settings = settings_with(32);
  settings.passes.turned_the_wrong_way = true;
  const Printed printed = print_and_scan(settings, 1);
  const auto sheet = read_sheet(printed, 1, untouched());
  EXPECT_EQ(code_of(sheet), "wrong_turn");
  EXPECT_EQ(code_of(read_sheet(printed, 1, untouched(), DatumChoice::holes)), "wrong_turn");
}

class PrintedAtAnotherSize : public ::testing::TestWithParam<double> {};

TEST_P(PrintedAtAnotherSize, IsRefusedWithOrWithoutAResolutionInTheFile) {
  RehearsalSettings settings = settings_with(33);
  settings.passes.printed_scale_x_ppm = settings.passes.printed_scale_y_ppm =
      (GetParam() - 1) * 1e6;
  Printed printed = print_and_scan(settings, 1);
  const char* const cause = GetParam() < 1 ? "shrunk" : "enlarged";
  for (const std::optional<double> dpi : {std::optional(kDpi), std::optional<double>()}) {
    for (auto& [key, scan] : printed.scans) scan.dpi_x = scan.dpi_y = dpi;
    const auto sheet = read_sheet(printed, 1, untouched());
    ASSERT_EQ(code_of(sheet), "printed_scale") << (dpi ? "with" : "without") << " resolution";
    EXPECT_EQ(testing_support::fact(sheet.refusal(), "cause"), cause);
  }
}

INSTANTIATE_TEST_SUITE_P(Sizes, PrintedAtAnotherSize, ::testing::Values(0.965, 1.025),
                         [](const auto& size) { return size.param < 1 ? "shrunk" : "enlarged"; });

TEST(PrintedScale, OfAnOrdinaryPrintIsRightWhateverTheFileSays) {
  const rehearse::PassSettings passes;
  for (const std::optional<double> dpi :
       {std::optional<double>(), std::optional(kDpi), std::optional(72.0), std::optional(400.0),
        std::optional(190.0)}) {
    Printed printed = ordinary();
    for (auto& [key, scan] : printed.scans) scan.dpi_x = scan.dpi_y = dpi;
    const auto sheet = read_sheet(printed, 1, untouched());
    ASSERT_TRUE(sheet) << sheet.refusal();
    EXPECT_THAT(sheet.value().warnings, IsEmpty());
    for (const PrintedScale& scale : {sheet.value().recto, sheet.value().verso}) {
      ASSERT_TRUE(scale.x && scale.y);
      // Paper cut to 0.1 mm, a scanner that is off by 0.15 %, a printer by 0.06 %.
      EXPECT_NEAR(*scale.x, 1 + passes.printed_scale_x_ppm * 1e-6, 0.003);
      EXPECT_NEAR(*scale.y, 1 + passes.printed_scale_y_ppm * 1e-6, 0.003);
    }
  }
}

TEST(Background, WhiteLidIsNeverReadSilently) {
  RehearsalSettings settings = settings_with(34);
  settings.scanner.background = rehearse::Background::white_lid;
  const Printed printed = print_and_scan(settings, 1);
  for (const DatumChoice datum : {DatumChoice::automatic, DatumChoice::holes, DatumChoice::edges}) {
    const auto sheet = read_sheet(printed, 1, untouched(), datum);
    ASSERT_FALSE(sheet);
    EXPECT_THAT(words::say(sheet.refusal()), HasSubstr("lack card")) << sheet.refusal().code;
  }
}

}  // namespace
}  // namespace versolay
