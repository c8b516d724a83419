// Achieved confidence of the oversize bound: does "with 90 % confidence" hold, and at what price?
//
// For each line of the table a printer is invented, a small set of feeds drawn from it, read with
// some error, and the bound computed as `advise` does it; the same printer then shows what oversize
// would really have been needed. The share of repetitions whose bound was large enough is the
// achieved confidence.
//
//   stats_confidence_study [--replicates 2000] [--populations 99] [--threads 1] [--only TEXT]
//                          [--credit 0] [--sheets 4000] [--done TABLE.md]
//
// Columns: achieved confidence with its 95 % Clopper-Pearson interval; mean width over that of an
// oracle, which knows the printer and takes the plug-in quantile times the one factor that achieves
// exactly the promised confidence there. --credit 0: of the fiducial bound alone, without the
// degrees of freedom of the oversize itself. --done: lines that are in this file are not computed
// again.
//
// What makes it cheap, and why it may: a bound of B populations is their order statistic
// 0.9 (B + 1), which keeps the confidence of the method for any such B and is only noisier than
// with thousands; all populations of a repetition share the random numbers of their sheets, new
// ones in every repetition. The luck of these sheets is noise of the bound: it can only lower the
// achieved confidence, by some 0.01 in one dimension. --sheets: of a population.
#include <fmt/format.h>

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include "core/linear_algebra.h"
#include "core/numbers.h"
#include "core/parallel.h"
#include "stats/effective_dof.h"
#include "stats/order_statistic.h"
#include "stats/outliers.h"
#include "stats/oversize_bound.h"
#include "stats/promised_oversize.h"
#include "stats/proportion.h"
#include "stats/sample.h"
#include "stats/tolerance.h"

