#include "profile/session_checks.h"

#include <map>

#include "profile/findings.h"

namespace versolay {

std::optional<Refusal> why_no_profile(const std::vector<ReadingSession>& sessions) {
  const ReadingSession* first = nullptr;
  std::map<std::pair<std::string, int>, std::string> seen;  // run and sheet: in which file
  for (const ReadingSession& session : sessions) {
    const Readings& r = session.readings;
    if (r.sheets.empty()) {
      return findings::nothing_was_read(session.source);
    }
    if (!first) first = &session;
    if (r.turn != first->readings.turn || !(r.paper == first->readings.paper)) {
      const Readings& f = first->readings;
      return findings::mixed_setups(first->source, f.paper.name, Term{to_string(f.turn)},
                                    session.source, r.paper.name, Term{to_string(r.turn)});
    }
    std::map<std::pair<std::string, int>, int> in_session;
    for (const SheetReading& s : r.sheets) {
      if (++in_session[{s.run, s.sheet}] > 1) {
        return findings::sheet_twice_in_a_file(session.source, s.sheet);
      }
      if (s.run.empty()) continue;  // read by eye: numbers start again in every session
      const auto [earlier, is_new] = seen.try_emplace({s.run, s.sheet}, session.source);
      if (!is_new) {
        return findings::sheet_in_two_files(earlier->second, s.sheet, s.run, session.source);
      }
    }
  }
  if (!first) return findings::no_readings_given();
  return std::nullopt;
}

}  // namespace versolay
