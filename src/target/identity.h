// Identity of a page: the text inside its matrix codes, and the numbers of its corner tags.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "target/target_geometry.h"

namespace versolay {

/// "VL1/2100X2970/L/K7QX/012/R": format, paper in 0.1 mm, turn (L|S), run, sheet, side (R|V). Of
/// sheets that are fed several times, "VL2/.../R/5": and how many times.
/// Characters of the QR alphanumeric set only (ISO/IEC 18004), 29 at most.
std::string code_text(const PageIdentity& identity);

/// nullopt when the text is not one of ours, or is of a format that is not known.
std::optional<PageIdentity> identity_from_code_text(std::string_view text);

/// What one tag says. Tags repeat every 36 sheets; the codes distinguish these sheets. All
/// production sheets have the same tags.
struct TagMeaning {
  int slot = 0;  // (sheet - 1) mod kTagSlots; 0 on production sheets
  Side side = Side::recto;
  int position = 0;         // 0..7, index of the tag's place in the design; 0..3 in the waste
  bool production = false;  // in the waste of a production sheet, not on a target
  bool operator==(const TagMeaning&) const = default;
};
/// What the tag of a further pass says: numbers of the tag family 25h9.
struct PassTagMeaning {
  int pass = 2;
  Side side = Side::recto;
  bool operator==(const PassTagMeaning&) const = default;
};
int pass_tag_number(const PassTagMeaning& meaning);
std::optional<PassTagMeaning> pass_tag_meaning(int number);  // nullopt: not one of ours

inline constexpr int kTagSlots = 36;
int tag_number(const TagMeaning& meaning);          // 0..575 targets, 576..583 production sheets
std::optional<TagMeaning> tag_meaning(int number);  // nullopt: not one of ours
int tag_slot_of_sheet(int sheet);

/// Characters of a run code, without look-alikes.
inline constexpr std::string_view kRunAlphabet = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

/// A run code of 4 characters of kRunAlphabet, from `random_bits`.
std::string run_code(std::uint32_t random_bits);

}  // namespace versolay
