#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

#include "words/sentences.h"

namespace versolay::words {
namespace {

struct Word {
  std::string_view term;
  const char* text;
};

constexpr std::array kWords = {
    Word{"front", tr_noop("front")},
    Word{"back", tr_noop("back")},
    Word{"left", tr_noop("left")},
    Word{"right", tr_noop("right")},
    Word{"top", tr_noop("top")},
    Word{"bottom", tr_noop("bottom")},
    Word{"upper", tr_noop("upper")},
    Word{"lower", tr_noop("lower")},
    Word{"part", tr_noop("part")},
    Word{"half", tr_noop("half")},
    Word{"wider", tr_noop("wider")},
    Word{"narrower", tr_noop("narrower")},
    Word{"up", tr_noop("up")},
    Word{"down", tr_noop("down")},
    Word{"clockwise", tr_noop("clockwise")},
    Word{"anticlockwise", tr_noop("anticlockwise")},
    Word{"dx_mm", tr_noop("left-right offset")},
    Word{"dy_mm", tr_noop("up-down offset")},
    Word{"rotation_mrad", tr_noop("rotation")},
    Word{"long-edge", tr_noop("long edge")},
    Word{"short-edge", tr_noop("short edge")},
    Word{"left and right", tr_noop("left and right")},
    Word{"top and bottom", tr_noop("top and bottom")},
    Word{"with bleed, corrected", tr_noop("with their bleed and the backs corrected")},
    Word{"with bleed", tr_noop("with their bleed")},
    Word{"corrected", tr_noop("with the backs corrected")},
    Word{"column", tr_noop("column")},
    Word{"row", tr_noop("row")},
    Word{"card", tr_noop("card")},
    Word{"hole", tr_noop("hole")},
    Word{"scale", tr_noop("scale")},
    Word{"reading artwork", tr_noop("reading artwork")},
    Word{"printing and scanning", tr_noop("printing and scanning")},
    Word{"reading scans", tr_noop("reading scans")},
    Word{"reading pages", tr_noop("reading pages")},
    Word{"writing the PDF", tr_noop("writing the PDF")},
    Word{"wide", tr_noop("wide")},
    Word{"high", tr_noop("high")},
    Word{"longer", tr_noop("longer")},
    Word{"shorter", tr_noop("shorter")},
};

/// Names of tests: those of the field, as files have them.
[[maybe_unused]] constexpr std::array kTestNames = {
    tr_noop("sessions agree (analysis of variance)"),
    tr_noop("constant part (Hotelling T2)"),
    tr_noop("constant part (Student t, Bonferroni)"),
    tr_noop("share of the measurement in the spread"),
    tr_noop("residual field (Student t, Bonferroni)"),
    tr_noop("farthest feed (minimum covariance determinant)"),
    tr_noop("normal feeds (Anderson-Darling)"),
    tr_noop("trend over the run (Student t)"),
    tr_noop("two places (best cut)"),
    tr_noop("lopsided scatter (skewness)"),
    tr_noop("sheets differ beyond their passes (F)"),
    tr_noop("trend over the passes (Student t)"),
};

const Word* find(std::string_view term) {
  const auto* word =
      std::find_if(kWords.begin(), kWords.end(), [&](const Word& w) { return w.term == term; });
  return word == kWords.end() ? nullptr : word;
}

}  // namespace

bool is_term(std::string_view term) { return find(term) != nullptr; }

const char* word_for(std::string_view term) {
  const Word* word = find(term);
  if (word == nullptr) throw std::logic_error("not a term: " + std::string(term));
  return tr(word->text);
}

std::string test_name(const std::string& name) { return tr(name.c_str()); }

}  // namespace versolay::words
