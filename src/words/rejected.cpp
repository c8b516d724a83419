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
  if (files.empty()) {
    return group.sheets.size() == 1 ? tr("Sheet {}: {}", sheets, group.reason)
                                    : tr("Sheets {}: {}", sheets, group.reason);
  }
  return group.sheets.size() == 1 ? tr("Sheet {} ({}): {}", sheets, files, group.reason)
                                  : tr("Sheets {} ({}): {}", sheets, files, group.reason);
}

}  // namespace

std::vector<Finding> findings_of(const std::vector<RejectedInput>& rejected) {
  std::vector<Finding> findings;
  for (const RejectedInput& r : rejected) {
    findings.push_back(r.why);
    if (!r.files.empty()) findings.back().facts.push_back({"files", r.files});
    if (r.sheet) findings.back().facts.push_back({"sheet", std::int64_t{*r.sheet}});
  }
  return findings;
}

std::vector<RejectedInput> rejected_from(const std::vector<Finding>& findings) {
  std::vector<RejectedInput> rejected;
  for (const Finding& finding : findings) {
    RejectedInput input{{}, std::nullopt, finding};
    if (const FactValue* files = finding.find("files")) {
      input.files = std::get<std::vector<std::string>>(*files);
    }
    if (const FactValue* sheet = finding.find("sheet")) {
      input.sheet = static_cast<int>(std::get<std::int64_t>(*sheet));
    }
    rejected.push_back(std::move(input));
  }
  return rejected;
}

std::vector<RejectedText> rejected_texts(const std::vector<RejectedInput>& rejected,
                                         const DisplayUnit& unit) {
  std::vector<RejectedText> texts;
  for (const Group& group : groups_of(rejected, unit)) {
    Finding why = group.why;
    if (!group.files.empty()) why.facts.push_back({"files", group.files});
    if (!group.sheets.empty()) why.facts.push_back({"sheets", group.sheets});
    texts.push_back({std::move(why), text_of(group)});
  }
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
