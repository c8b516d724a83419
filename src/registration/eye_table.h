// The table of readings by eye: written to be filled in with a spreadsheet program or a pencil,
// and read back.
//
//   # words that say what to do
//   paper,a4
//   turn,long-edge
//   table,holes
//   sheet,hole,front across,front down,back across,back down
//   1,P1,13.2,22.7,33.1,42.8
//
// The user writes down the numbers printed at the scales; eye_registration handles signs, mirrors
// and zero points. There are three tables, one for each way of reading.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay {

enum class EyeMethod {
  holes,     // pricks on the graticules of both sides
  verniers,  // the pairs of scales, against a light
  values,    // displacement and rotation of each sheet, found in another way
};
std::string_view to_string(EyeMethod method);  // "holes", "verniers", "values"
std::optional<EyeMethod> eye_method_from(std::string_view text);

/// What a row holds. Lengths in mm.
///   holes     front across, front down, back across, back down: numbers of the graticules
///   verniers  the number read at the scale, in the first place
///   values    right (+), down (+) mm and clockwise (+) degrees of the back, seen from the back;
///             mm to which they are known (95 %)
struct EyeRow {
  int line = 0;  // of the file
  int sheet = 0;
  std::string place;  // "P1", "V1"; empty for values
  std::array<std::optional<double>, 4> numbers;
};

struct EyeTable {
  EyeMethod method = EyeMethod::holes;
  Paper paper;
  Turn turn = Turn::long_edge;
  std::vector<EyeRow> rows;  // those with a number at least, in the order of the file
  Notices notices;           // rows that are filled in half
};

/// Paper and turn where the table does not say them, or must say them.
struct EyeTarget {
  std::optional<Paper> paper;
  std::optional<Turn> turn;
};

/// The table to fill in, one block of rows for each sheet 1 .. `sheets`.
/// @param separator  ',', ';' or a tab. Spreadsheet programs of countries with a decimal comma
///                   want semicolons.
/// @param notes  what to do, for the first lines; without commas and semicolons, because each is to
///               stay in one cell.
std::string eye_table_template(EyeMethod method, const Paper& paper, Turn turn, int sheets,
                               char separator, const std::vector<std::string>& notes);

/// Reads a table that was filled in. Decimal points and commas, a unit behind a number, and words
/// instead of signs ("0.4 left") are understood.
/// Throws Error with the rows that cannot be right: text that is not a number, a number that is not
/// on the scale (and the scale that it seems to belong to), a hole that does not exist, a duplicate
/// row; paper or turn missing, or different from `given`.
EyeTable read_eye_table(std::string_view text, const std::string& file, const EyeTarget& given);

}  // namespace versolay
