#include "app/card_list.h"

#include <algorithm>
#include <map>

#include "core/files.h"
#include "core/numbers.h"
#include "core/translation.h"
#include "versolay/result.h"

namespace versolay {
namespace {

namespace fs = std::filesystem;

constexpr int kMostCopies = 1000;
constexpr std::size_t kMostFaultsTold = 5;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(kBlank) - first + 1));
}

struct Record {
  int line = 0;  // where it begins, from 1
  std::vector<std::string> fields;
  bool open_quote = false;  // the text ended inside quotes
};

/// Splits the text into records; quoted fields may hold separators and line ends.
class Records {
 public:
  Records(std::string_view text, char separator) : text_(text), separator_(separator) {}

  bool next(Record& record) {
    if (at_ >= text_.size()) return false;
    record = {line_, {}, false};
    while (field(record)) {
    }
    return true;
  }

 private:
  /// Reads one field; false when it was the last of its record.
  bool field(Record& record) {
    std::string value;
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\r')) ++at_;
    const bool quoted = at_ < text_.size() && text_[at_] == '"';
    if (quoted) record.open_quote = !quoted_value(value);
    const std::size_t start = at_;
    while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\n') ++at_;
    value += trimmed(text_.substr(start, at_ - start));
    record.fields.push_back(std::move(value));
    if (at_ >= text_.size()) return false;
    const bool more = text_[at_++] == separator_;
    if (!more) ++line_;
    return more;
  }

  bool quoted_value(std::string& value) {
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '\n') ++line_;
      if (text_[at_] == '"') {
        if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') {
          ++at_;
          return true;
        }
        ++at_;
      }
      value += text_[at_];
    }
    return false;
  }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
};

/// Semicolons are what spreadsheets write where the comma is the decimal sign.
char separator_of(std::string_view text) {
  while (!text.empty() && (text[0] == '#' || text[0] == '\n' || text[0] == '\r')) {
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  const std::string_view first = text.substr(0, text.find('\n'));
  for (const char separator : {';', '\t'}) {
    if (first.find(separator) != std::string_view::npos) return separator;
  }
  return ',';
}

/// "cards.pdf#3" unless a file of just that name is there.
ArtFile art_file(const fs::path& folder, const std::string& text) {
  const fs::path whole = folder / text;
  const std::size_t sign = text.rfind('#');
  std::error_code ignored;
  if (sign == std::string::npos || fs::exists(whole, ignored)) return {whole, 0};
  const auto page = parse_integer(text.substr(sign + 1));
  if (!page || *page < 1) return {whole, 0};
  return {folder / text.substr(0, sign), *page};
}

class ListReader {
 public:
  explicit ListReader(const fs::path& path) : path_(path), bytes_(read_file(path)) {}

  std::vector<ListedCard> read() {
    std::string_view text = bytes_;
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    Records records(text, separator_of(text));
    std::vector<ListedCard> cards;
    for (Record record; records.next(record);) {
      if (record.open_quote)
        throw Error(where(record.line), tr("opens a quotation that never ends"));
      const bool empty = std::all_of(record.fields.begin(), record.fields.end(),
                                     [](const std::string& f) { return f.empty(); });
      if (empty || record.fields[0].starts_with("#")) continue;
      if (columns_.empty()) {
        name_columns(record);
      } else {
        add(cards, record);
      }
    }
    tell_faults();
    if (cards.empty()) throw Error(path_.string(), tr("lists no cards"));
    return cards;
  }

 private:
  std::string where(int line) const { return tr("{} line {}", path_.string(), line); }

  void name_columns(const Record& record) {
    for (std::size_t i = 0; i < record.fields.size(); ++i) {
      const std::string& name = record.fields[i];
      constexpr std::string_view kNames[] = {"card", "quantity", "front", "back", "note"};
      if (std::find(std::begin(kNames), std::end(kNames), name) == std::end(kNames)) {
        throw Error(where(record.line),
                    tr("names a column \"{}\". The first line of a list of cards names its "
                       "columns: front, and if wanted card, quantity, back and note",
                       name));
      }
      if (!columns_.try_emplace(name, i).second) {
        throw Error(where(record.line), tr("names the column {} twice", name));
      }
    }
    if (!columns_.contains("front")) throw Error(where(record.line), tr("has no column front"));
  }

  std::string field(const Record& record, const std::string& name) const {
    const auto column = columns_.find(name);
    return column != columns_.end() && column->second < record.fields.size()
               ? record.fields[column->second]
               : std::string();
  }

  void add(std::vector<ListedCard>& cards, const Record& record) {
    if (record.fields.size() > columns_.size()) {
      fault(record, tr("has {} fields, the first line names {} (a field that holds the separator "
                       "must stand in double quotes)",
                       record.fields.size(), columns_.size()));
      return;
    }
    const std::string quantity = field(record, "quantity");
    const auto count = quantity.empty() ? std::optional(1) : parse_integer(quantity);
    if (!count || *count < 0 || *count > kMostCopies) {
      fault(record,
            tr("quantity is \"{}\", must be a whole number from 0 to {}", quantity, kMostCopies));
      return;
    }
    if (field(record, "front").empty()) {
      fault(record, tr("names no front"));
      return;
    }
    ListedCard card;
    card.where = where(record.line);
    card.quantity = *count;
    card.front = found(record, "front");
    if (!field(record, "back").empty()) card.back = found(record, "back");
    card.note = field(record, "note");
    card.name = field(record, "card");
    if (card.name.empty()) card.name = card.front.path.stem().string();
    cards.push_back(std::move(card));
  }

  ArtFile found(const Record& record, const std::string& column) {
    const ArtFile file = art_file(path_.parent_path(), field(record, column));
    std::error_code ignored;
    if (!fs::is_regular_file(file.path, ignored)) {
      fault(record, tr("{} \"{}\" does not exist (looked for {})", column, field(record, column),
                       file.path.string()));
    }
    return file;
  }

  void fault(const Record& record, const std::string& what) {
    faults_.push_back(tr("line {}: {}", record.line, what));
  }

  void tell_faults() const {
    if (faults_.empty()) return;
    std::string all;
    for (std::size_t i = 0; i < std::min(faults_.size(), kMostFaultsTold); ++i) {
      all += (i == 0 ? "" : "; ") + faults_[i];
    }
    if (faults_.size() > kMostFaultsTold) {
      all += tr("; and {} more", faults_.size() - kMostFaultsTold);
    }
    throw Error(path_.string(), all);
  }

  fs::path path_;
  std::string bytes_;
  std::map<std::string, std::size_t> columns_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<ListedCard> read_card_list(const fs::path& path) { return ListReader(path).read(); }

}  // namespace versolay
