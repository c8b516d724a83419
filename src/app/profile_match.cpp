#include "app/profile_match.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "core/direction_words.h"
#include "core/numbers.h"
#include "core/translation.h"
#include "profile/left_out.h"
#include "registration/print_scale.h"

namespace versolay {
namespace {

/// Mean size of prints, along the axes of their pages; 1: actual size.
class MeanSize {
 public:
  void add(const PrintedScale& scale) {
    if (!scale.x || !scale.y) return;
    sum_ += Eigen::Vector2d(*scale.x, *scale.y);
    ++n_;
  }
  std::optional<Eigen::Vector2d> size() const {
    if (n_ == 0) return std::nullopt;
    return sum_ / n_;
  }

 private:
  Eigen::Vector2d sum_ = Eigen::Vector2d::Zero();
  int n_ = 0;
};

std::optional<Eigen::Vector2d> print_size(const PrinterProfile& profile) {
  MeanSize mean;
  for (const ProfileFeed& feed : profile.feeds) {
    if (!feed.left_out) mean.add(feed.printed_scale);
  }
  return mean.size();
}

/// Pages printed at actual size are not what was measured.
std::optional<Notice> not_at_actual_size(const PrinterProfile& profile) {
  const auto scale = print_size(profile);
  if (!scale || scale_fault(*scale) <= kPrintScaleTolerance) return std::nullopt;
  return Notice{"profile_scale",
                tr("The targets of this profile came out at {} of their width and {} of their "
                   "height. Print the pages with the same settings as these targets; better, turn "
                   "off fit-to-page and borderless, and measure a profile at actual size (100 %).",
                   scale_words(scale->x()), scale_words(scale->y()))};
}

/// What lays out and corrects pages applies R^-1 of the mean whatever the test says: of what is
/// known, the mean is the best guess, and its error is less than that of no guess unless the true
/// mean is under one standard error. The advice leaves the backs alone then, and its oversize
/// covers both.
std::optional<Notice> unproven_shift(const PrinterProfile& profile) {
  if (profile.constant_part_real) return std::nullopt;
  return Notice{
      "shift_not_proven",
      tr("On average the back landed {}, which can be luck: versolay advise would leave it where "
         "it "
         "is. Here the backs are moved back by that all the same, as by any profile; the oversize "
         "from the profile is enough for either. Measure more sheets to be sure.",
         landing_words(profile.mean))};
}

}  // namespace

std::optional<Refusal> profile_mismatch(const PrinterProfile& profile, const Paper& paper,
                                        Turn turn) {
  constexpr double kToleranceMm = 0.5;
  const auto words = [](const Paper& p) {
    return fmt::format("{} ({} x {} mm)", p.name, format_number(p.width_mm, 1),
                       format_number(p.height_mm, 1));
  };
  if (std::abs(profile.paper.width_mm - paper.width_mm) > kToleranceMm ||
      std::abs(profile.paper.height_mm - paper.height_mm) > kToleranceMm) {
    return Refusal{"profile_paper",
                   tr("The profile was measured on {}, this job is on {}. Use the paper of the "
                      "profile, or print and measure targets on this paper.",
                      words(profile.paper), words(paper))};
  }
  if (profile.turn != turn) {
    return Refusal{
        "profile_turn",
        tr("The profile was measured with sheets turned on the {}, this job turns them on the {}. "
           "Turn them as the profile does (--turn {}), or measure a profile for this turn.",
           profile.turn == Turn::long_edge ? tr("long edge") : tr("short edge"),
           turn == Turn::long_edge ? tr("long edge") : tr("short edge"), to_string(profile.turn))};
  }
  return std::nullopt;
}

Notices other_setup(const PrinterProfile& profile, const JobSetup& job) {
  const auto plain = [](const std::string& text) {
    std::string letters;
    for (unsigned char c : text) {
      if (std::isspace(c) == 0) letters += static_cast<char>(std::tolower(c));
    }
    return letters;
  };
  Notices notices;
  const auto compare = [&](const char* what, const std::string& measured, const std::string& now) {
    if (now.empty() || plain(now) == plain(measured)) return;
    notices.push_back(
        {std::string("profile_") + what,
         tr("The profile was measured with the {} {}, this job says \"{}\". The backs may land "
            "elsewhere: use the set-up of the profile, or measure a profile for this one.",
            tr(what), measured.empty() ? tr("not named") : "\"" + measured + "\"", now)});
  };
  compare(tr_noop("feed"), profile.feed, job.feed);
  compare(tr_noop("stock"), profile.stock, job.stock);
  compare(tr_noop("quality"), profile.quality, job.quality);
  return notices;
}

std::optional<Notice> other_print_size(const PrinterProfile& profile, const Readings& readings) {
  const auto before = print_size(profile);
  MeanSize mean;
  for (const SheetReading& sheet : readings.sheets) mean.add(sheet.recto);
  const auto now = mean.size();
  if (!before || !now || (*now - *before).cwiseAbs().maxCoeff() <= kPrintScaleTolerance) {
    return std::nullopt;
  }
  return Notice{
      "profile_scale",
      tr("These sheets came out at {} of their width and {} of their height, those of the profile "
         "at {} and {}. If the scanner is the same, a setting of the print dialogue is not: print "
         "at actual size (100 %), fit-to-page and borderless off.",
         scale_words(now->x()), scale_words(now->y()), scale_words(before->x()),
         scale_words(before->y()))};
}

Notices remarks_on(const PrinterProfile& profile) {
  Notices remarks;
  for (auto& remark :
       {not_at_actual_size(profile), unproven_shift(profile), doubtful_sheets(profile)}) {
    if (remark) remarks.push_back(*remark);
  }
  return remarks;
}

}  // namespace versolay
