// What is wrong with an option, or with what was typed for it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "versolay/result.h"

namespace versolay::cli {

class BadOption : public Error {
 public:
  /// @param option  "--paper", or the name of an argument.
  BadOption(const std::string& option, Finding problem)
      : Error(option, std::move(problem)), option_(option) {}
  BadOption(const std::string& option, const std::string& typed, Finding problem)
      : Error(option + " " + typed, std::move(problem)), option_(option) {}
  BadOption(const std::string& option, const std::string& at, std::vector<Finding> problems)
      : Error(option, at, std::move(problems)), option_(option) {}

  const std::string& option() const { return option_; }

 private:
  std::string option_;
};

}  // namespace versolay::cli
