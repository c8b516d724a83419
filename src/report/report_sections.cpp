#include "report/report_sections.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/numbers.h"
#include "report/figures.h"
#include "words/advice_words.h"
#include "words/say.h"
#include "words/sentences.h"
#include "words/study_words.h"
#include "words/translation.h"
#include "words/typeset.h"

namespace versolay {
namespace {

/// What a report with an advice is about.
struct Advised {
  const PrinterProfile& profile;
  const Advice& advice;
};

/// A paragraph for every line; none for an empty text.
void add_lines(Section& section, const std::string& text, Tone tone = Tone::plain) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    if (end > at) section.blocks.push_back(Paragraph{typeset(text.substr(at, end - at)), tone});
    at = end + 1;
  }
}

std::optional<BackShift> shift_of(const Advice& advice) {
  if (!advice.shift_advised()) return std::nullopt;
  return advice.shift;
}

/// "\u00b1 0.04 mm", and nothing where it is not known.
std::string plus_minus(const std::string& words) { return "\u00b1 " + words; }

Table settings_table(const Advice& a) {
  const double ppi = a.request.ppi;
  const auto px = [&](double mm) {
    return format_number(artwork_px_from_mm(std::abs(mm), ppi), 1) + " px";
  };
  Table t{
      tr("The settings one by one, seen from the back; pixels at {} ppi.", format_number(ppi, 0)),
      {tr("what"), tr("how much"), tr("in pixels"),
       tr("known to ({} sure)", percent_words(a.request.confidence))},
      {}};
  const BackShift& s = a.shift;
  const ShiftUncertainty& u = a.shift_uncertainty;
  if (a.shift_advised()) {
    t.rows.push_back({tr("move it to the {}", across_words(s.dx_mm)), distance_words(s.dx_mm),
                      px(s.dx_mm), plus_minus(distance_words(u.dx_mm))});
    t.rows.push_back({tr("move it {}", along_words(s.dy_mm)), distance_words(s.dy_mm), px(s.dy_mm),
                      plus_minus(distance_words(u.dy_mm))});
    if (a.request.can_rotate) {
      t.rows.push_back({tr("turn it {}", sense_words(s.rotation_mrad)),
                        angle_words(s.rotation_mrad), "",
                        plus_minus(angle_words(u.rotation_mrad))});
    }
  } else {
    t.rows.push_back({tr("move it"), tr("not at all"), "0 px",
                      plus_minus(distance_words(std::max(u.dx_mm, u.dy_mm)))});
  }
  const std::string covers = tr("covers all of it");
  t.rows.push_back({tr("beyond the card, left and right"),
                    tr("{} each", distance_words_up(a.oversize.x_mm)),
                    tr("{} px each", a.oversize.x_px), covers});
  t.rows.push_back({tr("beyond the card, top and bottom"),
                    tr("{} each", distance_words_up(a.oversize.y_mm)),
                    tr("{} px each", a.oversize.y_px), covers});
  return t;
}

std::string days_words(const PrinterProfile& p) {
  std::set<std::string> days;
  for (const ProfileSession& s : p.sessions) {
    if (s.created.size() >= 10) days.insert(s.created.substr(0, 10));
  }
  std::string text = tr("{} of {} counted, in {}", p.n_feeds,
                        trn("{} sheet that was read", "{} sheets that were read", p.n_sheets),
                        trn("{} session", "{} sessions", p.sessions.size()));
  if (!days.empty()) {
    text += tr(" on {} ({})", trn("{} day", "{} days", days.size()), fmt::join(days, ", "));
  }
  return text + ".";
}

Section verdict_section(const Advised& r) {
  Section s{"verdict", tr("What to do"), {}};
  const AdviceWords words = advice_words(r.advice, r.profile);
  s.blocks.push_back(Paragraph{words.action, Tone::lead});
  s.blocks.push_back(Paragraph{words.promise, Tone::promise});
  s.blocks.push_back(settings_table(r.advice));
  add_lines(s, words.edges);
  add_lines(s, words.editor);
  return s;
}

Section certainty_section(const Advised& r) {
  Section s{"sure", tr("How sure this is"), {}};
  const AdviceWords words = advice_words(r.advice, r.profile);
  s.blocks.push_back(Paragraph{days_words(r.profile)});
  add_lines(s, words.scope);
  add_lines(s, words.another_day);
  add_lines(s, words.direction);
  add_lines(s, words.uncertainty);
  add_lines(s, words.savings);
  add_lines(s, words.other_figures);
  if (!r.advice.savings.empty()) {
    s.blocks.push_back(Figures{{more_sheets(r.advice, r.profile)}});
  }
  return s;
}

Section job_section(const Advised& r) {
  Section s{"job", tr("Your job"), {}};
  const AdviceWords words = advice_words(r.advice, r.profile);
  const CardGrid& g = r.advice.request.grid;
  s.blocks.push_back(Paragraph{
      tr("Cards of {} x {} mm, {} x {} on a sheet, {}.", format_number(g.card.width_mm, 2),
         format_number(g.card.height_mm, 2), g.columns, g.rows,
         g.gutter_mm > 0 ? tr("{} mm between the cards", format_number(g.gutter_mm, 2))
                         : std::string(tr("no gap between the cards")))});
  add_lines(s, words.job);
  if (words.job.empty()) {
    s.blocks.push_back(
        Paragraph{tr("Add --cards and the number of cards that you need, and this report says how "
                     "many sheets to print.")});
  }
  add_lines(s, words.yield + (words.worst_cell.empty() ? "" : " " + words.worst_cell));
  add_lines(s, words.ways);
  add_lines(s, words.by_hand);
  s.blocks.push_back(Figures{{sheet_map(r.advice, r.profile.paper), yield_curve(r.advice)}});
  return s;
}