namespace versolay::stats {
namespace {

constexpr double kConfidence = 0.90;

struct Settings {
  int replicates = 2000;
  int populations = 99;
  int threads = 1;
  int credit = 1;  // 1: the bound that advise promises; 0: the fiducial bound alone
  int sheets = 0;  // of a population; 0: 400, for a coverage of 0.99 1,000
  std::string only;
  std::string done;
};

enum class Tails { normal, t5 };

struct Scenario {
  std::string name;
  int n = 8;  // feeds per session
  double coverage = 0.95;
  RegistrationVector sd = RegistrationVector::Zero();
  double correlation = 0.0;  // of all components with each other
  bool one_dimension = false;
  bool whole_sheets = false;
  bool per_axis = false;
  double left_off = 0.0;  // the back stays off its place by so many sd left-right (a coarse step)
  double reading_sd_share = 0.0;  // sd of the reading over that of the feed
  double cut_sd_mm = 0.0;
  double field_mm = 0.0;     // constant residual of the cells, as known
  double field_sd_mm = 0.0;  // error of that knowledge
  int sessions = 1;
  double session_share = 0.0;  // sd between sessions over that between feeds
  double misfeed_chance = 0.0;
  double misfeed_mm = 0.0;
  Tails tails = Tails::normal;
  bool heavy_figure = false;
  double needs_at_least = 0.88;  // what is promised; 0: shown to warn, nothing is promised
};

/// The corner cards and the middle one of 3 x 3: the others are never the worst, and cost time.
CardCells five_cells() {
  CardCells cells;
  cells.width_mm = 63;
  cells.height_mm = 88;
  cells.centres = {{-63, -88}, {63, -88}, {0, 0}, {-63, 88}, {63, 88}};
  return cells;
}

CardCells cells_of(const Scenario& s) {
  CardCells cells = five_cells();
  if (s.one_dimension) {
    cells.centres = {{0.0, 0.0}};
    cells.width_mm = cells.height_mm = 1e-3;
  }
  cells.cut_sd_mm = s.cut_sd_mm;
  return cells;
}

RegistrationMatrix covariance_of(const Scenario& s) {
  return (s.sd * s.sd.transpose())
      .cwiseProduct((1 - s.correlation) * RegistrationMatrix::Identity() +
                    RegistrationMatrix::Constant(s.correlation));
}

RegistrationVector normals(Random& random) {
  RegistrationVector z;
  for (double& value : z) value = random.normal();
  return z;
}

/// One feed about zero.
RegistrationVector feed(const Scenario& s, const Eigen::MatrixXd& root, Random& random) {
  RegistrationVector z = normals(random);
  if (s.tails == Tails::t5) z *= std::sqrt(3.0 / random.chi_squared(5));
  return root * z;
}

struct Data {
  std::vector<Sample> sessions;
  RegistrationVector session_offset = RegistrationVector::Zero();
};

/// Feeds that stick out by more than 1 mm and are no part of the rest, as `profile` leaves them
/// out.
Eigen::MatrixXd without_misfeeds(const Eigen::MatrixXd& rows) {
  std::vector<int> kept;
  std::vector<bool> out(static_cast<std::size_t>(rows.rows()), false);
  for (int c = 0; c < 2; ++c) {
    const Eigen::VectorXd column = rows.col(c);
    const std::vector<double> values(column.begin(), column.end());
    for (const Outlier& o :
         gross_outliers(values, {.alpha = 0.01 / 3, .gross = 1.0, .robust_sds = 5.0})) {
      out[static_cast<std::size_t>(o.index)] = true;
    }
  }
  for (int i = 0; i < rows.rows(); ++i) {
    if (!out[static_cast<std::size_t>(i)]) kept.push_back(i);
  }
  return rows(kept, Eigen::all);
}

Eigen::MatrixXd draw_rows(const Scenario& s, const Eigen::MatrixXd& root, Random& random) {
  Eigen::MatrixXd rows(s.n, 6);
  for (int i = 0; i < s.n; ++i) {
    RegistrationVector v = feed(s, root, random);
    if (s.reading_sd_share > 0) v += s.reading_sd_share * (root * normals(random));
    if (s.misfeed_chance > 0 && random.uniform() < s.misfeed_chance) {
      v[0] += random.uniform() < 0.5 ? s.misfeed_mm : -s.misfeed_mm;
    }
    rows.row(i) = v.transpose();
  }
  return s.misfeed_chance > 0 ? without_misfeeds(rows) : rows;
}

/// FNV-1a: lines of the table get unrelated random numbers, the same ones on every machine.
std::uint64_t stream_of(const Scenario& s) {
  std::uint64_t hash = 0xCBF29CE484222325u;
  for (const char c : fmt::format("{} {} {}", s.name, s.n, s.coverage)) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3u;
  }
  return hash;
}

struct Replicate {
  double bound = 0.0;
  double needed = 0.0;
  double plug_in = 0.0;
};

FutureCards observed(const Scenario& s, const Eigen::MatrixXd& root, Random& random) {
  std::vector<Sample> samples;
  for (int b = 0; b < s.sessions; ++b) {
    Eigen::MatrixXd rows = draw_rows(s, root, random);
    if (s.session_share > 0)
      rows.rowwise() += (s.session_share * (root * normals(random))).transpose();
    samples.push_back(sample_of(rows));
  }
  FutureCards future;
  future.feeds = pooled(samples);
  future.cards = cells_of(s);
  future.whole_sheets = s.whole_sheets;
  future.direction_is_estimated = s.per_axis;
  if (s.reading_sd_share > 0) {
    // The covariance of the reading is known from 20 degrees of freedom.
    const double known = random.chi_squared(20) / 20;
    future.measurement = known * s.reading_sd_share * s.reading_sd_share * covariance_of(s);
    future.measurement_dof = 20;
    // As `advise`: only where the printer's own part is resolved.
    for (int c = 0; c < 3; ++c) {
      const double spread = future.feeds.covariance()(c, c);
      if (spread < 1.5 * future.measurement(c, c)) future.measurement.setZero();
    }
  }
  if (s.sessions > 1) {
    Eigen::MatrixXd means(s.sessions, 6);
    for (int b = 0; b < s.sessions; ++b) {
      means.row(b) = samples[static_cast<std::size_t>(b)].mean.transpose();
    }
    future.sessions = SessionMeans{sample_of(means), static_cast<double>(s.n)};
    future.feeds.mean = future.sessions->means.mean;
  }
  future.correction = future.feeds.mean;
  future.correction[0] -= s.left_off * s.sd[0];
  return future;
}

/// The cards as they are; what is known of their residual field goes into `future`.
CardCells true_cards(const Scenario& s, FutureCards& future, Random& random) {
  CardCells truth = future.cards;
  truth.heavy_tails = s.tails == Tails::t5;
  if (s.field_mm > 0) {
    const auto cells = static_cast<Eigen::Index>(truth.centres.size());
    for (const Point<VersoMm>& centre : truth.centres) {
      truth.fixed_mm.push_back({0.0, centre.y > 0 ? s.field_mm : 0.0});
    }
    future.cards.fixed_mm = truth.fixed_mm;
    for (Eigen::Vector2d& v : future.cards.fixed_mm) {
      v += s.field_sd_mm * Eigen::Vector2d(random.normal(), random.normal());
    }
    future.cards.fixed_root_mm = s.field_sd_mm * Eigen::MatrixXd::Identity(cells, cells);
  }
  return truth;
}

double quantile_of(std::span<const float> values, double coverage, std::vector<float>& scratch) {
  return order_statistic(values, rank_of_share(coverage, values.size()), scratch);
}

OversizeBound bound_for(const FutureCards& future, const Eigen::Vector2d& direction,
                        const Scenario& s, const Settings& settings, std::uint64_t seed) {
  const Promise promise{s.coverage, kConfidence};
  if (s.left_off > 0 && settings.credit > 0) {
    const MonteCarlo mc{settings.populations, 1000, seed, 1, 0.0};
    return PromisedOversize(future, direction, s.coverage, mc).at(kConfidence);
  }
  PlugIn estimate;
  if (settings.credit > 0) {
    estimate = plug_in(future, direction, s.coverage, s.coverage > 0.97 ? 20000 : 8000, seed);
    if (factor_serves(future)) return {factor_bound(estimate, promise), 0.0, {}};
  }
  const int sheets = settings.sheets > 0 ? settings.sheets : s.coverage > 0.97 ? 1000 : 400;
  EdgeKernel kernel(future.cards, direction, value_of(future), sheets, seed);
  const FutureSampler sampler = sampler_of(future);
  Random random(seed, 1);
  std::vector<float> needed;
  std::vector<float> scratch;
  for (int b = 0; b < settings.populations; ++b) {
    Population population = sampler.draw(random);
    population.mean -= future.correction;
    needed.push_back(static_cast<float>(
        quantile_of(kernel.run_same_sheets(population, random), s.coverage, scratch)));
  }
  OversizeBound bound = bound_of(std::move(needed), kConfidence);
  if (settings.credit > 0) bound.factor *= fiducial_credit(future, estimate, promise);
  return bound;
}

Replicate replicate(const Scenario& s, const Settings& settings, int item) {
  constexpr int kSheets = 4000;
  const Eigen::MatrixXd root = symmetric_root(covariance_of(s));
  Random random(static_cast<std::uint64_t>(item), stream_of(s));
  FutureCards future = observed(s, root, random);
  const CardCells truth = true_cards(s, future, random);
  if (s.heavy_figure) future.set_heavy_tails();
  const auto seed = static_cast<std::uint64_t>(item) + 1;
  const Eigen::Vector2d direction =
      s.per_axis ? per_axis_direction(future, s.coverage, {.seed = seed}) : Eigen::Vector2d(1, 1);

  Replicate r;
  r.bound = bound_for(future, direction, s, settings, seed).factor;
  // What it would have taken: the printer as it is, after the correction that was made.
  EdgeKernel kernel(truth, direction, value_of(future), kSheets, seed + (std::uint64_t{1} << 32));
  std::vector<float> scratch;
  const double session_factor = s.sessions > 1 ? 1 + s.session_share * s.session_share : 1.0;
  r.needed = quantile_of(
      kernel.run_same_sheets({-future.correction, std::sqrt(session_factor) * root}, random),
      s.coverage, scratch);
  Eigen::MatrixXd estimate = future.feeds.covariance();
  if (future.sessions) estimate += future.sessions->means.covariance();
  r.plug_in = quantile_of(kernel.run_same_sheets({future.feeds.mean - future.correction,
                                                  root_of_difference(estimate, future.measurement)},
                                                 random),
                          s.coverage, scratch);
  return r;
}

std::string beginning_of(const Scenario& s) {
  return fmt::format("| {} | {} | {} | {} |", s.name,
                     s.sessions > 1 ? fmt::format("{} x {}", s.sessions, s.n) : std::to_string(s.n),
                     format_number(s.coverage, 2), s.whole_sheets ? "sheet" : "card");
}

void run(const Scenario& s, const Settings& settings) {
  if (!settings.only.empty() && s.name.find(settings.only) == std::string::npos) return;
  if (settings.done.find(beginning_of(s)) != std::string::npos) return;
  std::vector<Replicate> all(static_cast<std::size_t>(settings.replicates));
  for_each_item(settings.replicates, 8, settings.threads, [&] {
    return [&](int item) { all[static_cast<std::size_t>(item)] = replicate(s, settings, item); };
  });
  double plug_in = 0.0;
  double width = 0.0;
  int kept = 0;
  std::vector<float> ratio;
  for (const Replicate& r : all) {
    plug_in += r.plug_in;
    width += r.bound;
    kept += r.bound >= r.needed ? 1 : 0;
    ratio.push_back(static_cast<float>(r.needed / r.plug_in));
  }
  std::vector<float> scratch;
  const double oracle = quantile_of(ratio, kConfidence, scratch) * plug_in;
  const int n = settings.replicates;
  const double high = clopper_pearson_upper(kept, n, 0.975);
  fmt::print("{} {} ({} to {}){} | {} |\n", beginning_of(s),
             format_fixed(static_cast<double>(kept) / n, 3),
             format_fixed(clopper_pearson_lower(kept, n, 0.975), 3), format_fixed(high, 3),
             high < s.needs_at_least ? " LOW" : "", format_fixed(width / oracle, 2));
  std::fflush(stdout);  // a line that is done stays done
}

std::vector<Scenario> scenarios() {
  std::vector<Scenario> list;
  const RegistrationVector isotropic{{0.2, 0.2, 0.7, 0, 0, 0}};
  const RegistrationVector two_to_one{{0.2, 0.1, 0.7, 0, 0, 0}};
  const RegistrationVector five{{0.2, 0.15, 0.7, 150, 150, 0}};
  const RegistrationVector six{{0.2, 0.15, 0.7, 150, 150, 0.2}};
  const auto add = [&list](Scenario s) { list.push_back(std::move(s)); };

  for (double coverage : {0.95, 0.99}) {
    for (int n : {5, 8, 10, 15, 20, 30}) {
      add({.name = "one dimension",
           .n = n,
           .coverage = coverage,
           .sd = RegistrationVector{{0.2, 0, 0, 0, 0, 0}},
           .one_dimension = true});
      add({.name = "isotropic", .n = n, .coverage = coverage, .sd = isotropic});
      add({.name = "2:1", .n = n, .coverage = coverage, .sd = two_to_one});
      add({.name = "correlated 0.6",
           .n = n,
           .coverage = coverage,
           .sd = two_to_one,
           .correlation = 0.6});
      add({.name = "five components", .n = n, .coverage = coverage, .sd = five});
    }
  }
  for (double ratio : {3.0, 6.0}) {
    for (int n : {5, 10}) {
      add({.name = fmt::format("{}:1", format_number(ratio, 0)),
           .n = n,
           .sd = RegistrationVector{{0.2, 0.2 / ratio, 0.7 / ratio, 0, 0, 0}}});
    }
  }
  for (int n : {5, 10, 20}) {
    add({.name = "reading sd 0.3 of the feed", .n = n, .sd = two_to_one, .reading_sd_share = 0.3});
    add({.name = "reading sd 0.7 of the feed", .n = n, .sd = two_to_one, .reading_sd_share = 0.7});
    add({.name = "cut sd 0.1 mm", .n = n, .sd = two_to_one, .cut_sd_mm = 0.1});
    add({.name = "field 0.3 mm, known to 0.05 mm",
         .n = n,
         .sd = two_to_one,
         .field_mm = 0.3,
         .field_sd_mm = 0.05});
    add({.name = "one misfeed of 3 mm in ten, left out",
         .n = n,
         .sd = two_to_one,
         .misfeed_chance = 0.1,
         .misfeed_mm = 3.0});
    add({.name = "2:1, per axis", .n = n, .sd = two_to_one, .per_axis = true});
    add({.name = "2:1, whole sheets", .n = n, .sd = two_to_one, .whole_sheets = true});
    add({.name = "six components", .n = n, .sd = six});
    for (double left : {0.3, 0.7, 1.5}) {
      add({.name = fmt::format("left off by {} sd", format_number(left, 1)),
           .n = n,
           .sd = two_to_one,
           .left_off = left});
    }
  }
  for (int sessions : {4, 6}) {
    for (double share : {0.5, 1.5}) {
      add({.name = fmt::format("sessions, sd {} of the feed", format_number(share, 1)),
           .n = 5,
           .sd = two_to_one,
           .sessions = sessions,
           .session_share = share});
    }
  }
  for (double coverage : {0.95, 0.99}) {
    for (int n : {5, 10, 30}) {
      add({.name = "t5, normal figure",
           .n = n,
           .coverage = coverage,
           .sd = two_to_one,
           .tails = Tails::t5,
           .needs_at_least = 0.0});
      add({.name = "t5, heavy-tail figure",
           .n = n,
           .coverage = coverage,
           .sd = two_to_one,
           .tails = Tails::t5,
           .heavy_figure = true});
    }
  }
  return list;
}

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

}  // namespace

