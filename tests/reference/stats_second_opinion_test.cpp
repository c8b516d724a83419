// Random cases, computed here and by R and scipy. Skipped where these are not installed (Debian:
// r-base-core, python3-scipy).
#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "core/numbers.h"
#include "stats/anova.h"
#include "stats/hotelling.h"
#include "stats/monitoring.h"
#include "stats/normality.h"
#include "stats/proportion.h"
#include "stats/random.h"
#include "stats/tolerance.h"
#include "stats/two_sample.h"

namespace versolay::stats {
namespace {

/// Numbers that a script prints, one a line; empty when it failed.
std::vector<double> numbers_of(const std::string& interpreter, const std::string& script) {
  const std::string path = ::testing::TempDir() + "second_opinion_" + std::to_string(getpid());
  std::ofstream(path) << script;
  FILE* pipe = popen((interpreter + " " + path + " 2>/dev/null").c_str(), "r");
  std::vector<double> numbers;
  char line[256];
  while (pipe && std::fgets(line, sizeof line, pipe)) {
    std::string text(line);
    text.erase(text.find_last_not_of(" \n") + 1);
    const auto value = parse_number(text);
    numbers.push_back(value ? *value : 1e300);
  }
  if (!pipe || pclose(pipe) != 0) numbers.clear();
  std::remove(path.c_str());
  return numbers;
}

std::vector<double> ask_r(const std::string& script) {
  return numbers_of("Rscript --vanilla", "options(digits = 15)\n" + script);
}

/// The interpreter that Debian's python3-scipy belongs to.
constexpr char kPython[] = "/usr/bin/python3";

bool has_scipy() {
  return std::system((std::string(kPython) + " -c 'import scipy.stats' >/dev/null 2>&1").c_str()) ==
         0;
}

bool has_r() { return std::system("command -v Rscript >/dev/null 2>&1") == 0; }

#define NEEDS_R() \
  if (!has_r()) GTEST_SKIP() << "R is not installed: no second opinion (Debian: r-base-core)"

std::vector<double> some_values(int n, double sd, std::uint64_t seed) {
  Random random(seed);
  std::vector<double> values;
  for (int i = 0; i < n; ++i) values.push_back(0.3 + sd * random.normal());
  return values;
}

std::string r_vector(const std::vector<double>& values) {
  std::string text = "c(";
  for (std::size_t i = 0; i < values.size(); ++i) {
    text += (i > 0 ? ", " : "") + format_number(values[i], 15);
  }
  return text + ")";
}

Eigen::MatrixXd three_columns(int n, std::uint64_t seed) {
  Eigen::MatrixXd m(n, 3);
  for (int c = 0; c < 3; ++c) {
    const std::vector<double> v = some_values(n, 0.2 * (c + 1), seed + static_cast<unsigned>(c));
    for (int r = 0; r < n; ++r) m(r, c) = v[static_cast<std::size_t>(r)] + (c == 2 ? m(r, 0) : 0.0);
  }
  return m;
}

std::string r_matrix(const Eigen::MatrixXd& m) {
  return "matrix(" + r_vector({m.data(), m.data() + m.size()}) + ", " + std::to_string(m.rows()) +
         ")";
}

TEST(SecondOpinion, OnToleranceFactorsByNumericalIntegration) {
  NEEDS_R();
  std::string script =
      "k <- function(n, f, P, g) uniroot(function(k) integrate(function(z) sapply(z, function(z) {"
      " r2 <- qchisq(P, 1, z^2 / n); 2 * dnorm(z) * pchisq(f * r2 / k^2, f, lower.tail = FALSE) }),"
      " 0, 8, rel.tol = 1e-9)$value - g, c(1, 60), tol = 1e-9)$root\n";
  struct Case {
    int n, f;
    double coverage, confidence;
  };
  const std::vector<Case> cases = {
      {6, 5, .9, .9}, {7, 12, .97, .8}, {13, 12, .995, .95}, {4, 9, .95, .99}};
  for (const Case& c : cases) {
    script += "cat(k(" + std::to_string(c.n) + ", " + std::to_string(c.f) + ", " +
              format_number(c.coverage, 4) + ", " + format_number(c.confidence, 4) +
              "), \"\\n\")\n";
  }
  const std::vector<double> r = ask_r(script);
  ASSERT_EQ(r.size(), cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Case& c = cases[i];
    EXPECT_NEAR(two_sided_factor({double(c.n), double(c.f)}, c.coverage, c.confidence) / r[i], 1.0,
                1e-5);
  }
}

TEST(SecondOpinion, OnHotellingAndTwoSamples) {
  NEEDS_R();
  for (std::uint64_t seed : {11U, 22U}) {
    const Eigen::MatrixXd a = three_columns(9, seed);
    const Eigen::MatrixXd b = three_columns(7, seed + 5) * 1.3;
    const std::vector<double> r = ask_r("a <- " + r_matrix(a) + "; b <- " + r_matrix(b) + "\n" + R"(
n <- nrow(a); p <- 3; t2 <- n * t(colMeans(a)) %*% solve(cov(a)) %*% colMeans(a)
cat(t2, "\n"); cat(pf(t2 * (n - p) / (p * (n - 1)), p, n - p, lower.tail = FALSE), "\n")
A <- cov(a) / nrow(a); B <- cov(b) / nrow(b); S <- solve(A + B); d <- colMeans(a) - colMeans(b)
tr <- function(m) sum(diag(m)); q <- function(M, n) (tr(M %*% S %*% M %*% S) + tr(M %*% S)^2) / (n - 1)
nu <- (p + p^2) / (q(A, nrow(a)) + q(B, nrow(b))); T <- t(d) %*% S %*% d
cat(T, "\n"); cat(nu, "\n")
cat(t.test(b[, 1], a[, 1], conf.level = .95)$conf.int[1], "\n")
)");
    ASSERT_EQ(r.size(), 5U);
    const Sample sa = sample_of(a);
    const Sample sb = sample_of(b);
    const HotellingTest one = hotelling_one_sample({sa.mean, sa.covariance(), sa.n, sa.dof});
    EXPECT_NEAR(one.t2 / r[0], 1.0, 1e-8);
    EXPECT_NEAR(one.p_value, r[1], 1e-9);
    const TwoSampleT2 two = krishnamoorthy_yu(sa, sb);
    EXPECT_NEAR(two.t2 / r[2], 1.0, 1e-8);
    EXPECT_NEAR(two.nu / r[3], 1.0, 1e-8);
    EXPECT_NEAR(welch_difference(sa, sb, 0, .95).low, r[4], 1e-8);
  }
}

TEST(SecondOpinion, OnBrownForsytheAndNormality) {
  NEEDS_R();
  const std::vector<std::vector<double>> groups = {some_values(8, .2, 1), some_values(11, .5, 2),
                                                   some_values(6, .3, 3)};
  std::string script = "g <- list(" + r_vector(groups[0]) + ", " + r_vector(groups[1]) + ", " +
                       r_vector(groups[2]) + ")\n";
  script += R"(
y <- unlist(lapply(g, function(v) abs(v - median(v)))); f <- factor(rep(1:3, lengths(g)))
a <- anova(lm(y ~ f)); cat(a[1, 4], "\n"); cat(a[1, 5], "\n")
x <- sort(g[[2]]); n <- length(x); u <- pnorm((x - mean(x)) / sd(x))
cat(-n - mean((2 * 1:n - 1) * (log(u) + log(1 - rev(u)))), "\n")
)";
  const std::vector<double> r = ask_r(script);
  ASSERT_EQ(r.size(), 3U);
  const BrownForsythe test = brown_forsythe(groups);
  EXPECT_NEAR(test.f / r[0], 1.0, 1e-9);
  EXPECT_NEAR(test.p_value, r[1], 1e-9);
  EXPECT_NEAR(anderson_darling(groups[1]).a2, r[2], 1e-9);
}

TEST(SecondOpinion, OfScipyOnNormalityProportionsAndOneSidedFactors) {
  if (!has_scipy()) GTEST_SKIP() << "scipy is not installed (Debian: python3-scipy)";
  const std::vector<double> values = some_values(15, .4, 77);
  std::string list = r_vector(values).substr(1);
  list.front() = '[';
  list.back() = ']';
  const std::vector<double> scipy =
      numbers_of(kPython, "from scipy import stats\nimport math\nx = " + list + R"(
print(repr(float(stats.anderson(x).statistic)))
print(repr(float(stats.beta.ppf(.9, 3, 18))))
print(repr(float(stats.nct.ppf(.95, 11, stats.norm.ppf(.99) * math.sqrt(12)) / math.sqrt(12))))
n, p = 9, 3
print(repr(float(p * (n + 1) * (n - 1) / (n * (n - p)) * stats.f.ppf(.99, p, n - p))))
)");
  ASSERT_EQ(scipy.size(), 4U);
  EXPECT_NEAR(anderson_darling(values).a2, scipy[0], 1e-9);
  EXPECT_NEAR(clopper_pearson_upper(2, 20, .9), scipy[1], 1e-9);
  EXPECT_NEAR(one_sided_factor(12, .99, .95) / scipy[2], 1.0, 1e-7);
  EXPECT_NEAR(phase_two_limit({3, 9, 8}, .01) / scipy[3], 1.0, 1e-9);
}

}  // namespace
}  // namespace versolay::stats
