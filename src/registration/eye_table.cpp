#include "registration/eye_table.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/csv.h"
#include "core/numbers.h"
#include "registration/findings.h"
#include "registration/written_number.h"
#include "target/eye_scales.h"
#include "target/geometry.h"

namespace versolay {
namespace {

constexpr double kBeyondTheLinesMm = 0.6;  // a hole may lie a little outside the net
constexpr double kMostMm = 20.0;
constexpr double kMostDegrees = 5.0;
constexpr int kMostSheet = 999;

struct Column {
  const char* title;
  double least;
  double most;
};

std::vector<Column> columns_of(EyeMethod method) {
  const auto net = [](const char* title, Side side, ScaleAxis axis) {
    const double reach = kGraticuleReachMm + kBeyondTheLinesMm;
    const double middle = graticule_middle(side, axis);
    return Column{title, middle - reach, middle + reach};
  };
  switch (method) {
    case EyeMethod::holes:
      return {net("front across", Side::recto, ScaleAxis::across),
              net("front down", Side::recto, ScaleAxis::down),
              net("back across", Side::verso, ScaleAxis::across),
              net("back down", Side::verso, ScaleAxis::down)};
    case EyeMethod::verniers:
      return {{"reading", 0.0, 10.0}};  // the limits depend on the scale
    case EyeMethod::values:
      return {{"left or right mm", -kMostMm, kMostMm},
              {"up or down mm", -kMostMm, kMostMm},
              {"turned degrees", -kMostDegrees, kMostDegrees},
              {"known to mm", 0.0, kMostMm}};
  }
  return {};
}

const char* place_title(EyeMethod method) { return method == EyeMethod::holes ? "hole" : "scale"; }

std::vector<std::string> titles_of(EyeMethod method) {
  std::vector<std::string> titles = {"sheet"};
  if (method != EyeMethod::values) titles.emplace_back(place_title(method));
  for (const Column& column : columns_of(method)) titles.emplace_back(column.title);
  return titles;
}

std::vector<std::string> places_of(EyeMethod method, const TargetGeometry& geometry) {
  std::vector<std::string> places;
  if (method == EyeMethod::holes) {
    for (const HolePlace& hole : geometry.holes) {
      if (hole.kind == HoleKind::prick) places.push_back(hole.id);
    }
  } else if (method == EyeMethod::verniers) {
    for (const VernierPlace& vernier : geometry.verniers) places.push_back(vernier.id);
  } else {
    places.emplace_back();
  }
  return places;
}

class Reader {
 public:
  Reader(std::string file, const EyeTarget& given) : file_(std::move(file)), given_(given) {}

  EyeTable read(std::string_view text) {
    for (const CsvRow& row : parse_csv(text, file_)) {
      if (row.cells.front().starts_with('#')) continue;
      const std::string first = lower_case(trimmed(row.cells.front()));
      if (columns_.empty() && (first == "paper" || first == "turn" || first == "table")) {
        settings_[first] = row.cells.size() > 1 ? lower_case(trimmed(row.cells[1])) : "";
      } else if (columns_.empty()) {
        head(row);
      } else {
        body(row);
      }
    }
    if (columns_.empty()) {
      throw Error(file_, findings::no_titles());
    }
    tell_problems();
    return std::move(table_);
  }

 private:
  void head(const CsvRow& row) {
    const auto same = [&](const std::vector<std::string>& titles) {
      for (std::size_t i = 0; i < std::max(titles.size(), row.cells.size()); ++i) {
        const std::string found = i < row.cells.size() ? lower_case(trimmed(row.cells[i])) : "";
        if (found != (i < titles.size() ? titles[i] : "")) return false;
      }
      return true;
    };
    bool known = false;
    for (const EyeMethod method : {EyeMethod::holes, EyeMethod::verniers, EyeMethod::values}) {
      if (!same(titles_of(method))) continue;
      table_.method = method;
      known = true;
    }
    if (!known) {
      throw Error(file_, findings::unknown_titles(row.line));
    }
    columns_ = columns_of(table_.method);
    table_.paper = setting<Paper>(
        "paper", given_.paper, [](const std::string& t) { return std::optional(parse_paper(t)); });
    table_.turn =
        setting<Turn>("turn", given_.turn, [](const std::string& t) { return turn_from(t); });
    geometry_ = target_geometry(table_.paper, table_.turn);
    for (const std::string& place : places_of(table_.method, geometry_)) places_.insert(place);
  }

  /// What the table says, or else what was given beside it; both, when they agree.
  template <class T, class Parse>
  T setting(const std::string& name, const std::optional<T>& given, const Parse& parse) {
    const auto said = settings_.find(name);
    if (said == settings_.end() || said->second.empty()) {
      if (given) return *given;
      throw Error(file_, findings::table_setting_missing(name));
    }
    const auto value = parse(said->second);
    if (!value) throw Error(file_, findings::table_setting_unknown(name, said->second));
    if (given && !(*given == *value)) {
      throw Error(file_, findings::table_setting_differs(name, said->second));
    }
    return *value;
  }

