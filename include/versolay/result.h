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

/// The environment is at fault: unreadable or malformed input, a bad field of a request, a failed
/// write. what() is for developers; a person gets words::say(error).
class Error : public std::runtime_error {
 public:
  /// @param where  the file, or the field of a request ("cut_sd_mm"); may be empty.
  Error(std::string where, Finding problem) : Error(std::move(where), "", {std::move(problem)}) {}
  /// @param at  the place in the file: a JSON Pointer (RFC 6901); may be empty.
  Error(std::string where, std::string at, std::vector<Finding> problems);
  /// Several files are at fault, each in its own way.
  explicit Error(std::vector<Error> parts);

  const std::string& where() const { return where_; }
  const std::string& at() const { return at_; }
  /// One or more, or none where there are parts.
  const std::vector<Finding>& problems() const { return problems_; }
  /// The errors that this one is made of; most have none.
  const std::vector<Error>& parts() const { return parts_; }

 private:
  std::string where_;
  std::string at_;
  std::vector<Finding> problems_;
  std::vector<Error> parts_;
};

/// A field of a request is out of its range, or contradicts another: where() is its name
/// ("cut_sd_mm").
class BadField : public Error {
 public:
  using Error::Error;
};

}  // namespace versolay
