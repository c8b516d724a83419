#include "profile/pass_components.h"

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>
#include <tuple>
#include <vector>

#include "core/expect.h"
#include "core/linear_algebra.h"

namespace versolay {
namespace {

/// The passes of one sheet.
struct PassesOfSheet {
  std::vector<RegistrationVector> front;  // as seen from the back, against the first pass
  std::vector<RegistrationVector> back;
  std::vector<RegistrationVector> both;  // the registrations
  std::vector<int> pass;
};

using SheetOfSession = std::tuple<int, std::string, int>;

std::map<SheetOfSession, PassesOfSheet> by_sheet(std::span<const ProfileFeed> feeds, TurnAxis axis,
                                                 const RegistrationMatrix& kept) {
  std::map<SheetOfSession, PassesOfSheet> sheets;
  int unnamed = 0;
  for (const ProfileFeed& f : feeds) {
    if (f.left_out) continue;
    // Read by eye, sheets have no run; each row is a sheet.
    const int number = f.run.empty() ? --unnamed : f.sheet;
    PassesOfSheet& sheet = sheets[{f.session, f.run, number}];
    sheet.front.push_back(kept * seen_from_back(f.recto_pass_lay, axis));
    sheet.back.push_back(kept * f.verso_pass_lay.vec());
    sheet.both.push_back(kept * f.registration.vec());
    sheet.pass.push_back(f.pass);
  }
  return sheets;
}

RegistrationVector mean_of(const std::vector<RegistrationVector>& values) {
  RegistrationVector sum = RegistrationVector::Zero();
  for (const RegistrationVector& v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

RegistrationMatrix scatter_of(const std::vector<RegistrationVector>& values) {
  const RegistrationVector mean = mean_of(values);
  RegistrationMatrix scatter = RegistrationMatrix::Zero();
  for (const RegistrationVector& v : values) scatter += (v - mean) * (v - mean).transpose();
  return scatter;
}

/// Covariances with their degrees of freedom.
struct Parts {
  RegistrationMatrix means = RegistrationMatrix::Zero();  // of the sheets' means
  RegistrationMatrix front = RegistrationMatrix::Zero();
  RegistrationMatrix back = RegistrationMatrix::Zero();
  double means_dof = 0.0;
  double pass_dof = 0.0;
  double passes = 1.0;  // harmonic mean over the sheets
  int sheets = 0;
  RegistrationVector mean = RegistrationVector::Zero();
};

Parts parts_of(const std::map<SheetOfSession, PassesOfSheet>& sheets) {
  Parts parts;
  std::map<int, std::vector<RegistrationVector>> means;  // of each session
  double inverse_passes = 0.0;
  for (const auto& [key, sheet] : sheets) {
    const auto passes = static_cast<double>(sheet.both.size());
    means[std::get<0>(key)].push_back(mean_of(sheet.both));
    parts.front += scatter_of(sheet.front);
    parts.back += scatter_of(sheet.back);
    parts.pass_dof += passes - 1;
    inverse_passes += 1 / passes;
  }
  for (const auto& [session, of_session] : means) {
    parts.means += scatter_of(of_session);
    parts.means_dof += static_cast<double>(of_session.size()) - 1;
    parts.mean += mean_of(of_session) / static_cast<double>(means.size());
  }
  parts.sheets = static_cast<int>(sheets.size());
  parts.passes = parts.sheets / inverse_passes;
  if (parts.means_dof > 0) parts.means /= parts.means_dof;
  if (parts.pass_dof > 0) {
    parts.front /= parts.pass_dof;
    parts.back /= parts.pass_dof;
  }
  return parts;
}

/// In units in which the sum is the identity, so that mm and mrad count equally.
class Whitened {
 public:
  explicit Whitened(const RegistrationMatrix& sum) {
    for (int c = 0; c < 6; ++c) {
      if (sum(c, c) > 0) components_.push_back(c);
    }
    const Eigen::MatrixXd of_components = sum(components_, components_);
    const Eigensystem solved = eigensystem_of(of_components);
    const Eigen::VectorXd& values = solved.eigenvalues;
    const double least = 1e-9 * std::max(values.maxCoeff(), 0.0);
    Eigen::Index first = 0;
    while (first < values.size() && values[first] <= least) ++first;
    const Eigen::Index rank = values.size() - first;
    root_ = values.tail(rank).cwiseSqrt().cwiseInverse().asDiagonal() *
            solved.eigenvectors.rightCols(rank).transpose();
  }
  double components() const { return static_cast<double>(root_.rows()); }
  Eigen::MatrixXd of(const RegistrationMatrix& part) const {
    return root_ * part(components_, components_) * root_.transpose();
  }

 private:
  std::vector<int> components_;
  Eigen::MatrixXd root_;
};

/// The covariance of the means of sheets, with one sheet's worth of what sheets usually differ by.
/// Few means that lie close by luck would pass for sheets that do not differ, and be believed: the
/// promise fell to 0.81 where sheets differ by 0.3 of the variance (3 sheets, dx twice dy).
RegistrationMatrix with_usual_sheet(const Parts& parts) {
  constexpr double kUsual = 0.3;  // over the variance of both passes (from memory)
  const RegistrationMatrix usual = (1 / parts.passes + kUsual) * (parts.front + parts.back);
  return (parts.means_dof * parts.means + usual) / (parts.means_dof + 1);
}

double variance_weight(const Eigen::MatrixXd& a) { return (a * a).trace() + a.trace() * a.trace(); }

stats::Sample plain_sample(const std::map<SheetOfSession, PassesOfSheet>& sheets) {
  std::vector<RegistrationVector> feeds;
  for (const auto& [key, sheet] : sheets) feeds.push_back(sheet.both.front());
  Eigen::MatrixXd rows(static_cast<Eigen::Index>(feeds.size()), 6);
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    rows.row(i) = feeds[static_cast<std::size_t>(i)].transpose();
  }
  return stats::sample_of(rows);
}

/// Smallest chance of dx, dy and rotation, times three.
template <class Test>
double bonferroni(const RegistrationMatrix& varies, const Test& p_of) {
  double p = 1.0;
  for (int c = 0; c < 3; ++c) {
    if (varies(c, c) > 0) p = std::min(p, 3 * p_of(c));
  }
  return p;
}

/// Do sheets differ by more than their passes explain? F of the means over the passes.
double sheets_differ_p(const Parts& parts) {
  const RegistrationMatrix within = (parts.front + parts.back) / parts.passes;
  if (parts.means_dof < 1 || parts.pass_dof < 1) return 1.0;
  return bonferroni(within, [&](int c) {
    const double squares =
        parts.front(c, c) * parts.front(c, c) + parts.back(c, c) * parts.back(c, c);
    const double sum = parts.front(c, c) + parts.back(c, c);
    const double dof = parts.pass_dof * sum * sum / std::max(squares, 1e-30);
    return cdf(
        complement(boost::math::fisher_f(parts.means_dof, dof), parts.means(c, c) / within(c, c)));
  });
}

/// Does the place of a feed move with the number of its pass? Student's t of the slope.
double drift_p(const std::map<SheetOfSession, PassesOfSheet>& sheets) {
  RegistrationMatrix varies = RegistrationMatrix::Zero();
  RegistrationVector products = RegistrationVector::Zero();
  double squares = 0.0;
  double dof = -1.0;
  for (const auto& [key, sheet] : sheets) {
    const RegistrationVector mean = mean_of(sheet.both);
    double mean_pass = 0.0;
    for (const int pass : sheet.pass) mean_pass += pass / static_cast<double>(sheet.pass.size());
    for (std::size_t i = 0; i < sheet.both.size(); ++i) {
      const double t = sheet.pass[i] - mean_pass;
      products += t * (sheet.both[i] - mean);
      squares += t * t;
    }
    varies += scatter_of(sheet.both);
    dof += static_cast<double>(sheet.both.size()) - 1;
  }
  if (dof < 2 || squares <= 0) return 1.0;
  return bonferroni(varies, [&](int c) {
    const double explained = products[c] * products[c] / squares;
    const double left = std::max((varies(c, c) - explained) / dof, 1e-30);
    return 2 * cdf(complement(boost::math::students_t(dof), std::sqrt(explained / left)));
  });
}

}  // namespace

bool has_passes(std::span<const ProfileFeed> feeds) {
  return std::any_of(feeds.begin(), feeds.end(), [](const ProfileFeed& f) { return f.pass > 1; });
}

RegistrationVector seen_from_back(const Registration& r, TurnAxis axis) {
  const double x = axis == TurnAxis::vertical ? -1.0 : 1.0;
  RegistrationVector v = r.vec();
  v[0] *= x;
  v[1] *= -x;
  v[2] = -v[2];
  v[5] = -v[5];
  return v;
}

stats::Sample equivalent_sample(std::span<const ProfileFeed> feeds, TurnAxis axis,
                                const RegistrationMatrix& kept) {
  const auto sheets = by_sheet(feeds, axis, kept);
  const Parts parts = parts_of(sheets);
  if (parts.pass_dof < 1 || parts.means_dof < 1) return plain_sample(sheets);
  const double share = 1 - 1 / parts.passes;
  const RegistrationMatrix means = with_usual_sheet(parts);
  const RegistrationMatrix sum = means + share * (parts.front + parts.back);
  const Whitened whitened(sum);
  if (whitened.components() == 0) return plain_sample(sheets);
  const double p = whitened.components();
  const double uncertainty =
      variance_weight(whitened.of(means)) / parts.means_dof +
      share * share *
          (variance_weight(whitened.of(parts.front)) + variance_weight(whitened.of(parts.back))) /
          parts.pass_dof;
  const int feeds_used = static_cast<int>(std::lround(parts.pass_dof + parts.sheets));
  stats::Sample sample;
  sample.mean = parts.mean;
  sample.dof = std::clamp(static_cast<int>((p * p + p) / uncertainty), 1, feeds_used - 1);
  const double worth = parts.sheets * p / std::max(whitened.of(means).trace(), 1e-9);
  sample.n = std::clamp(static_cast<int>(worth), parts.sheets, feeds_used);
  sample.scatter = sum * sample.dof;
  return sample;
}

PassComponents pass_components(std::span<const ProfileFeed> feeds, TurnAxis axis,
                               const RegistrationMatrix& kept) {
  const auto sheets = by_sheet(feeds, axis, kept);
  const Parts parts = parts_of(sheets);
  expect(parts.pass_dof >= 1);
  PassComponents components;
  components.sheets = parts.sheets;
  components.passes = parts.passes;
  components.front_covariance = parts.front;
  components.back_covariance = parts.back;
  const Eigen::MatrixXd root =
      stats::root_of_difference(parts.means, (parts.front + parts.back) / parts.passes);
  components.sheet_covariance = root * root.transpose();
  components.sheets_differ_p = sheets_differ_p(parts);
  components.drift_p = drift_p(sheets);
  return components;
}

}  // namespace versolay