int study_main(int argc, char** argv) {
  Settings settings;
  for (int i = 1; i + 1 < argc; i += 2) {
    const std::string option = argv[i];
    if (option == "--only") {
      settings.only = argv[i + 1];
      continue;
    }
    if (option == "--done") {
      settings.done = text_of(argv[i + 1]);
      continue;
    }
    const auto value = parse_integer(argv[i + 1]);
    int* target = option == "--replicates"    ? &settings.replicates
                  : option == "--populations" ? &settings.populations
                  : option == "--threads"     ? &settings.threads
                  : option == "--sheets"      ? &settings.sheets
                  : option == "--credit"      ? &settings.credit
                                              : nullptr;
    if (!target || !value || *value < 0) {
      fmt::print(stderr, "{} {}: not an option of this study\n", option, argv[i + 1]);
      return 2;
    }
    *target = *value;
  }
  if (settings.done.empty()) {
    fmt::print(
        "| printer | feeds | coverage | per | achieved for 0.900 (95 % interval) | width over "
        "oracle |\n|---|---|---|---|---|---|\n");
  }
  for (const Scenario& s : scenarios()) run(s, settings);
  return 0;
}

}  // namespace versolay::stats

int main(int argc, char** argv) { return versolay::stats::study_main(argc, argv); }
