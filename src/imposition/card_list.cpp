#include "imposition/card_list.h"

#include <algorithm>
#include <map>

#include "core/csv.h"
#include "core/files.h"
#include "core/numbers.h"
#include "imposition/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

namespace fs = std::filesystem;

constexpr int kMostCopies = 1000;
constexpr int kMostCards = 10000;

/// Spreadsheets write as many cells in every row as the widest has.
std::size_t used_cells(const CsvRow& row) {
  std::size_t used = row.cells.size();
  while (used > 0 && row.cells[used - 1].empty()) --used;
  return used;
}

class ListReader {
 public:
  explicit ListReader(const fs::path& path) : path_(path) {}

  std::vector<ListedCard> read() {
    const std::string text = read_file(path_);
    if (!is_text(text)) {
      throw Error(path_.string(), findings::neither_art_nor_list());
    }
    std::vector<ListedCard> cards;
    for (const CsvRow& row : parse_csv(text, path_.string())) {
      if (row.cells[0].starts_with("#")) continue;
      if (columns_.empty()) {
        name_columns(row);
      } else {
        add(cards, row);
      }
    }
    tell_faults();
    if (cards.empty()) throw Error(path_.string(), findings::list_is_empty());
    return cards;
  }

 private:
  void name_columns(const CsvRow& row) {
    for (std::size_t i = 0; i < used_cells(row); ++i) {
      const std::string& name = row.cells[i];
      constexpr std::string_view kNames[] = {"card", "quantity", "front", "back", "note"};
      if (std::find(std::begin(kNames), std::end(kNames), name) == std::end(kNames)) {
        throw Error(path_.string(), findings::unknown_column(row.text_line, name));
      }
      if (!columns_.try_emplace(name, i).second) {
        throw Error(path_.string(), findings::column_twice(row.text_line, name));
      }
    }
    if (!columns_.contains("front")) {
      throw Error(path_.string(), findings::no_column_front(row.text_line));
    }
  }

  std::string field(const CsvRow& row, const std::string& name) const {
    const auto column = columns_.find(name);
    return column != columns_.end() && column->second < row.cells.size() ? row.cells[column->second]
                                                                         : std::string();
  }

  void add(std::vector<ListedCard>& cards, const CsvRow& row) {
    if (used_cells(row) > columns_.size()) {
      faults_.push_back(findings::too_many_fields(row.text_line,
                                                  static_cast<std::int64_t>(used_cells(row)),
                                                  static_cast<std::int64_t>(columns_.size())));
      return;
    }
    const std::string quantity = field(row, "quantity");
    const auto count = quantity.empty() ? std::optional(1) : parse_integer(quantity);
    if (!count || *count < 0 || *count > kMostCopies) {
      faults_.push_back(findings::not_a_quantity(row.text_line, quantity, kMostCopies));
      return;
    }
    if (field(row, "front").empty()) {
      faults_.push_back(findings::line_without_front(row.text_line));
      return;
    }
    copies_ += *count;
    if (copies_ > kMostCards) {
      faults_.push_back(findings::too_many_cards(row.text_line, kMostCards));
      return;
    }
    ListedCard card;
    card.line = row.text_line;
    card.quantity = *count;
    card.front = found(row, "front");
    if (!field(row, "back").empty()) card.back = found(row, "back");
    card.note = field(row, "note");
    card.name = field(row, "card");
    if (card.name.empty()) card.name = card.front.path.stem().string();
    cards.push_back(std::move(card));
  }

  ArtFile found(const CsvRow& row, const std::string& column) {
    const ArtFile file = named_art(path_.parent_path() / field(row, column));
    std::error_code ignored;
    if (!fs::is_regular_file(file.path, ignored)) {
      faults_.push_back(findings::listed_file_missing(row.text_line, column, field(row, column),
                                                      file.path.string()));
    }
    return file;
  }

  void tell_faults() const {
    if (!faults_.empty()) throw Error(path_.string(), "", faults_);
  }

  fs::path path_;
  std::map<std::string, std::size_t> columns_;
  std::vector<Finding> faults_;
  int copies_ = 0;
};

}  // namespace

ArtFile named_art(const fs::path& path) {
  const std::string text = path.string();
  const std::size_t sign = text.rfind('#');
  std::error_code ignored;
  if (sign == std::string::npos || fs::exists(path, ignored)) return {path, 0};
  const auto page = parse_integer(text.substr(sign + 1));
  if (!page || *page < 1) return {path, 0};
  return {text.substr(0, sign), *page};
}

std::vector<ListedCard> read_card_list(const fs::path& path) { return ListReader(path).read(); }

}  // namespace versolay
