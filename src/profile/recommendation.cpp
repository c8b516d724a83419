#include "profile/recommendation.h"

#include <algorithm>
#include <array>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>

#include "core/expect.h"
#include "core/field_range.h"
#include "core/numbers.h"
#include "profile/advice_tables.h"
#include "profile/constant_part.h"
#include "profile/findings.h"
#include "profile/left_out.h"
#include "profile/misfeeds.h"
#include "profile/residual_field.h"
#include "stats/hotelling.h"
#include "stats/promised_oversize.h"
#include "stats/proportion.h"
#include "stats/tolerance.h"

namespace versolay {
namespace {

/// Standard error of the Monte Carlo: 0.07 px at 300 ppi. It does not follow the resolution, so
/// that the millimetres of an advice do not either.
constexpr double kPrecisionMm = 0.006;
constexpr int kFewerPopulations = 1000;  // for all but the oversize itself
constexpr double kHeavyTailCoverage = 0.99;
constexpr double kShiftConfidence = 0.95;    // that a mean is smaller than one step
constexpr double kMisfeedConfidence = 0.90;  // of the highest share of misfeeds
constexpr double kResolvedRatio = 1.5;       // of variances, see measurement_is_resolved()
constexpr double kSureDirection = 0.90;  // below, what the back would need unmoved is said as well
constexpr int kFeedsThatShowOddScatter = 100;  // of 50, heavy tails are seen in 7 of 10 cases
/// Days that were not measured are taken to differ as much as feeds do (from memory): of a job, the
/// feeds vary by S and the days of measuring and printing by S each.
constexpr double kOtherDaySpread = 3.0;
/// sd of a reading where the readings state none, dx, dy in mm and rotation in mrad: four punched
/// holes on a scanner (tests/bench/README.md).
constexpr std::array kFinestReadingSd = {0.01, 0.01, 0.05};

int count_misfeeds(const PrinterProfile& profile) {
  return static_cast<int>(std::count_if(profile.feeds.begin(), profile.feeds.end(), is_misfeed));
}

/// Spread without any variation is not believed: it is at least that of a reading.
std::vector<int> components_without_spread(const PrinterProfile& profile) {
  std::vector<int> list;
  for (int c = 0; c < 3; ++c) {
    if (profile.spread_covariance(c, c) <= 0) list.push_back(c);
  }
  return list;
}

std::vector<std::string> names_of(const std::vector<int>& components) {
  std::vector<std::string> names;
  for (const int c : components) {
    names.emplace_back(kRegistrationKeys[static_cast<std::size_t>(c)]);
  }
  return names;
}

/// The measurement can be taken out of the spread only where it is clearly the smaller part:
/// 1.41 sd(printer) / sd(measurement) >= 1, else the printer's own part is not resolved.
bool measurement_is_resolved(const RegistrationMatrix& spread, const RegistrationMatrix& v) {
  for (int c = 0; c < 3; ++c) {
    if (v(c, c) > 0 && spread(c, c) < kResolvedRatio * v(c, c)) return false;
  }
  return true;
}

Point<VersoMm> in_verso(const PrinterProfile& profile, const Point<RectoMm>& p) {
  return verso_from_recto(turn_axis(profile.turn, profile.paper))(p);
}

double step_of(const AdviceRequest& request) {
  return std::max(request.step_mm, kMmPerInch / request.ppi);
}

/// The largest displacement, uncertainty included, that the mean can cause at any card is less
/// than one step.
bool below_one_step(const PrinterProfile& profile, const AdviceRequest& request) {
  const double half_width = stats::t_half_width(mean_source(profile).dof, kShiftConfidence);
  const double step = step_of(request);
  for (const Cell& cell : request.grid.cells) {
    const auto j = displacement_jacobian(in_verso(profile, cell.centre));
    const Eigen::Vector2d e = j * profile.mean.vec();
    const Eigen::Vector2d sd =
        (j * profile.mean_covariance * j.transpose()).diagonal().cwiseMax(0.0).cwiseSqrt();
    if ((e.cwiseAbs() + half_width * sd).maxCoeff() >= step) return false;
  }
  return true;
}

double to_step(double mm, double step_mm) {
  return step_mm > 0 ? std::round(mm / step_mm) * step_mm : mm;
}

/// The movement of the back artwork: R^-1 of the mean, as far as it can be set.
Registration settable_shift(const PrinterProfile& profile, const AdviceRequest& request) {
  Registration wanted = profile.mean;
  if (!request.can_scale) wanted.scale_x_ppm = wanted.scale_y_ppm = wanted.shear_mrad = 0.0;
  if (!request.can_rotate) wanted = {.dx_mm = wanted.dx_mm, .dy_mm = wanted.dy_mm};
  Registration shift = registration_from(wanted.page_from_wanted());
  shift.dx_mm = to_step(shift.dx_mm, request.step_mm);
  shift.dy_mm = to_step(shift.dy_mm, request.step_mm);
  return shift;
}

BackShift back_shift(const Registration& r, double ppi) {
  return {.dx_mm = r.dx_mm,
          .dy_mm = r.dy_mm,
          .rotation_mrad = r.rotation_mrad,
          .scale_x_ppm = r.scale_x_ppm,
          .scale_y_ppm = r.scale_y_ppm,
          .shear_mrad = r.shear_mrad,
          .dx_px = artwork_px_from_mm(r.dx_mm, ppi),
          .dy_px = artwork_px_from_mm(r.dy_mm, ppi)};
}

ShiftUncertainty uncertainty_of(const PrinterProfile& profile, double confidence) {
  const double half_width = stats::t_half_width(mean_source(profile).dof, confidence);
  const RegistrationVector sd = profile.mean_covariance.diagonal().cwiseMax(0.0).cwiseSqrt();
  return {half_width * sd[0], half_width * sd[1], half_width * sd[2]};
}

Eigen::Vector2d direction_of(const stats::FutureCards& future, const AdviceRequest& request,
                             const stats::MonteCarlo& mc) {
  switch (request.growth) {
    case Growth::equal:
      return {1.0, 1.0};
    case Growth::proportional: {
      const Eigen::Vector2d card(request.grid.card.width_mm, request.grid.card.height_mm);
      return card / card.maxCoeff();
    }
    case Growth::per_axis:
      return stats::per_axis_direction(future, request.coverage, mc);
  }
  return {1.0, 1.0};
}

/// What further sheets would bring, by the factors of the degrees of freedom that there would be.
std::vector<Saving> savings_of(const PrinterProfile& profile, const AdviceRequest& request,
                               double effective_dof, const Eigen::Vector2d& oversize_mm) {
  if (sessions_are_a_sample(profile)) return {};  // more sessions would be needed, not sheets
  const double n = profile.mean_feeds;
  const double share = effective_dof / profile.spread_dof;
  const double now =
      stats::two_sided_factor({n, effective_dof}, request.coverage, request.confidence);
  std::vector<Saving> list;
  for (int more : {1, 2, 5}) {
    const double then = stats::two_sided_factor({n + more, share * (profile.spread_dof + more)},
                                                request.coverage, request.confidence);
    list.push_back({more, oversize_of(oversize_mm * then / now, request.ppi)});
  }
  return list;
}

stats::MonteCarlo monte_carlo_of(const AdviceRequest& request, const Effort& effort) {
  stats::MonteCarlo mc;
  mc.seed = request.seed;
  mc.threads = effort.threads;
  const double beyond = 1 - request.coverage;
  if (effort.populations > 0) {
    mc.populations = effort.populations;
    // The order statistic of a share close to 1 needs some sheets above it.
    mc.sheets = std::max(mc.sheets, static_cast<int>(std::ceil(10 / beyond)));
  } else {
    mc.sheets = std::max(500, static_cast<int>(std::ceil(10 / beyond)));
    mc.precision = kPrecisionMm;  // of 1 mm: see advise()
  }
  if (effort.sheets > 0) mc.sheets = effort.sheets;
  return mc;
}

Oversize oversize_at(const stats::FutureCards& future, const AdviceRequest& request,
                     const Eigen::Vector2d& direction, const stats::MonteCarlo& mc) {
  const stats::PromisedOversize promised(future, direction, request.coverage, mc);
  return oversize_of(promised.at(request.confidence).factor * direction, request.ppi);
}

Oversize heavy_tail_oversize(stats::FutureCards future, const AdviceRequest& request,
                             const Eigen::Vector2d& direction, const stats::MonteCarlo& mc) {
  future.set_heavy_tails();
  return oversize_at(future, request, direction, mc);
}

/// What the back would need if it stayed where it is.
Oversize unmoved_oversize(stats::FutureCards future, const AdviceRequest& request,
                          const Eigen::Vector2d& direction, const stats::MonteCarlo& mc) {
  future.correction.setZero();
  return oversize_at(future, request, direction, mc);
}

/// For a day that was not measured, by an assumption (kOtherDaySpread). Nothing where sessions are
/// a sample of days already.
std::optional<Oversize> other_day_oversize(const PrinterProfile& profile, stats::FutureCards future,
                                           const AdviceRequest& request,
                                           const Eigen::Vector2d& direction,
                                           const stats::MonteCarlo& mc) {
  if (sessions_are_a_sample(profile)) return std::nullopt;
  const RegistrationMatrix observed = future.feeds.covariance();
  const RegistrationMatrix printer = observed - future.measurement;
  future.feeds.scatter = (observed + (kOtherDaySpread - 1) * printer) * future.feeds.dof;
  return oversize_at(future, request, direction, mc);
}

/// The figure that also covers the feeds that were left out as misfeeds.
std::optional<Oversize> oversize_with_misfeeds(const PrinterProfile& profile,
                                               stats::FutureCards future,
                                               const AdviceRequest& request,
                                               const Eigen::Vector2d& direction,
                                               const stats::MonteCarlo& mc) {
  if (profile.spread_with_left_out.isZero(0.0)) return std::nullopt;
  future.feeds.dof += count_misfeeds(profile);
  future.feeds.scatter = profile.spread_with_left_out * future.feeds.dof;
  return oversize_at(future, request, direction, mc);
}

/// How sure it is that moving along the mean is moving the right way: Student's t of the mean along
/// its own direction (dx, dy).
double direction_sure(const PrinterProfile& profile) {
  const Eigen::Vector2d mean = profile.mean.vec().head<2>();
  const double variance = mean.dot(profile.mean_covariance.topLeftCorner<2, 2>() * mean);
  if (!(variance > 0)) return 1.0;
  const double t = mean.squaredNorm() / std::sqrt(variance);
  return cdf(boost::math::students_t(mean_source(profile).dof), t);
}

HoldsFor holds_for(const PrinterProfile& profile) {
  HoldsFor scope;
  scope.sessions = std::max(1, used_sessions(profile));
  scope.another_day = sessions_are_a_sample(profile);
  std::map<int, int> feeds_of;  // every pass counts: a trend over them would have been seen
  for (const ProfileFeed& feed : profile.feeds) {
    if (!feed.left_out) ++feeds_of[feed.session];
  }
  for (const auto& [session, feeds] : feeds_of)
    scope.run_sheets = std::max(scope.run_sheets, feeds);
  if (feeds_of.empty()) scope.run_sheets = profile.n_feeds;
  scope.misfeeds = count_misfeeds(profile);
  scope.sheets = profile.n_feeds + scope.misfeeds;
  scope.misfeed_share_high =
      stats::clopper_pearson_upper(scope.misfeeds, scope.sheets, kMisfeedConfidence);
  scope.even_scatter_seen = profile.n_feeds >= kFeedsThatShowOddScatter;
  return scope;
}

/// What is done to the backs, and the statistical question that remains.
struct Question {
  BackShift shift;
  NoShift no_shift = NoShift::none;
  stats::FutureCards future;
};

Question question_of(const PrinterProfile& profile, const AdviceRequest& request) {
  Question q;
  q.no_shift = no_shift_reason(profile, request);
  Registration correction;
  if (q.no_shift == NoShift::none) {
    const Registration shift = settable_shift(profile, request);
    q.shift = back_shift(shift, request.ppi);
    correction = registration_from(shift.page_from_wanted());
  }
  q.future = future_cards(profile, request, correction);
  return q;
}

/// What the bounds are computed with, and the direction that belongs to it.
struct Draws {
  stats::MonteCarlo mc;     // of the oversize
  stats::MonteCarlo fewer;  // of everything else
  Eigen::Vector2d direction;
};

Draws draws_of(const stats::FutureCards& future, const AdviceRequest& request,
               const Effort& effort) {
  Draws d;
  d.mc = monte_carlo_of(request, effort);
  d.direction = direction_of(future, request, d.mc);
  d.mc.precision /= d.direction.maxCoeff();
  d.fewer = d.mc;
  d.fewer.populations = std::min(d.mc.populations, kFewerPopulations);
  return d;
}

/// The bounds of the headline: those for heavy tails where the scatter is unusual.
stats::PromisedOversize headline(const PrinterProfile& profile, const AdviceRequest& request,
                                 stats::FutureCards future, const Draws& draws) {
  if (profile.heavy_tails) future.set_heavy_tails();
  return {future, draws.direction, request.coverage, profile.heavy_tails ? draws.fewer : draws.mc};
}

std::optional<Refusal> why_no_advice(const PrinterProfile& profile) {
  if (profile.spread_dof < kFewestDof) return findings::too_few_sheets(profile.n_feeds);
  if (profile.spread_covariance.isZero(0.0) && profile.measurement_covariance.isZero(0.0)) {
    return findings::no_spread_at_all();
  }
  if (sessions_moved(profile)) {
    return findings::advice_needs_recentring(used_sessions(profile), kFewestSessions);
  }
  return std::nullopt;
}

void warn_of_coarse_readings(const PrinterProfile& profile, const stats::FutureCards& future,
                             Notices& warnings) {
  std::vector<int> without = components_without_spread(profile);
  if (!profile.rotation_measured) {
    std::erase(without, 2);
    warnings.push_back(
        findings::rotation_allowed_for(Angle{std::sqrt(future.feeds.covariance()(2, 2))}));
  }
  if (!without.empty()) {
    warnings.push_back(findings::spread_floored(names_of(without)));
  } else if (profile.rotation_measured && !profile.measurement_covariance.isZero(0.0) &&
             future.measurement.isZero(0.0)) {
    warnings.push_back(findings::printer_not_resolved());
  }
}

}  // namespace

const char* to_string(Growth growth) {
  switch (growth) {
    case Growth::equal:
      return "equal";
    case Growth::proportional:
      return "proportional";
    case Growth::per_axis:
      return "per-axis";
  }
  return "";
}

NoShift no_shift_reason(const PrinterProfile& profile, const AdviceRequest& request) {
  return below_one_step(profile, request) ? NoShift::not_settable : NoShift::none;
}

void validate(const AdviceRequest& r) {
  require_in("coverage", r.coverage, 0.5, 0.999);
  require_in("confidence", r.confidence, 0.5, 0.999);
  require_in("ppi", r.ppi, 30, 4800);
  require_in("cut_sd_mm", r.cut_sd_mm, 0, 5);
  if (r.step_mm != 0) require_in("step_mm", r.step_mm, 0.001, 5);
  if (r.cards) require_in("cards", *r.cards, 1, 1000000);
  if (r.border_mm) {
    require_above("border_mm", *r.border_mm, 0,
                  std::min(r.grid.card.width_mm, r.grid.card.height_mm) / 2);
  }
  if (r.today_mm) require_in("today_mm", *r.today_mm, 0, 20);
  require_above("grid", static_cast<double>(r.grid.cells.size()), 0, 1e6);
  require_above("card", std::min(r.grid.card.width_mm, r.grid.card.height_mm), 0, 1e4);
}

stats::FutureCards future_cards(const PrinterProfile& profile, const AdviceRequest& request,
                                const Registration& correction) {
  expect(profile.spread_dof >= 1);
  RegistrationMatrix spread = profile.spread_covariance;
  for (int c : components_without_spread(profile)) {
    spread(c, c) = std::max(profile.measurement_covariance(c, c),
                            std::pow(kFinestReadingSd[static_cast<std::size_t>(c)], 2));
  }
  stats::FutureCards future;
  future.feeds = {profile.mean.vec(), spread * profile.spread_dof, profile.mean_feeds,
                  profile.spread_dof};
  if (components_without_spread(profile).empty() &&
      measurement_is_resolved(spread, profile.measurement_covariance)) {
    future.measurement = profile.measurement_covariance;
    future.measurement_dof = profile.measurement_dof;
  }
  if (sessions_are_a_sample(profile)) {
    const int sessions = used_sessions(profile);
    future.sessions = stats::SessionMeans{
        {profile.mean.vec(), profile.session_covariance * (sessions - 1), sessions, sessions - 1},
        profile.feeds_per_session};
  }
  future.correction = correction.vec();
  future.cards.width_mm = request.grid.card.width_mm;
  future.cards.height_mm = request.grid.card.height_mm;
  future.cards.cut_sd_mm = request.cut_sd_mm;
  for (const Cell& cell : request.grid.cells) {
    future.cards.centres.push_back(in_verso(profile, cell.centre));
  }
  if (profile.field.real) {
    FieldEstimate field = field_at(profile.field, future.cards.centres);
    if (request.can_move_cards) {
      for (Eigen::Vector2d& at : field.at_mm) at.setZero();  // what is not known of it remains
    }
    future.cards.fixed_mm = std::move(field.at_mm);
    future.cards.fixed_root_mm = std::move(field.root_mm);
  }
  future.whole_sheets = request.count == CountBy::sheet;
  future.direction_is_estimated = request.growth == Growth::per_axis;
  return future;
}

Result<BareAdvice> bare_advice(const PrinterProfile& profile, const AdviceRequest& request,
                               const Effort& effort) {
  validate(request);
  if (const auto refusal = why_no_advice(profile)) return *refusal;
  const Question question = question_of(profile, request);
  const Draws draws = draws_of(question.future, request, effort);
  const stats::PromisedOversize promised = headline(profile, request, question.future, draws);
  return BareAdvice{
      question.shift,
      oversize_of(promised.at(request.confidence).factor * draws.direction, request.ppi),
      question.future};
}

Result<Advice> advise(const PrinterProfile& profile, const AdviceRequest& request,
                      const Effort& effort) {
  validate(request);
  if (const auto refusal = why_no_advice(profile)) return *refusal;

  Advice advice;
  advice.request = request;
  const Question question = question_of(profile, request);
  advice.no_shift = question.no_shift;
  advice.shift = question.shift;
  advice.shift_uncertainty = uncertainty_of(profile, request.confidence);

  const stats::FutureCards& future = question.future;
  warn_of_coarse_readings(profile, future, advice.warnings);
  if (const auto doubtful = doubtful_sheets(profile)) advice.warnings.push_back(*doubtful);
  const Draws draws = draws_of(future, request, effort);
  const auto& [mc, fewer, direction] = draws;
  const stats::PromisedOversize promised(future, direction, request.coverage, mc);
  const stats::OversizeBound bound = promised.at(request.confidence);
  advice.effective_dof = promised.plug_in().dof;
  advice.draws_outer = fewer.populations;
  advice.draws_inner = mc.sheets;
  advice.standard_error_mm = bound.standard_error * direction.maxCoeff();
  advice.if_normal = oversize_of(bound.factor * direction, request.ppi);
  advice.scatter_is_odd = profile.heavy_tails;
  if (request.coverage >= kHeavyTailCoverage || profile.heavy_tails) {
    advice.heavy_tails = heavy_tail_oversize(future, request, direction, fewer);
  }
  advice.oversize = advice.if_normal;
  if (profile.heavy_tails && advice.heavy_tails->x_mm > advice.if_normal.x_mm) {
    advice.oversize = *advice.heavy_tails;  // the figure that keeps the promise
  }
  const Eigen::Vector2d oversize_mm(advice.oversize.x_mm, advice.oversize.y_mm);
  advice.total_width_px = 2 * advice.oversize.x_px;
  advice.total_height_px = 2 * advice.oversize.y_px;
  if (request.border_mm) advice.centring = centring_of(future, request, oversize_mm, fewer);
  advice.savings = savings_of(profile, request, advice.effective_dof, oversize_mm);

  advice.holds_for = holds_for(profile);
  advice.direction_sure = direction_sure(profile);
  if (advice.shift_advised() && advice.direction_sure < kSureDirection) {
    advice.unmoved = unmoved_oversize(future, request, direction, fewer);
  }
  advice.another_day = other_day_oversize(profile, future, request, direction, fewer);
  advice.with_misfeeds = oversize_with_misfeeds(profile, future, request, direction, fewer);

  fill_tables(advice, future, oversize_mm, fewer);
  if (request.cards) plan_job(advice, stats::yield_of(future, oversize_mm, fewer));
  return advice;
}

SureAdvices advise_for(const PrinterProfile& profile, const AdviceRequest& request,
                       std::span<const double> confidences, const Effort& effort) {
  std::vector<stats::Promise> promises;
  for (double confidence : confidences) {
    AdviceRequest one = request;
    one.confidence = confidence;
    validate(one);
    promises.push_back({request.coverage, confidence});
  }
  const Question question = question_of(profile, request);
  const Draws draws = draws_of(question.future, request, effort);
  const stats::PromisedOversize promised = headline(profile, request, question.future, draws);
  const std::vector<double> off = off_centre_mm(question.future, promises, draws.fewer);
  SureAdvices result{question.shift, question.no_shift, off.front(), {}};
  for (std::size_t i = 0; i < promises.size(); ++i) {
    const double factor = promised.at(promises[i].confidence).factor;
    result.list.push_back(
        {promises[i].confidence, oversize_of(factor * draws.direction, request.ppi), off[i + 1]});
  }
  return result;
}

}  // namespace versolay
