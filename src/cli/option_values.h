// How the values of options are typed: one function for each type of field.
#pragma once

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "cli/bad_option.h"
#include "cli/typed_option.h"
#include "imposition/impose_request.h"
#include "layout/artwork_place.h"
#include "layout/grid.h"
#include "versolay/layout.h"
#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay::cli {

Typed<std::string> words(const std::string& name);
Typed<std::filesystem::path> file(const std::string& name = "FILE");
/// One that the command writes.
Typed<std::filesystem::path> output_file(const std::string& name = "FILE");
Typed<double> number(const std::string& name);
Typed<double> length(double most_mm);  // a bare number above `most_mm` can only be pixels
Typed<double> share();                 // ".95" or "95%"
Typed<int> whole_number(const std::string& name = "N");
Typed<std::uint64_t> seed();

Typed<Paper> paper_size();                     // "a4", "200x280mm"
Typed<Turn> turn();                            // "long-edge"
Typed<CardSize> card_size();                   // "63x88", or the name of a card format
Typed<std::optional<GridShape>> grid_shape();  // "3x3" columns x rows, "auto": as many as fit
Typed<Margins> margins();                      // "5", or "left,top,right,bottom"
Typed<Reach> reach();                          // "0.7", or "0.7x0.5" left-right x top-bottom
Typed<std::set<int>> sheet_numbers();          // "2,4,6"
Typed<std::vector<int>> page_numbers();        // "2,4,6"
Typed<Thickness> thickness();                  // "220um", "200gsm"
Typed<LaminatedScale> laminated_scale();       // "263.6/264", or two of them: across,down

/// For a text that is not one of the words.
BadOption no_such_choice(const std::string& option, const std::string& text,
                         const std::vector<std::string>& words);

/// One of several words.
template <class T>
Typed<T> choice(const std::vector<std::pair<std::string, T>>& choices) {
  std::vector<std::string> words;
  std::string name;
  for (const auto& [word, value] : choices) {
    words.push_back(word);
    name += (name.empty() ? "" : "|") + word;
  }
  const auto value_of = [=](const std::string& option, const std::string& text) -> T {
    const auto found = std::find_if(choices.begin(), choices.end(),
                                    [&](const auto& one) { return one.first == text; });
    if (found == choices.end()) throw no_such_choice(option, text, words);
    return found->second;
  };
  const auto text_of = [=](const T& value) -> std::string {
    const auto found = std::find_if(choices.begin(), choices.end(),
                                    [&](const auto& one) { return one.second == value; });
    return found == choices.end() ? std::string() : found->first;
  };
  return {name, value_of, text_of};
}

/// The parts of a list with commas.
std::vector<std::string> comma_list(const std::string& text);

}  // namespace versolay::cli
