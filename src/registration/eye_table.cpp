#include "registration/eye_table.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/csv.h"
#include "core/numbers.h"
#include "core/translation.h"
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
constexpr std::size_t kMostProblemsTold = 8;

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

// No commas or semicolons in these lines: they are to stay in one cell.
std::vector<std::string> guidance(EyeMethod method) {
  switch (method) {
    case EyeMethod::holes:
      return {
          tr("# Print both sides. Let them dry. Prick the discs as the sheet says."),
          tr("# Then read where the middle of each hole lies in its net of lines (0.5 mm apart)."),
          tr("# Hold each side upright with its arrow to the top. A magnifying glass helps."),
          tr("# Write the number that is printed at the lines: 13.2 is two tenths right of line "
             "13."),
          tr("# Every side and direction has its own numbers: the middle lines are"),
          tr("# 13 (front across) and 23 (front down) and 33 (back across) and 43 (back down)."),
          tr("# P1 is the hole beside which 1 is printed on both sides. Leave empty what you "
             "cannot read."),
          tr("# Caution: prick into thick card on the table and never towards a hand."),
      };
    case EyeMethod::verniers:
      return {
          tr("# Print both sides. Let them dry. No holes are needed."),
          tr("# Hold the sheet against a bright window or a lamp with its BACK towards you"),
          tr("# and its arrow to the top. The lines of the front shine through."),
          tr("# Whole number: the numbered line of the front at or just before line 0 of the back"),
          tr("# (before is left of it at a scale that runs across and above it at one that runs "
             "down)."),
          tr("# Tenth: that line of the back that runs on straight in a line of the front."),
          tr("# Line 3 and line 4 of the back: 3.4. Leave empty what you cannot read."),
          tr("# Caution: do not look into the sun or a bare lamp. Keep paper off hot lamps."),
      };
    case EyeMethod::values:
      return {
          tr("# How far the back landed from the front as you look at the BACK with its top up."),
          // Translators: keep left, right, up, down, clockwise, anticlockwise. They are read back.
          tr("# Write the direction as a word: 0.42 left or 0.1 right and 0.2 up or 0.3 down."),
          // Translators: keep clockwise and anticlockwise. They are read back.
          tr("# Turned: degrees about the middle of the page: 0.05 clockwise or 0.05 "
             "anticlockwise."),
          tr("# Known to: how far off your value may be in mm. Empty: 0.1 mm."),
      };
  }
  return {};
}

std::string range_words(const Column& column) {
  return tr("{} to {}", format_number(column.least, 1), format_number(column.most, 1));
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
      throw Error(file_, tr("has no line of titles that begins with \"sheet\". Make a table with "
                            "versolay readings --template and fill that in"));
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
      throw Error(
          tr("{}, row {}", file_, row.line),
          tr("these are not the titles of a table of readings. Keep the rows of the template up to "
             "its titles as they are; cells are parted by commas, semicolons or tabs"));
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
      throw Error(file_, tr("does not say the {0} of the target. Name it with --{0}, or keep the "
                            "line \"{0}\" of the template",
                            name));
    }
    const auto value = parse(said->second);
    if (!value) throw Error(file_, tr("{} {}: is not understood", name, said->second));
    if (given && !(*given == *value)) {
      throw Error(file_, tr("is for {} {}, other than --{} says", name, said->second, name));
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
      problem(csv.line, tr("has more cells than titles. Where numbers have a decimal comma, cells "
                           "must be parted by semicolons"));
      return;
    }
    EyeRow row;
    row.line = csv.line;
    const auto sheet = parse_integer(trimmed(csv.cells[0]));
    if (!sheet || *sheet < 1 || *sheet > kMostSheet) {
      problem(csv.line, tr("must begin with the number of the sheet"));
      return;
    }
    row.sheet = *sheet;
    if (first == 2) {
      row.place = csv.cells.size() > 1 ? trimmed(csv.cells[1]) : "";
      for (char& c : row.place) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    if (!places_.contains(row.place)) {
      problem(csv.line,
              tr("the target has no {} \"{}\": they are {} to {}", place_title(table_.method),
                 row.place, *places_.begin(), *places_.rbegin()));
      return;
    }
    if (!seen_.emplace(row.sheet, row.place).second) {
      problem(csv.line, tr("sheet {}{} stands in the table twice", row.sheet,
                           row.place.empty() ? "" : ", " + row.place));
      return;
    }
    bool good = true;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const std::string cell =
          first + i < csv.cells.size() ? trimmed(csv.cells[first + i]) : std::string();
      if (cell.empty()) continue;
      const auto number = written_number(cell);
      if (!number) {
        problem(csv.line, tr("{}: \"{}\" is not a number", columns_[i].title, cell));
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
    std::string what = tr("{}: {} is not on this scale, whose numbers are {}", limits.title,
                          format_number(number, 3), range_words(limits));
    for (const Column& other : columns_) {
      if (table_.method == EyeMethod::holes && number >= other.least && number <= other.most) {
        what += tr(". It is a number of \"{}\": were two cells swapped?", other.title);
      }
    }
    problem(line, what);
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

  void problem(int line, const std::string& what) {
    problems_.push_back(tr("row {}: {}", line, what));
  }

  void tell_problems() const {
    if (problems_.empty()) return;
    std::string all = problems_.front();
    for (std::size_t i = 1; i < std::min(problems_.size(), kMostProblemsTold); ++i) {
      all += "\n  " + problems_[i];
    }
    if (problems_.size() > kMostProblemsTold) {
      all += tr("\n  and {} more", problems_.size() - kMostProblemsTold);
    }
    throw Error(file_, all);
  }

  std::string file_;
  EyeTarget given_;
  std::map<std::string, std::string> settings_;
  std::vector<Column> columns_;
  TargetGeometry geometry_;
  std::set<std::string> places_;
  std::set<std::pair<int, std::string>> seen_;
  std::vector<std::string> problems_;
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
                               char separator) {
  const TargetGeometry geometry = target_geometry(paper, turn);
  std::string text;
  const auto line = [&](const std::vector<std::string>& cells) {
    text += csv_line(cells, separator) + "\r\n";
  };
  for (const std::string& words : guidance(method)) line({words});
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
