#include "profile/estimate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "core/doubt.h"
#include "core/files.h"
#include "core/software.h"
#include "core/statement.h"
#include "profile/constant_part.h"
#include "profile/diagnostics.h"
#include "profile/findings.h"
#include "profile/left_out.h"
#include "profile/pass_components.h"
#include "profile/recommendation.h"
#include "profile/residual_field.h"
#include "profile/session_checks.h"
#include "profile/test_settings.h"
#include "stats/anova.h"
#include "stats/sample.h"

namespace versolay {
namespace {

constexpr double kGaugeShare = 0.09;

RegistrationModel common_model(const std::vector<ReadingSession>& sessions, bool& mixed) {
  RegistrationModel least = sessions.front().readings.sheets.front().model;
  mixed = false;
  for (const ReadingSession& session : sessions) {
    for (const SheetReading& s : session.readings.sheets) {
      mixed = mixed || s.model != least;
      least = std::min(least, s.model);
    }
  }
  return least;
}

/// What is kept of a registration vector under a model: a similarity has one scale.
RegistrationMatrix projection(RegistrationModel model) {
  RegistrationMatrix p = RegistrationMatrix::Identity();
  if (model == RegistrationModel::affine) return p;
  p.bottomRightCorner<3, 3>().setZero();
  if (model == RegistrationModel::similarity) p.block<2, 2>(3, 3).setConstant(0.5);
  return p;
}

stats::Sample sample_of(const std::vector<RegistrationVector>& feeds) {
  Eigen::MatrixXd rows(static_cast<Eigen::Index>(feeds.size()), 6);
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    rows.row(i) = feeds[static_cast<std::size_t>(i)].transpose();
  }
  stats::Sample sample = stats::sample_of(rows);
  // Equal readings leave rounding errors of the mean, not a spread.
  for (int c = 0; c < 6; ++c) {
    if ((rows.col(c).array() == rows(0, c)).all()) {
      sample.mean[c] = rows(0, c);
      sample.scatter.row(c).setZero();
      sample.scatter.col(c).setZero();
    }
  }
  return sample;
}

/// One sample per session that has feeds left; `with_left_out` puts those back that were left out
/// by the test for misfeeds.
std::vector<stats::Sample> samples_of(const PrinterProfile& profile, const RegistrationMatrix& kept,
                                      const std::set<std::size_t>& put_back) {
  std::map<int, std::vector<ProfileFeed>> sessions;
  for (std::size_t i = 0; i < profile.feeds.size(); ++i) {
    const ProfileFeed& f = profile.feeds[i];
    if (f.left_out && !put_back.contains(i)) continue;
    sessions[f.session].push_back(f);
    sessions[f.session].back().left_out.reset();
  }
  std::vector<stats::Sample> samples;
  for (const auto& [session, feeds] : sessions) {
    if (has_passes(feeds)) {
      samples.push_back(equivalent_sample(feeds, turn_axis(profile.turn, profile.paper), kept));
      continue;
    }
    std::vector<RegistrationVector> rows;
    for (const ProfileFeed& f : feeds) rows.push_back(kept * f.registration.vec());
    samples.push_back(sample_of(rows));
  }
  return samples;
}

/// Where the scatter comes from, and whether sheets or passes differ beyond chance.
void judge_passes(PrinterProfile& profile, const RegistrationMatrix& kept) {
  if (!has_passes(profile.feeds)) return;
  profile.passes = pass_components(profile.feeds, turn_axis(profile.turn, profile.paper), kept);
  const double sheets_p = profile.passes->sheets_differ_p;
  const bool differ = sheets_p < kOneScatterLevel;
  profile.tests.push_back({"sheets differ beyond their passes (F)", 0.0, sheets_p,
                           differ ? findings::sheets_differ() : findings::sheets_do_not_differ()});
  const double drift_p = profile.passes->drift_p;
  const bool drifts = drift_p < kOneScatterLevel;
  profile.tests.push_back({"trend over the passes (Student t)", 0.0, drift_p,
                           drifts ? findings::passes_drift() : findings::passes_do_not_drift()});
  // How sheets differ is in the covariance, as well as few sheets can show; that a place moves from
  // pass to pass is not.
  profile.heavy_tails = profile.heavy_tails || drifts;
  if (differ) profile.warnings.push_back(findings::sheets_differ());
  if (drifts) profile.warnings.push_back(findings::passes_drift());
}

/// Do the sessions have one mean? One-way analysis of variance of dx, dy and rotation, Bonferroni.
ProfileTest test_sessions(std::span<const stats::Sample> samples, const stats::Sample& all) {
  ProfileTest test{"sessions agree (analysis of variance)", 0.0, 1.0, {}};
  for (int c = 0; c < 3; ++c) {
    if (all.scatter(c, c) <= 0) continue;
    const stats::FTest one_way = stats::one_way_anova(samples, c);
    const double p = std::min(1.0, 3 * one_way.p_value);
    if (p < test.p_value) test = {test.name, one_way.f, p, {}};
  }
  test.conclusion = test.p_value >= kLevel              ? findings::sessions_agree()
                    : samples.size() >= kFewestSessions ? findings::sessions_are_enough()
                                                        : findings::sessions_moved();
  return test;
}

ProfileTest describe(const ConstantPart& part) {
  ProfileTest test;
  if (part.hotelling) {
    test = {"constant part (Hotelling T2)", part.hotelling->t2, part.p_value, {}};
  } else {
    test = {"constant part (Student t, Bonferroni)", part.bonferroni.t, part.p_value, {}};
  }
  test.conclusion =
      part.real ? findings::constant_part_real() : findings::constant_part_may_be_luck();
  return test;
}

void warn_about_few_feeds(PrinterProfile& profile) {
  if (profile.spread_dof == 0) {
    profile.warnings.push_back(findings::spread_unknown());
  } else if (profile.spread_dof < kFewestDof) {
    profile.warnings.push_back(findings::few_sheets(profile.n_feeds));
  }
}

bool read_by_eye(const std::vector<ReadingSession>& sessions) {
  return std::any_of(sessions.begin(), sessions.end(), [](const ReadingSession& session) {
    const auto& sheets = session.readings.sheets;
    return !sheets.empty() && sheets.front().datum.by_eye;
  });
}

void judge_measurement(PrinterProfile& profile, bool by_eye) {
  double worst = 0.0;
  Term component;
  for (int c = 0; c < 3; ++c) {
    const double spread = profile.spread_covariance(c, c);
    const double measured = profile.measurement_covariance(c, c);
    if (c == 2 && !profile.rotation_measured) {
      profile.warnings.push_back(findings::rotation_not_measured());
    } else if (spread <= 0) {
      profile.warnings.push_back(
          findings::no_spread(Term{kRegistrationKeys[static_cast<std::size_t>(c)]}));
    } else if (measured / spread > worst) {
      worst = measured / spread;
      component = {kRegistrationKeys[static_cast<std::size_t>(c)]};
    }
  }
  if (worst <= 0) return;
  const Share share{std::min(worst, 1.0)};
  profile.tests.push_back({"share of the measurement in the spread", worst, 1.0,
                           findings::measurement_in_the_spread(share, component)});
  if (worst <= kGaugeShare) return;
  profile.warnings.push_back(by_eye ? findings::coarse_reading_by_eye(share, component, Term{"eye"})
                                    : findings::coarse_measurement(share, component));
}

/// A row for each pass that was read on both sides.
void add_feeds(const SheetReading& s, PrinterProfile& profile) {
  ProfileFeed first;
  first.session = static_cast<int>(profile.sessions.size()) - 1;
  first.sheet = s.sheet;
  first.run = s.run;
  first.registration = s.registration;
  first.model = s.model;
  first.fed_round = s.fed_round;
  first.printed_scale = s.recto;
  first.doubts = doubts_in(s.warnings);
  first.recto_lay = s.recto_lay;
  profile.feeds.push_back(first);
  const TurnAxis axis = turn_axis(profile.turn, profile.paper);
  for (const PassLay& front : s.recto_passes) {
    for (const PassLay& back : s.verso_passes) {
      if (front.pass != back.pass) continue;
      ProfileFeed& feed = profile.feeds.emplace_back(first);
      feed.pass = front.pass;
      feed.recto_pass_lay = front.lay;
      feed.verso_pass_lay = back.lay;
      feed.registration = Registration::from(s.registration.vec() + back.lay.vec() -
                                             seen_from_back(front.lay, axis));
    }
  }
}

void collect_feeds(PrinterProfile& profile, const std::vector<ReadingSession>& sessions,
                   const RegistrationMatrix& kept) {
  double residual_dof = 0.0;
  bool measured = false;
  profile.rotation_measured = false;
  for (const ReadingSession& session : sessions) {
    const Readings& r = session.readings;
    profile.sessions.push_back({session.source, r.created, 0});
    for (const SheetReading& s : r.sheets) {
      profile.measurement_covariance += kept * s.covariance * kept.transpose();
      profile.rotation_measured = profile.rotation_measured || s.rotation_measured();
      measured = measured || !s.covariance.isZero(0.0);
      residual_dof += std::max(0.0, 2.0 * static_cast<double>(s.features.size()) - 6);
      add_feeds(s, profile);
      ++profile.n_sheets;
    }
  }
  profile.measurement_covariance /= profile.n_sheets;
  if (measured) profile.measurement_dof = kStatementDof + residual_dof;
}

/// One mean for all sessions, that of the newest, or sessions as a sample of sessions.
void judge_sessions(PrinterProfile& profile, const std::vector<stats::Sample>& samples,
                    const stats::Sample& all) {
  const ProfileTest agree = test_sessions(samples, all);
  profile.tests.push_back(agree);
  if (agree.p_value >= kLevel) return;
  if (samples.size() >= kFewestSessions) {
    std::vector<RegistrationVector> means;
    double inverse_size = 0.0;
    for (const stats::Sample& s : samples) {
      means.push_back(s.mean);
      inverse_size += 1.0 / s.n / static_cast<double>(samples.size());
    }
    const stats::Sample of_means = sample_of(means);
    profile.mean = Registration::from(of_means.mean);
    profile.session_covariance = of_means.covariance();
    profile.feeds_per_session = 1 / inverse_size;
    profile.mean_covariance = profile.session_covariance / of_means.n;
    return;
  }
  profile.mean = Registration::from(samples.back().mean);
  profile.mean_feeds = samples.back().n;
  profile.mean_covariance = profile.spread_covariance / profile.mean_feeds;
  profile.warnings.push_back(findings::sessions_differ(static_cast<std::int64_t>(samples.size()),
                                                       static_cast<std::int64_t>(kFewestSessions)));
}

/// The mean of the newest session alone, the spread of all.
void recentre(PrinterProfile& profile, const stats::Sample& newest) {
  profile.mean = Registration::from(newest.mean);
  profile.mean_feeds = newest.n;
  profile.mean_covariance = profile.spread_covariance / newest.n;
  profile.session_covariance.setZero();
  profile.feeds_per_session = 0.0;
  std::erase_if(profile.warnings, [](const Notice& n) { return n == findings::sessions_differ; });
}

void judge_field(PrinterProfile& profile, const std::vector<ReadingSession>& sessions) {
  std::vector<std::vector<bool>> used(sessions.size());
  for (const ProfileFeed& f : profile.feeds) {
    if (f.pass == 1) used[static_cast<std::size_t>(f.session)].push_back(!f.left_out);
  }
  profile.field =
      estimate_field(sessions, used, std::hypot(profile.paper.width_mm, profile.paper.height_mm));
  const ResidualField& field = profile.field;
  if (field.points.empty()) return;
  profile.tests.push_back({"residual field (Student t, Bonferroni)", field.amplitude_mm,
                           field.p_value,
                           field.real ? findings::print_is_bent(Length{field.amplitude_mm})
                                      : findings::print_is_not_bent()});
}

/// Oldest first, where every file says when it was made.
void sort_by_age(std::vector<ReadingSession>& sessions) {
  if (std::any_of(sessions.begin(), sessions.end(),
                  [](const auto& s) { return s.readings.created.empty(); })) {
    return;
  }
  std::stable_sort(sessions.begin(), sessions.end(), [](const auto& a, const auto& b) {
    return a.readings.created < b.readings.created;
  });
}

/// What is known before any feed is looked at.
PrinterProfile begun_profile(const std::vector<ReadingSession>& sessions,
                             const ProfileLabels& labels) {
  PrinterProfile profile;
  profile.printer = labels.printer;
  profile.feed = labels.feed;
  profile.stock = labels.stock;
  profile.quality = labels.quality;
  profile.turn = sessions.front().readings.turn;
  profile.paper = sessions.front().readings.paper;
  profile.created = utc_now();
  profile.software = kSoftware;
  bool mixed_models = false;
  profile.model = common_model(sessions, mixed_models);
  if (mixed_models) {
    profile.warnings.push_back(findings::mixed_models(Term{to_string(profile.model)}));
  }
  return profile;
}

/// Tests of a profile whose mean and spread are estimated.
void judge_estimates(PrinterProfile& profile, const std::vector<ReadingSession>& sessions,
                     const RegistrationMatrix& kept) {
  const ConstantPart part = test_constant_part(profile, kComponents);
  profile.constant_part_real = part.real;
  profile.tests.push_back(describe(part));
  judge_measurement(profile, read_by_eye(sessions));
  judge_normality(profile);
  if (has_passes(profile.feeds)) {
    judge_passes(profile, kept);
  } else {
    judge_run(profile);  // its tests take every feed for a sheet
  }
  judge_distances(profile);
  judge_field(profile, sessions);
}

}  // namespace

