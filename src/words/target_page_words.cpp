#include "words/target_page_words.h"

#include "core/numbers.h"
#include "words/translation.h"

namespace versolay::words {
namespace {

std::vector<std::string> instructions(const PageIdentity& identity) {
  const bool about_vertical = turn_axis(identity.turn, identity.paper) == TurnAxis::vertical;
  const char* way = about_vertical ? tr("like the page of a book") : tr("over its top edge");
  const char* seen_by = about_vertical
                            ? tr("left edge to the right, the top stays at the top")
                            : tr("the top of the front is behind the bottom of the back");
  return {
      tr("1. Print at actual size (100 %). Switch off: fit to page, borderless,"),
      tr("    auto-rotate, driver duplex. Same paper type and quality on both sides."),
      tr("2. Let the front dry. Turn the sheet {}:", way),
      tr("    {}. Print the back. Let it dry.", seen_by),
      tr("3. Then make the holes: office two-hole punch, once on each short edge,"),
      tr("    inside the dashed circles (4 holes), or a pin straight down through"),
      tr("    the middle of the nets of lines, 1 to 4, on thick card;"),
      tr("    then rotate the sheet by 180 degrees (top to you) and prick 5 to 8."),
      tr("4. Scan both sides of every sheet on the glass, with BLACK card behind,"),
      tr("    300 to 600 dpi, saved as PNG or TIFF. No cropping, no straightening."),
      tr("No scanner? Prick, then read where each hole is in its net of lines;"),
      tr("    or hold the back against a light and read the scales V1 to V8."),
      tr("    \"versolay readings --template\" writes the table to fill in."),
  };
}

/// The steps are on the print card: the marks of the passes take their room.
std::vector<std::string> with_passes(int passes) {
  return {tr("This sheet goes through the printer {} times on each side, as the print", passes),
          tr("card says. Punch or prick it after the last pass, and not before.")};
}

std::vector<std::string> cautions() {
  return {
      tr("Never feed a punched, pricked or torn sheet through a printer."),
      tr("Do not scan damp prints. Keep fingers clear of punch and pin;"),
      tr("children only with the person in charge."),
      tr("The makers' manuals and your local rules come first."),
  };
}

}  // namespace

TargetPageWords target_page_words(const PageIdentity& identity, const std::string& label) {
  TargetPageWords words;
  words.heading =
      tr("Sheet {}   {}", identity.sheet, identity.side == Side::recto ? tr("FRONT") : tr("BACK"));
  words.identity =
      tr("versolay target, {} x {} mm, run {}, {} turn", format_number(identity.paper.width_mm, 2),
         format_number(identity.paper.height_mm, 2), identity.run, to_string(identity.turn));
  words.label = label;
  words.instructions = identity.passes == 1 ? instructions(identity) : with_passes(identity.passes);
  words.cautions = cautions();
  words.scale_bar = tr("This bar is 100 mm long when the page is printed at actual size");
  words.top = tr("top");
  words.middle_of_punch = tr("middle of punch");
  return words;
}

std::string target_title(const std::string& paper, const std::string& run) {
  return tr("Versolay target, {}, run {}", paper, run);
}

PassPageWords pass_page_words(int pass, Side side) {
  return {side == Side::recto ? tr("pass {}, front", pass) : tr("pass {}, back", pass)};
}

}  // namespace versolay::words
