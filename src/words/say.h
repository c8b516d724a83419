// Findings as sentences.
#pragma once

#include <string>
#include <vector>

#include "core/json.h"
#include "versolay/result.h"
#include "words/display_unit.h"

namespace versolay::words {

/// The sentence, or the two, of a finding, with its facts put in: what to do first, where anything
/// can be done. One that brings its sentence along ("message": files of version 1) is said in those
/// words; one that no table knows, by its code. Lengths are said in `unit`.
std::string say(const Finding& finding, const DisplayUnit& unit = {});

/// "readings.json (at /sheets/2/dx_mm): must be a number". Of many problems, the first are said.
std::string say(const Error& error);

/// The same finding with a sentence of its own, which says what it is about.
Finding said_as(Finding finding, std::string sentence);

/// Several, one after the other.
std::string say_all(const std::vector<Finding>& findings, const DisplayUnit& unit = {});

/// "1", "1 and 2", "1, 2 and 3"; of more than `shown`: "1, 2, 3, 4 and 7 more".
std::string list_of(const std::vector<std::string>& items, std::size_t shown = 1000);

/// Adds the sentence ("message") to every finding in a document for programs: every object with
/// the code of a known kind.
void add_messages(Json& document);

}  // namespace versolay::words
