#include "app/rejected_text.h"

#include <algorithm>
#include <cctype>
#include <string_view>

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
    text += (i == 0 ? "" : last ? " and " : ", ") + words[i];
  }
  if (shown < words.size()) text += " and " + std::to_string(words.size() - shown) + " more";
  return text;
}

/// Splits "Sheet 12: reason". No sheet: the whole message is the reason.
std::pair<std::string, std::string> sheet_and_reason(const std::string& message) {
  constexpr std::string_view kStart = "Sheet ";
  const std::size_t colon = message.find(": ");
  if (!message.starts_with(kStart) || colon == std::string::npos) return {"", message};
  const std::string number = message.substr(kStart.size(), colon - kStart.size());
  const bool digits = std::all_of(number.begin(), number.end(),
                                  [](unsigned char c) { return std::isdigit(c) != 0; });
  if (!digits) return {"", message};
  return {number, message.substr(colon + 2)};
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
  return (group.sheets.size() == 1 ? "Sheet " : "Sheets ") + list_of(group.sheets) + " (" + files +
         "): " + group.reason;
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
