#include "profile/profile_match.h"

#include <cctype>
#include <cmath>

#include "core/print_scale_fault.h"
#include "profile/constant_part.h"
#include "profile/findings.h"
#include "profile/left_out.h"

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
  return findings::profile_scale(Share{scale->x()}, Share{scale->y()});
}

}  // namespace

std::optional<Refusal> profile_mismatch(const PrinterProfile& profile, const Paper& paper,
                                        Turn turn) {
  constexpr double kToleranceMm = 0.5;
  if (std::abs(profile.paper.width_mm - paper.width_mm) > kToleranceMm ||
      std::abs(profile.paper.height_mm - paper.height_mm) > kToleranceMm) {
    return findings::profile_paper(profile.paper.name, Length{profile.paper.width_mm},
                                   Length{profile.paper.height_mm}, paper.name,
                                   Length{paper.width_mm}, Length{paper.height_mm});
  }
  if (profile.turn != turn) {
    return findings::profile_turn(Term{to_string(profile.turn)}, Term{to_string(turn)});
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
  const auto compare = [&](const auto& differs, const std::string& measured,
                           const std::string& now) {
    if (!now.empty() && plain(now) != plain(measured)) notices.push_back(differs(measured, now));
  };
  compare(findings::profile_feed, profile.feed, job.feed);
  compare(findings::profile_stock, profile.stock, job.stock);
  compare(findings::profile_quality, profile.quality, job.quality);
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
  return findings::other_print_scale(Share{now->x()}, Share{now->y()}, Share{before->x()},
                                     Share{before->y()});
}

Notices remarks_on(const PrinterProfile& profile) {
  Notices remarks;
  if (sessions_moved(profile)) remarks.push_back(findings::recentre_before_job());
  for (auto& remark : {not_at_actual_size(profile), doubtful_sheets(profile)}) {
    if (remark) remarks.push_back(*remark);
  }
  return remarks;
}

}  // namespace versolay
