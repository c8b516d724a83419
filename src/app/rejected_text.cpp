#include "app/rejected_text.h"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "core/translation.h"

namespace versolay {
namespace {

constexpr std::size_t kNamesShown = 4;

/// One reason, and all that it holds for.
struct Group {
  std::string code;
  std::string reason;
  std::vector<std::string> sheets;
  std::vector<std::string> files;
};

/// "1", "1 and 2", "1, 2 and 3", "1, 2, 3, 4 and 7 more".
std::string list_of(const std::vector<std::string>& words) {
  const std::size_t shown = words.size() <= kNamesShown + 1 ? words.size() : kNamesShown;
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) {
    const bool last = i + 1 == words.size();
    text = i == 0 ? words[i] : last ? tr("{} and {}", text, words[i]) : text + ", " + words[i];
  }
  if (shown < words.size()) text = tr("{} and {} more", text, words.size() - shown);
  return text;
}

/// Splits "Sheet 12: reason", in whatever language. No sheet: the whole message is the reason.
std::pair<std::string, std::string> sheet_and_reason(const std::string& message) {
  const std::string pattern = tr("Sheet {}: {}");
  const std::size_t first = pattern.find("{}");
  const std::size_t second = pattern.find("{}", first + 2);
  if (second == std::string::npos) return {"", message};
  const std::string start = pattern.substr(0, first);
  const std::string between = pattern.substr(first + 2, second - first - 2);
  const std::size_t end = message.find(between, start.size());
  if (!message.starts_with(start) || end == std::string::npos) return {"", message};
  const std::string number = message.substr(start.size(), end - start.size());
  const bool digits = std::all_of(number.begin(), number.end(),
                                  [](unsigned char c) { return std::isdigit(c) != 0; });
  if (!digits) return {"", message};
  return {number, message.substr(end + between.size())};
}

std::vector<Group> groups_of(const std::vector<RejectedInput>& rejected) {
  std::vector<Group> groups;
  for (const RejectedInput& r : rejected) {
    const auto [sheet, reason] = sheet_and_reason(r.message);
    auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.code == r.code && g.reason == reason && g.sheets.empty() == sheet.empty();
    });
    if (group == groups.end()) group = groups.insert(groups.end(), {r.code, reason, {}, {}});
    if (!sheet.empty()) group->sheets.push_back(sheet);
    group->files.push_back(r.file);
  }
  return groups;
}

std::string text_of(const Group& group) {
  const std::string files = list_of(group.files);
  if (group.sheets.empty()) return files + ": " + group.reason;
  const std::string sheets = list_of(group.sheets);
  return group.sheets.size() == 1 ? tr("Sheet {} ({}): {}", sheets, files, group.reason)
                                  : tr("Sheets {} ({}): {}", sheets, files, group.reason);
}

}  // namespace

Notices rejected_notices(const std::vector<RejectedInput>& rejected) {
  Notices notices;
  for (const Group& group : groups_of(rejected)) notices.push_back({group.code, text_of(group)});
  return notices;
}

std::string rejected_text(const std::vector<RejectedInput>& rejected) {
  std::string text;
  for (const Notice& n : rejected_notices(rejected)) {
    text += (text.empty() ? "  " : "\n  ") + n.message;
  }
  return text;
}

}  // namespace versolay
