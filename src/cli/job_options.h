// The options that describe a job of cards to be judged by a profile: `advise` and `report`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <string>

#include "app/advise.h"

namespace versolay::cli {

struct JobOptions {
  std::string profile;
  std::string card;
  std::string grid = "auto";
  std::string gutter = "0";
  std::string ppi = "300";
  std::string coverage = "0.95";
  std::string confidence = "0.9";
  std::string count = "card";
  std::string grow = "equal";
  std::string cut_sd = "0";
  std::string step = "0";
  std::string border;
  int cards = 0;
  std::uint64_t seed = AdviceRequest{}.seed;
  bool no_rotation = false;
  bool no_scale = false;
  bool sharpen = false;
  std::string draws = "auto";
};

/// `options` must outlive the parser. What it holds already are the defaults; a command that needs
/// --card makes it required.
void add_job_options(CLI::App& parser, JobOptions& options);

/// Throws Error, naming the option, for a text that is no value of it.
AdviseRequest request_from(const JobOptions& options);

}  // namespace versolay::cli
