#include "words/rejected.h"

#include <algorithm>

#include "words/say.h"
#include "words/translation.h"

namespace versolay::words {
namespace {

constexpr std::size_t kNamesShown = 4;

/// One reason, and all that it holds for.
struct Group {
  Finding why;
  std::string reason;
  std::vector<std::string> sheets;
  std::vector<std::string> files;
};

std::vector<Group> groups_of(const std::vector<RejectedInput>& rejected, const DisplayUnit& unit) {
  std::vector<Group> groups;
  for (const RejectedInput& r : rejected) {
    const std::string reason = say(r.why, unit);
    auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.why.code == r.why.code && g.reason == reason && g.sheets.empty() == !r.sheet;
    });
    if (group == groups.end()) group = groups.insert(groups.end(), {r.why, reason, {}, {}});
    if (r.sheet) group->sheets.push_back(std::to_string(*r.sheet));
    group->files.insert(group->files.end(), r.files.begin(), r.files.end());
  }
  return groups;
}

std::string text_of(const Group& group) {
  const std::string files = list_of(group.files, kNamesShown);
  if (group.sheets.empty()) return files + ": " + group.reason;
  const std::string sheets = list_of(group.sheets, kNamesShown);
  return group.sheets.size() == 1 ? tr("Sheet {} ({}): {}", sheets, files, group.reason)
                                  : tr("Sheets {} ({}): {}", sheets, files, group.reason);
}

}  // namespace

std::vector<RejectedText> rejected_texts(const std::vector<RejectedInput>& rejected,
                                         const DisplayUnit& unit) {
  std::vector<RejectedText> texts;
  for (const Group& group : groups_of(rejected, unit)) texts.push_back({group.why, text_of(group)});
  return texts;
}

std::string rejected_text(const std::vector<RejectedInput>& rejected, const DisplayUnit& unit) {
  std::string text;
  for (const RejectedText& r : rejected_texts(rejected, unit)) {
    text += (text.empty() ? "  " : "\n  ") + r.text;
  }
  return text;
}

}  // namespace versolay::words
