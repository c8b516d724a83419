// Backs fitted to scanned fronts: how much less they scatter, and whether the promise holds.
//
//   profile_fitted_study [--replicates 400]
//
// A printer whose front pass has a share of the variance, and a scanner that reads the lay of a
// front to 0.03 mm and 0.1 mrad. From test sheets a profile is made; a job of 500 sheets is printed
// with one correction for all, and with backs that are fitted to their fronts. "spread": sd of what
// is left in dx, fitted over ordinary. "achieved": share of the repetitions in which at least 95 of
// 100 cards were good at the oversize that was advised for that way; 0.90 is promised. "pays":
// share of the repetitions in which the advice said that fitting pays.
#include <fmt/format.h>

#include <cmath>
#include <cstring>

#include "bench/card_errors.h"
#include "core/numbers.h"
#include "profile/estimate.h"
#include "profile/fitted.h"
#include "profile/pass_components.h"
#include "profile/printing_ways.h"
#include "stats/random.h"

namespace versolay {
namespace {

constexpr double kSdMm = 0.25;  // of a registration
constexpr double kSdMrad = 0.7;
constexpr double kReadMm = 0.03;
constexpr double kReadMrad = 0.1;
constexpr int kJobSheets = 500;

Registration drawn(double mm, double mrad, stats::Random& random) {
  return {mm * random.normal(), mm * random.normal(), mrad * random.normal()};
}

struct Sheet {
  Registration e;
  PrintLay front;  // as it is read
};

Sheet print(double front_share, TurnAxis axis, stats::Random& random) {
  const double f = std::sqrt(front_share);
  const double b = std::sqrt(1 - front_share);
  const Registration front = drawn(f * kSdMm, f * kSdMrad, random);
  const Registration back = drawn(b * kSdMm, b * kSdMrad, random);
  const Registration error = drawn(kReadMm, kReadMrad, random);
  Sheet sheet;
  sheet.e = Registration::from(back.vec() - seen_from_back(front, axis));
  sheet.front = {front.dx_mm + error.dx_mm, front.dy_mm + error.dy_mm,
                 front.rotation_mrad + error.rotation_mrad, 210, 297};
  return sheet;
}

Readings readings_of(int sheets, double front_share, stats::Random& random) {
  Readings readings;
  readings.paper = parse_paper("a4");
  readings.created = "2025-03-01T10:00:00Z";
  for (int i = 1; i <= sheets; ++i) {
    const Sheet printed = print(front_share, turn_axis(readings.turn, readings.paper), random);
    SheetReading sheet;
    sheet.sheet = i;
    sheet.run = "AAAA";
    sheet.model = RegistrationModel::rigid;
    sheet.registration = printed.e;
    sheet.recto_lay = printed.front;
    readings.sheets.push_back(sheet);
  }
  return readings;
}

struct Sums {
  double spread = 0.0;
  double width = 0.0;
  int ordinary_kept = 0;
  int fitted_kept = 0;
  int pays = 0;
};

void once(double front_share, int sheets, std::uint64_t replicate, Sums& sums) {
  stats::Random random(replicate, static_cast<std::uint64_t>(sheets));
  const PrinterProfile profile =
      estimate_profile({{"a", readings_of(sheets, front_share, random)}}, {"p", "", "", ""})
          .value();
  AdviceRequest request;
  request.grid = nine_cards();
  request.seed = replicate;
  const Effort effort{.populations = 199, .sheets = 400, .threads = 1};
  Advice advice = advise(profile, request, effort).value();
  const auto ways = printing_ways(profile, advice, effort);
  const FittedBacks fitted = fitted_backs(profile).value();
  std::vector<Eigen::Vector2d> ordinary_errors;
  std::vector<Eigen::Vector2d> fitted_errors;
  double ordinary_squares = 0.0;
  double fitted_squares = 0.0;
  for (int i = 0; i < kJobSheets; ++i) {
    const Sheet sheet = print(front_share, turn_axis(profile.turn, profile.paper), random);
    const Eigen::Vector3d ordinary = (sheet.e.vec() - profile.mean.vec()).head<3>();
    const Eigen::Vector3d left = (sheet.e.vec() - fitted.expected(sheet.front).vec()).head<3>();
    ordinary_squares += ordinary[0] * ordinary[0];
    fitted_squares += left[0] * left[0];
    add_card_errors(ordinary, request.grid, ordinary_errors);
    add_card_errors(left, request.grid, fitted_errors);
  }
  sums.spread += std::sqrt(fitted_squares / ordinary_squares);
  const Oversize& o = advice.oversize;
  const Oversize& f = ways.back().oversize;
  sums.width += f.x_mm / o.x_mm;
  sums.pays += f.x_mm < 0.95 * o.x_mm ? 1 : 0;
  sums.ordinary_kept += good_share(ordinary_errors, o.x_mm, o.y_mm) >= 0.95 ? 1 : 0;
  sums.fitted_kept += good_share(fitted_errors, f.x_mm, f.y_mm) >= 0.95 ? 1 : 0;
}

void run(int replicates) {
  fmt::print(
      "| share of the front | test sheets | spread | oversize | achieved, ordinary | "
      "achieved, fitted | pays |\n|---|---|---|---|---|---|---|\n");
  for (const double share : {0.0, 0.3, 0.5, 0.7}) {
    for (const int sheets : {6, 10, 20}) {
      Sums sums;
      for (int r = 0; r < replicates; ++r) once(share, sheets, static_cast<std::uint64_t>(r), sums);
      const auto mean = [&](double sum, int decimals) {
        return format_fixed(sum / replicates, decimals);
      };
      fmt::print("| {} | {} | {} | {} | {} | {} | {} |\n", format_number(share, 1), sheets,
                 mean(sums.spread, 2), mean(sums.width, 2), mean(sums.ordinary_kept, 3),
                 mean(sums.fitted_kept, 3), mean(sums.pays, 2));
      std::fflush(stdout);
    }
  }
}

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  int replicates = 400;
  for (int i = 1; i + 1 < argc; i += 2) {
    if (std::strcmp(argv[i], "--replicates") == 0) replicates = std::atoi(argv[i + 1]);
  }
  versolay::run(replicates);
}
