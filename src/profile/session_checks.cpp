#include "profile/session_checks.h"

#include <map>

#include "core/translation.h"

namespace versolay {
namespace {

std::string describe(const Readings& r) {
  return tr("{}, turned on the {}", r.paper.name,
            r.turn == Turn::long_edge ? tr("long edge") : tr("short edge"));
}

}  // namespace

std::optional<Refusal> why_no_profile(const std::vector<ReadingSession>& sessions) {
  const ReadingSession* first = nullptr;
  std::map<std::pair<std::string, int>, std::string> seen;  // run and sheet: in which file
  for (const ReadingSession& session : sessions) {
    const Readings& r = session.readings;
    if (r.sheets.empty()) {
      return Refusal{"no_sheets",
                     tr("{}: no sheet was read, so there is nothing to learn from it. Look at the "
                        "reasons under \"rejected\" in the file, scan again and measure again",
                        session.source)};
    }
    if (!first) first = &session;
    if (r.turn != first->readings.turn || !(r.paper == first->readings.paper)) {
      return Refusal{"mixed_setups",
                     tr("{} is for {}, {} is for {}: one profile holds one paper size and one way "
                        "of turning. Make a profile of each",
                        first->source, describe(first->readings), session.source, describe(r))};
    }
    std::map<std::pair<std::string, int>, int> in_session;
    for (const SheetReading& s : r.sheets) {
      if (++in_session[{s.run, s.sheet}] > 1) {
        return Refusal{"duplicate_sheet",
                       tr("{}: sheet {} stands there twice. A sheet counts once, however often it "
                          "was scanned. Remove one of the two",
                          session.source, s.sheet)};
      }
      if (s.run.empty()) continue;  // read by eye: numbers start again in every session
      const auto [earlier, is_new] = seen.try_emplace({s.run, s.sheet}, session.source);
      if (!is_new) {
        return Refusal{"duplicate_sheet",
                       tr("sheet {} of run {} is in {} and in {}. A second scan of a sheet is not "
                          "a second feed: leave one of the files out",
                          s.sheet, s.run, earlier->second, session.source)};
      }
    }
  }
  if (!first) return Refusal{"no_sheets", tr("no readings were given. Measure some sheets first")};
  return std::nullopt;
}

}  // namespace versolay