  void body(const CsvRow& csv) {
    const std::size_t first = table_.method == EyeMethod::values ? 1 : 2;
    const bool any = std::any_of(
        csv.cells.begin() + static_cast<std::ptrdiff_t>(std::min(first, csv.cells.size())),
        csv.cells.end(), [](const std::string& c) { return !trimmed(c).empty(); });
    if (!any) return;  // not filled in
    if (csv.cells.size() > first + columns_.size() &&
        std::any_of(csv.cells.begin() + static_cast<std::ptrdiff_t>(first + columns_.size()),
                    csv.cells.end(), [](const std::string& c) { return !trimmed(c).empty(); })) {
      problems_.push_back(findings::row_too_long(csv.line));
      return;
    }
    EyeRow row;
    row.line = csv.line;
    const auto sheet = parse_integer(trimmed(csv.cells[0]));
    if (!sheet || *sheet < 1 || *sheet > kMostSheet) {
      problems_.push_back(findings::row_without_sheet(csv.line));
      return;
    }
    row.sheet = *sheet;
    if (first == 2) {
      row.place = csv.cells.size() > 1 ? trimmed(csv.cells[1]) : "";
      for (char& c : row.place) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    if (!places_.contains(row.place)) {
      problems_.push_back(findings::row_place_unknown(csv.line, Term{place_title(table_.method)},
                                                      row.place, *places_.begin(),
                                                      *places_.rbegin()));
      return;
    }
    if (!seen_.emplace(row.sheet, row.place).second) {
      problems_.push_back(findings::row_twice(csv.line, row.sheet, row.place));
      return;
    }
    bool good = true;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const std::string cell =
          first + i < csv.cells.size() ? trimmed(csv.cells[first + i]) : std::string();
      if (cell.empty()) continue;
      const auto number = written_number(cell);
      if (!number) {
        problems_.push_back(findings::cell_not_a_number(csv.line, columns_[i].title, cell));
        good = false;
      } else {
        good = fits(csv.line, row.place, i, *number) && good;
        row.numbers[i] = number;
      }
    }
    if (good && complete(row)) table_.rows.push_back(row);
  }

  Column limits_of(std::size_t column, const std::string& place) const {
    if (table_.method != EyeMethod::verniers) return columns_[column];
    for (const VernierPlace& vernier : geometry_.verniers) {
      if (vernier.id != place) continue;
      const double middle = vernier_middle(vernier.axis);
      return {columns_[column].title, middle - kVernierReach, middle + kVernierReach + 1};
    }
    return columns_[column];
  }

  bool fits(int line, const std::string& place, std::size_t column, double number) {
    const Column limits = limits_of(column, place);
    if (number >= limits.least && number <= limits.most) return true;
    for (const Column& other : columns_) {
      if (table_.method == EyeMethod::holes && number >= other.least && number <= other.most) {
        problems_.push_back(findings::number_of_another_column(
            line, limits.title, number, limits.least, limits.most, other.title));
        return false;
      }
    }
    problems_.push_back(
        findings::number_off_the_scale(line, limits.title, number, limits.least, limits.most));
    return false;
  }

  /// A hole says nothing unless it was read both ways on both sides.
  bool complete(const EyeRow& row) {
    const std::size_t needed = table_.method == EyeMethod::holes    ? 4
                               : table_.method == EyeMethod::values ? 2
                                                                    : 1;
    const auto filled = std::count_if(row.numbers.begin(),
                                      row.numbers.begin() + static_cast<std::ptrdiff_t>(needed),
                                      [](const auto& n) { return n.has_value(); });
    if (filled == static_cast<std::ptrdiff_t>(needed)) return true;
    table_.notices.push_back(findings::row_incomplete(row.line, row.sheet, row.place));
    return false;
  }

  void tell_problems() const {
    if (!problems_.empty()) throw Error(file_, "", problems_);
  }

  std::string file_;
  EyeTarget given_;
  std::map<std::string, std::string> settings_;
  std::vector<Column> columns_;
  TargetGeometry geometry_;
  std::set<std::string> places_;
  std::set<std::pair<int, std::string>> seen_;
  std::vector<Finding> problems_;
  EyeTable table_;
};

}  // namespace

std::string_view to_string(EyeMethod method) {
  switch (method) {
    case EyeMethod::holes:
      return "holes";
    case EyeMethod::verniers:
      return "verniers";
    case EyeMethod::values:
      return "values";
  }
  return "";
}

std::optional<EyeMethod> eye_method_from(std::string_view text) {
  for (const EyeMethod method : {EyeMethod::holes, EyeMethod::verniers, EyeMethod::values}) {
    if (text == to_string(method)) return method;
  }
  return std::nullopt;
}

std::string eye_table_template(EyeMethod method, const Paper& paper, Turn turn, int sheets,
                               char separator, const std::vector<std::string>& notes) {
  const TargetGeometry geometry = target_geometry(paper, turn);
  std::string text;
  const auto line = [&](const std::vector<std::string>& cells) {
    text += csv_line(cells, separator) + "\r\n";
  };
  for (const std::string& note : notes) line({"# " + note});
  line({"paper", paper.name});
  line({"turn", std::string(to_string(turn))});
  line({"table", std::string(to_string(method))});
  line(titles_of(method));
  const std::size_t empty_cells = columns_of(method).size();
  for (int sheet = 1; sheet <= sheets; ++sheet) {
    for (const std::string& place : places_of(method, geometry)) {
      std::vector<std::string> cells = {std::to_string(sheet)};
      if (!place.empty()) cells.push_back(place);
      cells.resize(cells.size() + empty_cells);
      line(cells);
    }
  }
  return text;
}

EyeTable read_eye_table(std::string_view text, const std::string& file, const EyeTarget& given) {
  return Reader(file, given).read(text);
}

}  // namespace versolay