Result<PrinterProfile> estimate_profile(std::vector<ReadingSession> sessions,
                                        const ProfileLabels& labels,
                                        const EstimateOptions& options) {
  if (const auto refusal = why_no_profile(sessions)) return *refusal;
  // A profile is of the printer: production sheets show what their correction has left.
  for (ReadingSession& session : sessions) {
    for (SheetReading& s : session.readings.sheets) s = without_correction(std::move(s));
  }
  sort_by_age(sessions);

  PrinterProfile profile = begun_profile(sessions, labels);
  const RegistrationMatrix kept = projection(profile.model);
  collect_feeds(profile, sessions, kept);
  if (const auto refusal = leave_out(profile, options.leave_out)) return *refusal;
  judge_doubtful(profile, options.keep_doubtful);
  const std::set<std::size_t> misfeeds = judge_misfeeds(profile, options.keep_misfeeds);
  list_left_out(profile);

  const std::vector<stats::Sample> samples = samples_of(profile, kept, {});
  if (samples.empty()) {
    return findings::all_left_out(static_cast<std::int64_t>(profile.feeds.size()));
  }
  const stats::Sample all = stats::pooled(samples);
  profile.n_feeds = static_cast<int>(
      std::count_if(profile.feeds.begin(), profile.feeds.end(),
                    [](const ProfileFeed& feed) { return !feed.left_out.has_value(); }));
  profile.spread_dof = all.dof;
  profile.mean = Registration::from(all.mean);
  profile.mean_feeds = all.n;
  warn_about_few_feeds(profile);
  if (all.dof == 0) {
    profile.mean_covariance = profile.measurement_covariance / all.n;
    return profile;
  }
  profile.spread_covariance = all.covariance();
  if (!misfeeds.empty()) {
    profile.spread_with_left_out = stats::pooled(samples_of(profile, kept, misfeeds)).covariance();
  }
  profile.mean_covariance = profile.spread_covariance / profile.mean_feeds;
  if (samples.size() > 1) judge_sessions(profile, samples, all);
  if (options.recentre) recentre(profile, samples.back());
  profile.shares = component_shares(profile, samples);
  judge_estimates(profile, sessions, kept);
  return profile;
}

