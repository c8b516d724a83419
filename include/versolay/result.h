// Outcomes: a value, a refusal with a reason, or an exception for a broken environment.
//
//   normal negative outcome (mark missing, too few sheets)  -> Refusal inside a Result    exit 1
//   environment (I/O, malformed file, bad option)           -> Error, thrown              exit 2
//   partial success                                         -> value plus Notices         exit 3
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "versolay/finding.h"

namespace versolay {

/// A remark for the user that does not stop the work.
using Notice = Finding;
using Notices = std::vector<Notice>;

/// Why there is no value: the answer is "no", or the data do not allow an answer.
using Refusal = Finding;

/// A value of T or a Refusal. value() on a refusal is a programming error and throws
/// std::bad_variant_access.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::move(value)) {}            // NOLINT: implicit by design
  Result(Refusal refusal) : state_(std::move(refusal)) {}  // NOLINT: implicit by design

  bool ok() const { return std::holds_alternative<T>(state_); }
  explicit operator bool() const { return ok(); }
  const T& value() const& { return std::get<T>(state_); }
  T& value() & { return std::get<T>(state_); }
  T&& value() && { return std::get<T>(std::move(state_)); }
  const Refusal& refusal() const { return std::get<Refusal>(state_); }

 private:
  std::variant<T, Refusal> state_;
};

/// The environment is at fault: unreadable or malformed input, bad option, failed write.
/// `where` names the file (and the place in it, when there is one), `problem` what is wrong and
/// what to do; what() holds both.
class Error : public std::runtime_error {
 public:
  Error(std::string where, const std::string& problem)
      : std::runtime_error(where.empty() ? problem : where + ": " + problem),
        where_(std::move(where)),
        problem_(problem) {}
  const std::string& where() const { return where_; }
  const std::string& problem() const { return problem_; }

 private:
  std::string where_;
  std::string problem_;
};

}  // namespace versolay
