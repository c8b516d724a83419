// The printer profile: what is known of the registration of one printer, set up one way.
#pragma once

#include <string>
#include <vector>

#include "versolay/paper.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

struct ProfileSession {
  std::string source;   // the readings file it came from (its name, without folders)
  std::string created;  // ISO 8601, UTC
  int n_feeds = 0;
};

/// A feed that was left out of the estimate, and why. Never silent.
struct ExcludedFeed {
  std::string source;
  int sheet = 0;
  std::string why;
};

/// A test that was made on the readings, in words and numbers.
struct ProfileTest {
  std::string name;  // "constant part (Hotelling T2)"
  double statistic = 0.0;
  double p_value = 1.0;
  std::string conclusion;  // one plain sentence
};

struct PrinterProfile {
  std::string printer;
  std::string feed;  // paper path and guides, the user's words
  std::string stock;
  std::string quality;
  Turn turn = Turn::long_edge;
  Paper paper;
  int n_feeds = 0;   // independent feeds used
  int n_sheets = 0;  // sheets read, excluded ones too
  std::vector<ProfileSession> sessions;
  Registration mean;                                                  // the constant part
  RegistrationMatrix mean_covariance = RegistrationMatrix::Zero();    // of the mean
  RegistrationMatrix spread_covariance = RegistrationMatrix::Zero();  // feed to feed, as observed,
                                                                      // measuring error included
  int spread_dof = 0;  // f: n - 1, or the sum of n_b - 1 over pooled sessions
  RegistrationMatrix measurement_covariance = RegistrationMatrix::Zero();  // of one reading
  bool constant_part_real = true;  // the test says that the mean is not zero
  std::vector<ProfileTest> tests;
  std::vector<ExcludedFeed> excluded;
  Notices warnings;
  std::string created;   // ISO 8601, UTC
  std::string software;  // "versolay 0.1.0"
};

}  // namespace versolay
