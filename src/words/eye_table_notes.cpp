#include "words/eye_table_notes.h"

#include "words/translation.h"

namespace versolay::words {

std::vector<std::string> eye_table_notes(EyeMethod method) {
  switch (method) {
    case EyeMethod::holes:
      return {
          tr("Print both sides. Let them dry. Prick the nets of lines as the sheet says."),
          tr("Then read where the middle of each hole is in its net of lines (0.5 mm apart)."),
          tr("Hold each side upright with its arrow to the top. A magnifying glass helps."),
          tr("Write the number that is printed at the lines: 13.2 is two tenths right of line "
             "13."),
          tr("Every side and direction has its own numbers: the middle lines are"),
          tr("13 (front across) and 23 (front down) and 33 (back across) and 43 (back down)."),
          tr("P1 is the hole beside which 1 is printed on both sides. Leave empty what you "
             "cannot read."),
          tr("Caution: prick into thick card on the table and never towards a hand."),
      };
    case EyeMethod::verniers:
      return {
          tr("Print both sides. Let them dry. No holes are needed."),
          tr("Hold the sheet against a bright window or a lamp with its BACK towards you"),
          tr("and its arrow to the top. The lines of the front shine through."),
          tr("Whole number: the numbered line of the front at or just before line 0 of the back"),
          tr("(before is left of it at a scale that runs across and above it at one that runs "
             "down)."),
          tr("Tenth: the line of the back that lines up exactly with a line of the front."),
          tr("Line 3 and line 4 of the back: 3.4. Leave empty what you cannot read."),
          tr("Caution: do not look into the sun or a bare lamp. Keep paper off hot lamps."),
      };
    case EyeMethod::values:
      return {
          tr("How far the back landed from the front as you look at the BACK with its top up."),
          // Translators: keep left, right, up, down, clockwise, anticlockwise. They are read back.
          tr("Write the direction as a word: 0.42 left or 0.1 right and 0.2 up or 0.3 down."),
          // Translators: keep clockwise and anticlockwise. They are read back.
          tr("Turned: degrees about the middle of the page: 0.05 clockwise or 0.05 "
             "anticlockwise."),
          tr("Known to: how far off your value may be in mm. Empty: 0.1 mm."),
      };
  }
  return {};
}

}  // namespace versolay::words