std::vector<ReadingSession> sessions_of(const PrinterProfile& profile) {
  std::vector<ReadingSession> list;
  for (const ProfileSession& s : profile.sessions) {
    ReadingSession session;
    session.source = s.source;
    session.readings.turn = profile.turn;
    session.readings.paper = profile.paper;
    session.readings.created = s.created;
    list.push_back(std::move(session));
  }
  for (const ProfileFeed& f : profile.feeds) {
    std::vector<SheetReading>& sheets = list[static_cast<std::size_t>(f.session)].readings.sheets;
    if (f.pass > 1) {  // its first pass comes before it
      if (sheets.empty()) continue;
      sheets.back().recto_passes.push_back({f.pass, f.recto_pass_lay, {}});
      sheets.back().verso_passes.push_back({f.pass, f.verso_pass_lay, {}});
      continue;
    }
    SheetReading sheet;
    sheet.sheet = f.sheet;
    sheet.run = f.run;
    sheet.registration = f.registration;
    sheet.covariance = profile.measurement_covariance;
    sheet.model = f.model;
    sheet.fed_round = f.fed_round;
    sheet.recto = f.printed_scale;
    sheet.recto_lay = f.recto_lay;
    for (const std::string& code : f.doubts) sheet.warnings.push_back({code, {}});
    sheets.push_back(std::move(sheet));
  }
  return list;
}

}  // namespace versolay
