#include "core/json.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "core/files.h"
#include "core/findings.h"
#include "core/numbers.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr int kDeepest = 64;

std::string escaped(std::string_view key) {
  std::string text;
  for (char c : key) {
    if (c == '~') {
      text += "~0";
    } else if (c == '/') {
      text += "~1";
    } else {
      text += c;
    }
  }
  return text;
}

void require_finite(const Json& value, const std::string& pointer) {
  if (value.is_number_float() && !std::isfinite(value.get<double>())) {
    throw std::logic_error("a number that is not finite would be written at " + pointer);
  }
  if (value.is_object()) {
    for (const auto& [key, child] : value.items()) require_finite(child, pointer + "/" + key);
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      require_finite(value[i], pointer + "/" + std::to_string(i));
    }
  }
}

/// What is needed here instead of this file.
Finding another_kind_needed(const std::string& found, std::string_view kind, int newest) {
  const std::string needed = "versolay." + std::string(kind) + "/" + std::to_string(newest);
  const Term holds{found.starts_with("versolay.readings/")  ? "readings"
                   : found.starts_with("versolay.profile/") ? "profile"
                                                            : ""};
  if (kind == "profile") return findings::profile_needed(found, needed, holds);
  if (kind == "readings") return findings::readings_needed(found, needed, holds);
  if (kind == "target_geometry") return findings::geometry_needed(found, needed);
  return findings::other_file_needed(found, needed);
}

/// A PNG, JPEG or TIFF file, by its first bytes.
bool is_picture(std::string_view bytes) {
  using namespace std::string_view_literals;
  for (const std::string_view start :
       {"\x89PNG"sv, "\xFF\xD8\xFF"sv, "II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv}) {
    if (bytes.starts_with(start)) return true;
  }
  return false;
}

}  // namespace

bool JsonPlace::has(std::string_view key) const {
  return value_->is_object() && value_->contains(std::string(key));
}

JsonPlace JsonPlace::at(std::string_view key) const {
  if (!value_->is_object()) throw problem(findings::not_an_object());
  const auto found = value_->find(std::string(key));
  if (found == value_->end()) throw problem(findings::key_missing(std::string(key)));
  return {*found, file_, pointer_ + "/" + escaped(key)};
}

std::vector<JsonPlace> JsonPlace::items() const {
  if (!value_->is_array()) throw problem(findings::not_an_array());
  std::vector<JsonPlace> places;
  for (std::size_t i = 0; i < value_->size(); ++i) {
    places.emplace_back((*value_)[i], file_, pointer_ + "/" + std::to_string(i));
  }
  return places;
}

std::string JsonPlace::text() const {
  if (!value_->is_string()) throw problem(findings::not_a_text());
  return value_->get<std::string>();
}

bool JsonPlace::flag() const {
  if (!value_->is_boolean()) throw problem(findings::not_a_flag());
  return value_->get<bool>();
}

int JsonPlace::integer() const {
  const double value = number();
  if (value != std::floor(value) || std::abs(value) > 1e9)
    throw problem(findings::not_a_whole_number());
  return static_cast<int>(value);
}

double JsonPlace::number() const {
  if (!value_->is_number()) throw problem(findings::not_a_number());
  const double value = value_->get<double>();
  if (!std::isfinite(value)) throw problem(findings::not_finite());
  return value;
}

double JsonPlace::number_in(double low, double high) const {
  const double value = number();
  if (!(value >= low && value <= high)) {
    throw problem(findings::out_of_range(value, low, high));
  }
  return value;
}

std::string JsonPlace::text_or(std::string_view key, std::string_view otherwise) const {
  return has(key) ? at(key).text() : std::string(otherwise);
}

double JsonPlace::number_or(std::string_view key, double otherwise) const {
  return has(key) ? at(key).number() : otherwise;
}

Error JsonPlace::problem(Finding what) const { return Error(file_, pointer_, {std::move(what)}); }

Json parse_json(std::string_view text, const std::string& file) {
  std::vector<std::set<std::string>> keys_of_open_objects;
  const auto check = [&](int depth, Json::parse_event_t event, Json& parsed) {
    if (depth > kDeepest) throw Error(file, findings::nested_too_deeply());
    if (event == Json::parse_event_t::object_start) keys_of_open_objects.emplace_back();
    if (event == Json::parse_event_t::object_end) keys_of_open_objects.pop_back();
    if (event == Json::parse_event_t::key &&
        !keys_of_open_objects.back().insert(parsed.get<std::string>()).second) {
      throw Error(file, findings::key_twice(parsed.get<std::string>()));
    }
    return true;
  };
  try {
    return Json::parse(text, check);
  } catch (const Json::parse_error& e) {
    if (is_picture(text)) throw Error(file, findings::picture_instead_of_json());
    if (text.starts_with("%PDF-")) throw Error(file, findings::pdf_instead_of_json());
    throw Error(file, findings::not_json(static_cast<std::int64_t>(e.byte)));
  } catch (const Json::out_of_range& e) {  // a number such as 1e999; its text is in quotes
    const std::string what = e.what();
    const std::size_t quote = std::min(what.find('\''), what.size());
    throw Error(file, findings::number_too_large(what.substr(quote)));
  }
}

Json read_json(const std::filesystem::path& path) {
  return parse_json(read_file(path), path.string());
}

int require_schema(const JsonPlace& document, std::string_view kind, int newest) {
  const std::string prefix = "versolay." + std::string(kind) + "/";
  if (!document.has("schema")) {
    throw document.problem(another_kind_needed("", kind, newest));
  }
  const std::string schema = document.at("schema").text();
  if (!schema.starts_with(prefix)) {
    throw document.problem(another_kind_needed(schema, kind, newest));
  }
  const auto version = parse_integer(std::string_view(schema).substr(prefix.size()));
  if (!version || *version < 1) throw document.at("schema").problem(findings::no_schema_version());
  if (*version > newest) {
    throw document.at("schema").problem(findings::newer_schema(schema));
  }
  return *version;
}

std::string to_text(const Json& document) {
  require_finite(document, "");
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double result = std::round(value * scale) / scale;
  if (!std::isfinite(result)) return value;  // too large to have decimals
  return result == 0.0 ? 0.0 : result;
}

Json json_matrix(const Eigen::MatrixXd& m) {
  Json rows = Json::array();
  for (int r = 0; r < m.rows(); ++r) {
    Json row = Json::array();
    for (int c = 0; c < m.cols(); ++c) row.push_back(m(r, c));
    rows.push_back(std::move(row));
  }
  return rows;
}

Eigen::MatrixXd matrix_from(const JsonPlace& place, int rows, int columns) {
  const auto lines = place.items();
  if (static_cast<int>(lines.size()) != rows) {
    throw place.problem(findings::wrong_rows(rows));
  }
  Eigen::MatrixXd m(rows, columns);
  for (int r = 0; r < rows; ++r) {
    const auto values = lines[static_cast<std::size_t>(r)].items();
    if (static_cast<int>(values.size()) != columns) {
      throw lines[static_cast<std::size_t>(r)].problem(findings::wrong_columns(columns));
    }
    for (int c = 0; c < columns; ++c) m(r, c) = values[static_cast<std::size_t>(c)].number();
  }
  return m;
}

}  // namespace versolay
