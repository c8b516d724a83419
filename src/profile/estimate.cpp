#include "profile/estimate.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/files.h"
#include "core/numbers.h"
#include "core/software.h"
#include "profile/constant_part.h"
#include "stats/anova.h"
#include "stats/sample.h"

namespace versolay {
namespace {

constexpr double kLevel = 0.05;
constexpr int kFewestForSpread = 3;  // degrees of freedom below which no oversize is given
constexpr double kGaugeShare = 0.09;

std::string describe(const Readings& r) {
  return fmt::format("{}, turned on the {}", r.paper.name,
                     r.turn == Turn::long_edge ? "long edge" : "short edge");
}

std::optional<Refusal> why_not(const std::vector<ReadingSession>& sessions) {
  const ReadingSession* first = nullptr;
  std::map<std::pair<std::string, int>, std::string> seen;  // run and sheet: in which file
  for (const ReadingSession& session : sessions) {
    const Readings& r = session.readings;
    if (r.sheets.empty()) {
      return Refusal{"no_sheets", session.source +
                                      ": no sheet was read, so there is nothing to learn from it. "
                                      "Look at the reasons under \"rejected\" in the file, scan "
                                      "again and measure again"};
    }
    if (!first) first = &session;
    if (r.turn != first->readings.turn || !(r.paper == first->readings.paper)) {
      return Refusal{
          "mixed_setups",
          fmt::format("{} is for {}, {} is for {}: one profile holds one paper size and "
                      "one way of turning. Make a profile of each",
                      first->source, describe(first->readings), session.source, describe(r))};
    }
    std::map<std::pair<std::string, int>, int> in_session;
    for (const SheetReading& s : r.sheets) {
      if (++in_session[{s.run, s.sheet}] > 1) {
        return Refusal{"duplicate_sheet",
                       fmt::format("{}: sheet {} stands there twice. A sheet counts once, however "
                                   "often it was scanned. Remove one of the two",
                                   session.source, s.sheet)};
      }
      if (s.run.empty()) continue;  // read by eye: numbers start again in every session
      const auto [earlier, is_new] = seen.try_emplace({s.run, s.sheet}, session.source);
      if (!is_new) {
        return Refusal{
            "duplicate_sheet",
            fmt::format("sheet {} of run {} is in {} and in {}. A second scan of a sheet "
                        "is not a second feed: leave one of the files out",
                        s.sheet, s.run, earlier->second, session.source)};
      }
    }
  }
  if (!first) return Refusal{"no_sheets", "no readings were given. Measure some sheets first"};
  return std::nullopt;
}

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

stats::Sample sample_of(const Readings& readings, const RegistrationMatrix& kept) {
  Eigen::MatrixXd rows(static_cast<int>(readings.sheets.size()), 6);
  for (int i = 0; i < rows.rows(); ++i) {
    rows.row(i) =
        (kept * readings.sheets[static_cast<std::size_t>(i)].registration.vec()).transpose();
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

/// Do the sessions have one mean? One-way analysis of variance of dx, dy and rotation, Bonferroni.
ProfileTest test_sessions(std::span<const stats::Sample> samples, const stats::Sample& all) {
  ProfileTest test{"sessions agree (analysis of variance)", 0.0, 1.0, ""};
  for (int c = 0; c < 3; ++c) {
    if (all.scatter(c, c) <= 0) continue;
    const stats::FTest one_way = stats::one_way_anova(samples, c);
    const double p = std::min(1.0, 3 * one_way.p_value);
    if (p < test.p_value) test = {test.name, one_way.f, p, ""};
  }
  test.conclusion = test.p_value < kLevel
                        ? "The sessions differ by more than their feeds: something moved between "
                          "them. The mean is that of the newest session."
                        : "The sessions agree; the mean is that of all feeds.";
  return test;
}

ProfileTest describe(const ConstantPart& part) {
  ProfileTest test;
  if (part.hotelling) {
    test = {"constant part (Hotelling T2)", part.hotelling->t2, part.p_value, ""};
  } else {
    test = {"constant part (Student t, Bonferroni)", part.bonferroni.t, part.p_value, ""};
  }
  test.conclusion = part.real ? "The back is off by a constant amount that luck does not explain; "
                                "moving it helps."
                              : "The mean offset can be luck; moving the back is not advised.";
  return test;
}

void warn_about_few_feeds(PrinterProfile& profile) {
  if (profile.spread_dof == 0) {
    profile.warnings.push_back(
        {"spread_unknown",
         "One sheet tells where the back landed that time, not how much it varies. Print, scan and "
         "measure at least 5 sheets in one go to learn the spread"});
  } else if (profile.spread_dof < kFewestForSpread) {
    profile.warnings.push_back(
        {"few_sheets", fmt::format("{} sheets are too few for an oversize. Print, scan and measure "
                                   "at least 5; 10 is better",
                                   profile.n_feeds)});
  }
}

void judge_measurement(PrinterProfile& profile) {
  static constexpr std::array<std::string_view, 3> kNames = {"left-right offset", "up-down offset",
                                                             "rotation"};
  double worst = 0.0;
  std::string_view name;
  for (int c = 0; c < 3; ++c) {
    const double spread = profile.spread_covariance(c, c);
    const double measured = profile.measurement_covariance(c, c);
    if (spread <= 0) {
      profile.warnings.push_back(
          {"no_spread", fmt::format("All readings of the {} are the same. Feeds always differ a "
                                    "little: the readings are coarse, or copies of each other",
                                    kNames[static_cast<std::size_t>(c)])});
    } else if (measured / spread > worst) {
      worst = measured / spread;
      name = kNames[static_cast<std::size_t>(c)];
    }
  }
  if (worst <= 0) return;
  const double percent = 100 * std::min(worst, 1.0);
  profile.tests.push_back(
      {"share of the measurement in the spread", worst, 1.0,
       fmt::format("Reading the sheets makes up {} % of the variance of the {}, "
                   "the worst component.",
                   format_fixed(percent, percent < 1 ? 1 : 0), name)});
  if (worst > kGaugeShare) {
    profile.warnings.push_back(
        {"coarse_measurement",
         fmt::format("Reading the sheets makes up {} % of the variance of the {}: the printer is "
                     "better than it looks. Scan at a higher quality, or punch holes instead of "
                     "pricking, for a smaller oversize",
                     format_fixed(percent, 0), name)});
  }
}

}  // namespace

Result<PrinterProfile> estimate_profile(std::vector<ReadingSession> sessions,
                                        const ProfileLabels& labels) {
  if (const auto refusal = why_not(sessions)) return *refusal;
  // Oldest first, where every file says when it was made.
  if (std::none_of(sessions.begin(), sessions.end(),
                   [](const auto& s) { return s.readings.created.empty(); })) {
    std::stable_sort(sessions.begin(), sessions.end(), [](const auto& a, const auto& b) {
      return a.readings.created < b.readings.created;
    });
  }

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
    profile.warnings.push_back(
        {"mixed_models", fmt::format("Not all sheets were read with the same detail; only what all "
                                     "of them tell is used ({})",
                                     to_string(profile.model))});
  }

  const RegistrationMatrix kept = projection(profile.model);
  std::vector<stats::Sample> samples;
  for (const ReadingSession& session : sessions) {
    const Readings& r = session.readings;
    samples.push_back(sample_of(r, kept));
    profile.sessions.push_back({session.source, r.created, samples.back().n});
    for (const SheetReading& s : r.sheets) {
      profile.measurement_covariance += kept * s.covariance * kept.transpose();
    }
  }
  const stats::Sample all = stats::pooled(samples);
  profile.n_feeds = all.n;
  profile.n_sheets = all.n;
  profile.measurement_covariance /= all.n;
  profile.spread_dof = all.dof;
  profile.mean = Registration::from(all.mean);
  profile.mean_feeds = all.n;
  warn_about_few_feeds(profile);
  if (all.dof == 0) {
    profile.mean_covariance = profile.measurement_covariance / all.n;
    return profile;
  }

  if (samples.size() > 1) {
    const ProfileTest agree = test_sessions(samples, all);
    if (agree.p_value < kLevel) {
      profile.mean = Registration::from(samples.back().mean);
      profile.mean_feeds = samples.back().n;
      profile.warnings.push_back(
          {"sessions_differ",
           fmt::format("{} The promises of advise hold for the set-up as it was then; if it moves "
                       "between print jobs, measure a few sheets before each",
                       agree.conclusion)});
    }
    profile.tests.push_back(agree);
  }
  profile.spread_covariance = all.covariance();
  profile.mean_covariance = profile.spread_covariance / profile.mean_feeds;
  const ConstantPart part = test_constant_part(profile, 3);
  profile.constant_part_real = part.real;
  profile.tests.push_back(describe(part));
  judge_measurement(profile);
  return profile;
}

}  // namespace versolay