Section card_section(const Advised& r) {
  Section s{"card", tr("The card back"), {}};
  add_lines(s, advice_words(r.advice, r.profile).centring);
  s.blocks.push_back(Figures{{card_back(r.advice), turn_diagram(r.profile.turn, r.profile.paper)}});
  return s;
}

Section what_if_section(WhatIfTable what_if) {
  Section s{"wishes", tr("What if you ask for something else"), {}};
  s.blocks.push_back(
      Paragraph{tr("Higher confidence and more good cards need a larger back. Growth: equal adds "
                   "the same on all sides, proportional keeps the shape of the picture, per-axis "
                   "gives each direction what it needs.")});
  s.blocks.push_back(std::move(what_if));
  return s;
}

Section printer_section(const PrinterProfile& p, const std::optional<BackShift>& shift) {
  Section s{"printer", tr("Your printer, and why"), {}};
  const ProfileWords words = profile_words_in_parts(p);
  for (const std::string& line : {words.landing, words.spread, words.sessions, words.field}) {
    add_lines(s, line);
  }
  Figures figures{{feed_scatter(p, shift), displacement_field(p)}};
  if (!p.shares.empty()) figures.list.push_back(variance_shares(p));
  if (!p.feeds.empty()) figures.list.push_back(time_trend(p));
  s.blocks.push_back(std::move(figures));
  return s;
}

std::string p_value_words(double p) {
  if (p < 0.001) return tr("under 0.1 %");
  if (p >= 1) return "\u2013";  // says nothing, or was not a test of chance
  return format_number(100 * p, p < 0.1 ? 1 : 0) + " %";
}

Section checks_section(const PrinterProfile& p, const Notices& warnings) {
  Section s{"checks", tr("Checks, and what was left out"), {}};
  Table tests{
      tr("What was tested. The chance is the probability of such readings when nothing is wrong."),
      {tr("test"), tr("chance"), tr("what it says")},
      {}};
  for (const ProfileTest& t : p.tests) {
    tests.rows.push_back({versolay::words::test_name(t.name), p_value_words(t.p_value),
                          versolay::words::say(t.conclusion)});
  }
  for (const StudySentence& study : study_words(p.studies)) {
    tests.rows.push_back({tr(study.name.c_str()), p_value_words(study.p_value), study.text});
  }
  if (!tests.rows.empty()) s.blocks.push_back(std::move(tests));
  const ProfileWords words = profile_words_in_parts(p);
  if (words.excluded.empty()) s.blocks.push_back(Paragraph{tr("No sheet was left out.")});
  for (const std::string& line : words.excluded) add_lines(s, line);
  for (const Notices& list : {p.warnings, warnings}) {
    for (const Notice& n : list)
      s.blocks.push_back(Paragraph{tr("Note: {}", versolay::words::say(n))});
  }
  for (const ProfileEvent& e : p.history) {
    s.blocks.push_back(Paragraph{e.date.substr(0, 10) + ": " + versolay::words::say(e.what)});
  }
  return s;
}

Section next_section(const std::string& next, bool can_print) {
  Section s{"next", tr("What to do next"), {}};
  if (can_print) {
    s.blocks.push_back(Paragraph{
        tr("Let the program move and enlarge the backs (or move them yourself as said above), "
           "print the first sheet, and hold it against a lamp before you print the rest.")});
  } else {
    s.blocks.push_back(Paragraph{
        tr("Print these test sheets, scan both sides, measure them, and make the profile again.")});
  }
  s.blocks.push_back(Paragraph{next, Tone::command});
  s.blocks.push_back(
      Paragraph{tr("Never feed a punched, pricked, torn, damp or laminated sheet through a "
                   "printer, and stay within the thickness of paper that it is made for."),
                Tone::caution});
  if (can_print) {
    s.blocks.push_back(Paragraph{
        tr("Laminator: the rollers are hot; sealed edge of the pouch first and straight, no empty "
           "or cut-down pouches, no more heat than the pouch allows; on a jam switch off and "
           "unplug; ventilate; keep children away. Cutter: guard on, fingers behind the clamp, "
           "blade locked when idle. The makers' manuals and local rules come first; in a school or "
           "club, whoever is responsible for the machine decides who uses it."),
        Tone::caution});
  }
  return s;
}

}  // namespace

std::vector<Section> report_sections(const PrinterProfile& profile, const Advice& advice,
                                     WhatIfTable what_if, const std::string& next) {
  const Advised r{profile, advice};
  std::vector<Section> sections;
  sections.push_back(verdict_section(r));
  sections.push_back(certainty_section(r));
  sections.push_back(job_section(r));
  sections.push_back(card_section(r));
  sections.push_back(what_if_section(std::move(what_if)));
  sections.push_back(printer_section(r.profile, shift_of(r.advice)));
  sections.push_back(checks_section(r.profile, r.advice.warnings));
  sections.push_back(next_section(next, true));
  return sections;
}

std::vector<Section> report_sections(const PrinterProfile& profile, const Refusal& refusal,
                                     const std::string& next) {
  Section verdict{"verdict", tr("What to do"), {}};
  verdict.blocks.push_back(Paragraph{
      tr("There is no verdict yet. {}", profile_words_in_parts(profile).landing), Tone::lead});
  verdict.blocks.push_back(Paragraph{versolay::words::say(refusal), Tone::promise});
  verdict.blocks.push_back(Paragraph{days_words(profile)});
  verdict.blocks.push_back(Figures{{turn_diagram(profile.turn, profile.paper)}});
  return {std::move(verdict), printer_section(profile, std::nullopt), checks_section(profile, {}),
          next_section(next, false)};
}

}  // namespace versolay
