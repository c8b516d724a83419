// The tables that turn findings into sentences: one table a room, read from top to bottom.
#pragma once

#include <string_view>
#include <vector>

#include "versolay/finding.h"
#include "words/translation.h"

namespace versolay::words {

/// A sentence holds only where this fact has this value.
struct When {
  std::string_view fact;
  std::string_view value;
};

/// One and many, by a fact that is a count.
struct Counted {
  std::string_view fact;
  Plural text;
};

/// A sentence of a kind of finding, with its facts as placeholders:
///
///   {hole}           a text, a count or a number as it is; of several texts: "a, b and c"
///   {off_mm:3}       a length as fine as 3 decimals of a millimetre, with its unit; 2 if not said
///   {width_mm:~1}    the same without zeros at the end: "63 mm", "63.5 mm"; also of plain numbers
///   {turn_mrad:2}    an angle, in milliradian
///   {tail_share:1}   a share, in per cent
///   {dx_mm:landing}  where the back landed: of the facts dx_mm, dy_mm and rotation_mrad
///   {side:word}      a term, from the list of terms
///   {problems:said}  findings, one after the other
///   {choices:or}     several texts: "a, b or c"
///   {rejected:lines} findings about files and sheets: a line for each reason
struct Sentence {
  const FindingKind* kind;
  const char* text;
  When when = {};
  const char* many = nullptr;
  std::string_view counted = {};

  template <class K>
  Sentence(const K& k, const char* text_) : kind(&k.kind()), text(text_) {}
  template <class K>
  Sentence(const K& k, When when_, const char* text_) : kind(&k.kind()), text(text_), when(when_) {}
  template <class K>
  Sentence(const K& k, const Counted& c)
      : kind(&k.kind()), text(c.text.one), many(c.text.many), counted(c.fact) {}
};

/// The tables of the rooms.
const std::vector<Sentence>& core_sentences();
const std::vector<Sentence>& target_sentences();
const std::vector<Sentence>& scan_sentences();
const std::vector<Sentence>& measure_sentences();
const std::vector<Sentence>& registration_sentences();
const std::vector<Sentence>& profile_sentences();
const std::vector<Sentence>& artwork_sentences();
const std::vector<Sentence>& pdf_sentences();
const std::vector<Sentence>& layout_sentences();
const std::vector<Sentence>& imposition_sentences();
const std::vector<Sentence>& rehearse_sentences();
const std::vector<Sentence>& command_sentences();  // of app and cli

/// All of them; of two that hold, the first is said.
const std::vector<const Sentence*>& all_sentences();

/// A term, translated: "front". Throws std::logic_error for one that is not in the list.
const char* word_for(std::string_view term);
bool is_term(std::string_view term);

/// The name of a test (ProfileTest::name), translated.
std::string test_name(const std::string& name);

}  // namespace versolay::words
