// What sheets that are fed several times a side buy: the oversize that is advised from them, and
// whether its promise is kept.
//
//   profile_passes_study [--replicates 2000] [--only SHAPE] [--share S]
//
// Printers are simulated as the model has it (front, back and sheet effect are normal, each with
// its share of the variance) and against it (a drift from pass to pass). "over the oracle": mean of
// the advised oversize, x and y together, over that of somebody who knows the printer. "achieved":
// share of the repetitions in which at least 95 of 100 cards of further sheets, each fed once a
// side, were good; 0.90 is promised.
#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <cstring>
#include <string>
#include <vector>

#include "bench/card_errors.h"
#include "core/numbers.h"
#include "profile/estimate.h"
#include "profile/pass_components.h"
#include "profile/recommendation.h"
#include "stats/random.h"

namespace versolay {
namespace {

constexpr int kJobSheets = 4000;
constexpr double kReadingMm = 0.005;  // of a pass against the first one; rotation 0.03 mrad
constexpr double kReadingMrad = 0.03;

struct Shape {
  std::string name;
  Eigen::Matrix3d root;  // of the covariance of a registration: dx, dy mm, rotation mrad
};

std::vector<Shape> shapes() {
  const auto root = [](double sd_x, double sd_y, double correlation) {
    Eigen::Matrix3d c = Eigen::Matrix3d::Zero();
    c.diagonal() << sd_x * sd_x, sd_y * sd_y, 0.7 * 0.7;
    c(0, 2) = c(2, 0) = correlation * sd_x * 0.7;
    return Eigen::Matrix3d(c.llt().matrixL());
  };
  return {{"round", root(0.2, 0.2, 0.0)},
          {"2:1", root(0.2, 0.1, 0.0)},
          {"dx and rotation correlated by 0.7", root(0.2, 0.2, 0.7)}};
}

struct Printer {
  Shape shape;
  double sheet_share = 0.0;
  double drift_mm = 0.0;  // of the back, from pass to pass
};

Eigen::Vector3d draw(const Printer& printer, double share, stats::Random& random) {
  const Eigen::Vector3d z(random.normal(), random.normal(), random.normal());
  return std::sqrt(share) * (printer.shape.root * z);
}

Registration rigid(const Eigen::Vector3d& v) { return {v[0], v[1], v[2]}; }

struct Plan {
  int sheets;
  int passes;
};

Readings readings_of(const Printer& printer, const Plan& plan, stats::Random& random) {
  Readings readings;
  readings.paper = parse_paper("a4");
  readings.created = "2025-03-01T10:00:00Z";
  const TurnAxis axis = turn_axis(readings.turn, readings.paper);
  const double pass_share = (1 - printer.sheet_share) / 2;
  const auto read = [&](const Eigen::Vector3d& lay) {
    return Eigen::Vector3d(lay[0] + kReadingMm * random.normal(),
                           lay[1] + kReadingMm * random.normal(),
                           lay[2] + kReadingMrad * random.normal());
  };
  for (int s = 0; s < plan.sheets; ++s) {
    SheetReading sheet;
    sheet.sheet = s + 1;
    sheet.run = "AAAA";
    sheet.model = RegistrationModel::rigid;
    const Eigen::Vector3d of_sheet = draw(printer, printer.sheet_share, random);
    const Eigen::Vector3d front = draw(printer, pass_share, random);
    const Eigen::Vector3d back = draw(printer, pass_share, random);
    sheet.registration = rigid(read(of_sheet + back - front));
    for (int pass = 2; pass <= plan.passes; ++pass) {
      const Eigen::Vector3d f = read(draw(printer, pass_share, random) - front);
      Eigen::Vector3d b = read(draw(printer, pass_share, random) - back);
      b[0] += printer.drift_mm * (pass - 1);
      // Fronts are told in their own view.
      sheet.recto_passes.push_back(
          {pass, Registration::from(seen_from_back(rigid(f), axis)), RegistrationMatrix::Zero()});
      sheet.verso_passes.push_back({pass, rigid(b), RegistrationMatrix::Zero()});
    }
    readings.sheets.push_back(sheet);
  }
  return readings;
}

/// Of the cards of further sheets, each fed once a side.
std::vector<Eigen::Vector2d> card_errors(const Printer& printer, const Eigen::Vector3d& off,
                                         stats::Random& random) {
  const CardGrid grid = nine_cards();
  std::vector<Eigen::Vector2d> errors;
  for (int i = 0; i < kJobSheets; ++i) {
    add_card_errors(draw(printer, 1.0, random) - off, grid, errors);
  }
  return errors;
}

/// Sum of the oversizes in x and y, in the ratio of `like`, of somebody who knows the printer.
double oracle_mm(const std::vector<Eigen::Vector2d>& errors, double ratio) {
  std::vector<double> needed;
  for (const Eigen::Vector2d& e : errors) needed.push_back(std::max(e.x(), e.y() / ratio));
  const auto at =
      needed.begin() + static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(needed.size()));
  std::nth_element(needed.begin(), at, needed.end());
  return *at * (1 + ratio);
}

void study(const Printer& printer, const Plan& plan, int replicates) {
  AdviceRequest request;
  request.grid = nine_cards();
  const Effort effort{.populations = 199, .sheets = 400, .threads = 1};
  int kept = 0;
  int odd = 0;
  int refused = 0;
  double width = 0.0;
  double even_width = 0.0;
  for (int r = 0; r < replicates; ++r) {
    stats::Random random(static_cast<std::uint64_t>(r),
                         static_cast<std::uint64_t>(100 * plan.sheets + plan.passes));
    const auto profile =
        estimate_profile({{"a", readings_of(printer, plan, random)}}, {"p", "", "", ""});
    request.seed = static_cast<std::uint64_t>(r);
    const auto told = advise(profile.value(), request, effort);
    if (!told) {
      ++refused;
      continue;
    }
    const Advice& advice = told.value();
    const Registration correction = registration_from(
        Registration{advice.shift.dx_mm, advice.shift.dy_mm, advice.shift.rotation_mrad}
            .page_from_wanted());
    const auto errors = card_errors(printer, correction.vec().head<3>(), random);
    const Oversize& o = advice.oversize;
    kept += good_share(errors, o.x_mm, o.y_mm) >= 0.95 ? 1 : 0;
    odd += advice.scatter_is_odd ? 1 : 0;
    const double over =
        (o.x_mm + o.y_mm) /
        oracle_mm(card_errors(printer, Eigen::Vector3d::Zero(), random), o.y_mm / o.x_mm);
    width += over;
    even_width += advice.scatter_is_odd ? 0.0 : over;
  }
  const int advised = replicates - refused;
  const auto mean = [](double sum, int of) { return of > 0 ? format_fixed(sum / of, 2) : "-"; };
  fmt::print("| {} | {} | {} | {} x {} | {} | {} | {} | {} |\n", printer.shape.name,
             format_number(printer.sheet_share, 1), format_number(printer.drift_mm, 2), plan.sheets,
             plan.passes, mean(width, advised), mean(even_width, advised - odd),
             format_fixed(static_cast<double>(kept) / std::max(advised, 1), 3),
             format_fixed(static_cast<double>(odd) / std::max(advised, 1), 3));
  std::fflush(stdout);
}

/// @param share  of the sheet, this one alone; below 0: all.
void run(int replicates, const std::string& only, double only_share) {
  fmt::print(
      "| shape | share of the sheet | drift, mm a pass | sheets x passes | over the oracle | "
      "where nothing odd was seen | achieved | odd scatter seen |\n");
  fmt::print("|---|---|---|---|---|---|---|---|\n");
  for (const Shape& shape : shapes()) {
    if (!only.empty() && shape.name != only) continue;
    if (only_share < 0) {
      for (const int n : {5, 10, 20}) study({shape}, {n, 1}, replicates);
    }
    for (const Plan& plan : {Plan{3, 5}, Plan{5, 4}}) {
      for (const double share : {0.0, 0.1, 0.3, 0.5}) {
        if (only_share < 0 || share == only_share) study({shape, share}, plan, replicates);
      }
      if (only_share < 0) study({shape, 0.1, 0.02}, plan, replicates);
    }
  }
}

}  // namespace
}  // namespace versolay

int main(int argc, char** argv) {
  int replicates = 2000;
  std::string only;
  double share = -1.0;
  for (int i = 1; i + 1 < argc; i += 2) {
    if (std::strcmp(argv[i], "--replicates") == 0) replicates = std::atoi(argv[i + 1]);
    if (std::strcmp(argv[i], "--only") == 0) only = argv[i + 1];
    if (std::strcmp(argv[i], "--share") == 0) share = std::atof(argv[i + 1]);
  }
  versolay::run(replicates, only, share);
}
