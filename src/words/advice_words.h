// The text of advice and profiles: numbers with units, signs in words, and the confidence.
#pragma once

#include <string>
#include <vector>

#include "versolay/advice.h"
#include "versolay/printer_profile.h"
#include "words/direction_words.h"
#include "words/display_unit.h"
#include "words/translation.h"

namespace versolay {

/// The verdict of an advice. The first sentence says what to do, the second how sure that is; then
/// uncertainty, yield, the job, centring, what more sheets would bring, how today's enlargement
/// does, and the figures for other assumptions where they matter.
std::string verdict_words(const Advice& advice, const PrinterProfile& profile,
                          const DisplayUnit& unit = {});

/// What a beginner needs of it: what to do, how sure that is, the job.
std::string short_verdict_words(const Advice& advice, const PrinterProfile& profile,
                                const DisplayUnit& unit = {});

/// The same, part by part. A part that does not apply is empty.
struct AdviceWords {
  std::string action;       // what to do: the first sentence
  std::string promise;      // how sure that is, and of which day: the second
  std::string edges;        // where backs end before the oversize does
  std::string scope;        // what else it is about: run, misfeeds, even scatter
  std::string another_day;  // allowance for a day that was not measured
  std::string direction;    // how sure the direction of the shift is, where it is not
  std::string editor;       // whole pixels, to type over; ends with its note
  std::string editor_note;  // what whole pixels cost
  std::string ways;         // to print, side by side, a line each
  std::string uncertainty;
  std::string yield;
  std::string worst_cell;
  std::string job;
  std::string centring;
  std::string savings;        // by more target sheets
  std::string other_figures;  // under other assumptions, a line each
  std::string by_hand;        // what the enlargement of today is worth, where it was stated
};
AdviceWords advice_words(const Advice& advice, const PrinterProfile& profile,
                         const DisplayUnit& unit = {});

/// The tables behind the verdict: every cell of the sheet, and good cards against oversize.
std::string advice_tables_words(const Advice& advice, const DisplayUnit& unit = {});

/// What a profile says: constant part, spread, where it comes from.
std::string profile_words(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// Without what the tests found, which the warnings repeat where it matters.
std::string short_profile_words(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// The same, part by part. A part that does not apply is empty.
struct ProfileWords {
  std::string landing;
  std::string spread;
  std::string short_spread;  // without degrees of freedom and passes
  std::vector<std::string> tests;
  std::string sessions;
  std::string field;
  std::vector<std::string> excluded;
};
ProfileWords profile_words_in_parts(const PrinterProfile& profile, const DisplayUnit& unit = {});

/// "95 %".
std::string percent_words(double share);

}  // namespace versolay
