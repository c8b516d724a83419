// JSON in and out: strict reading with a message that names the place, one way of writing.
#pragma once

#include <Eigen/Core>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "versolay/result.h"

namespace versolay {

using Json = nlohmann::ordered_json;  // keys stay in the order in which they were written

/// A value inside a JSON file, with the path that leads to it. Every accessor throws Error with
/// the file and the JSON Pointer (RFC 6901) of the place when the value is not what was asked for.
class JsonPlace {
 public:
  JsonPlace(const Json& value, std::string file, std::string pointer = "")
      : value_(&value), file_(std::move(file)), pointer_(std::move(pointer)) {}

  bool has(std::string_view key) const;
  JsonPlace at(std::string_view key) const;
  std::vector<JsonPlace> items() const;  // of an array

  std::string text() const;
  bool flag() const;
  int integer() const;
  double number() const;                            // finite
  double number_in(double low, double high) const;  // low <= value <= high

  std::string text_or(std::string_view key, std::string_view otherwise) const;
  double number_or(std::string_view key, double otherwise) const;

  Error problem(Finding what) const;
  const Json& raw() const { return *value_; }

 private:
  const Json* value_;
  std::string file_;
  std::string pointer_;
};

/// Parses a JSON document. Throws Error on bad syntax, a duplicate key in an object, or nesting
/// deeper than 64.
Json parse_json(std::string_view text, const std::string& file);
Json read_json(const std::filesystem::path& path);

/// Checks `schema` of a document: "versolay.<kind>/<version>", version 1..newest.
/// Returns the version. Throws Error for another kind or an unknown newer version.
int require_schema(const JsonPlace& document, std::string_view kind, int newest);

/// Two-space indented text with a final newline. Precondition: no NaN, no infinity (throws
/// std::logic_error, because a file with a null for a number must never be written).
std::string to_text(const Json& document);

/// Numbers of a file are rounded to `decimals`, so that the same result is the same text.
double rounded(double value, int decimals);

Json json_matrix(const Eigen::MatrixXd& m);
Eigen::MatrixXd matrix_from(const JsonPlace& place, int rows, int columns);

}  // namespace versolay
