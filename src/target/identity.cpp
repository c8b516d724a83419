#include "target/identity.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "core/numbers.h"
#include "target/pass_marks.h"

namespace versolay {
namespace {

constexpr std::string_view kFormat = "VL1";
constexpr std::string_view kFormatOfPasses = "VL2";
constexpr int kPositions = 8;
constexpr int kTargetTags = kTagSlots * 2 * kPositions;
constexpr int kWastePositions = 4;

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t end = text.find(separator);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

}  // namespace

std::string code_text(const PageIdentity& identity) {
  const bool several = identity.passes > 1;
  return fmt::format(
      "{}/{}X{}/{}/{}/{:03}/{}{}", several ? kFormatOfPasses : kFormat,
      std::lround(identity.paper.width_mm * 10), std::lround(identity.paper.height_mm * 10),
      identity.turn == Turn::long_edge ? 'L' : 'S', identity.run, identity.sheet,
      identity.side == Side::recto ? 'R' : 'V', several ? fmt::format("/{}", identity.passes) : "");
}

std::optional<PageIdentity> identity_from_code_text(std::string_view text) {
  const auto parts = split(text, '/');
  const bool several = parts[0] == kFormatOfPasses;
  if (parts.size() != (several ? 7U : 6U) || (!several && parts[0] != kFormat)) {
    return std::nullopt;
  }
  const auto passes = several ? parse_integer(parts[6]) : 1;
  if (!passes || *passes < (several ? 2 : 1) || *passes > kMostPasses) return std::nullopt;
  const auto size = parse_pair(parts[1]);
  const auto sheet = parse_integer(parts[4]);
  if (!size || !sheet || *sheet < 1 || *sheet > 999) return std::nullopt;
  for (const double tenths : {size->first, size->second}) {
    if (!(tenths >= 500 && tenths <= 10000 && tenths == std::round(tenths))) return std::nullopt;
  }
  if ((parts[2] != "L" && parts[2] != "S") || (parts[5] != "R" && parts[5] != "V") ||
      parts[3].size() != 4 || parts[3].find_first_not_of(kRunAlphabet) != std::string_view::npos) {
    return std::nullopt;
  }
  return PageIdentity{paper_of_size(size->first / 10, size->second / 10),
                      parts[2] == "L" ? Turn::long_edge : Turn::short_edge,
                      std::string(parts[3]),
                      *sheet,
                      parts[5] == "R" ? Side::recto : Side::verso,
                      *passes};
}

int tag_number(const TagMeaning& meaning) {
  const int side = meaning.side == Side::verso ? 1 : 0;
  if (meaning.production) return kTargetTags + side * kWastePositions + meaning.position;
  return (meaning.slot * 2 + side) * kPositions + meaning.position;
}

std::optional<TagMeaning> tag_meaning(int number) {
  const auto side_of = [](int n) { return n % 2 == 0 ? Side::recto : Side::verso; };
  if (number < 0 || number >= kTargetTags + 2 * kWastePositions) return std::nullopt;
  if (number >= kTargetTags) {
    const int rest = number - kTargetTags;
    return TagMeaning{0, side_of(rest / kWastePositions), rest % kWastePositions, true};
  }
  return TagMeaning{number / (2 * kPositions), side_of(number / kPositions), number % kPositions};
}

int pass_tag_number(const PassTagMeaning& meaning) {
  return 2 * (meaning.pass - 2) + (meaning.side == Side::verso ? 1 : 0);
}

std::optional<PassTagMeaning> pass_tag_meaning(int number) {
  if (number < 0 || number >= 2 * (kMostPasses - 1)) return std::nullopt;
  return PassTagMeaning{2 + number / 2, number % 2 == 0 ? Side::recto : Side::verso};
}

int tag_slot_of_sheet(int sheet) { return (sheet - 1) % kTagSlots; }

std::string run_code(std::uint32_t random_bits) {
  std::string code;
  for (int i = 0; i < 4; ++i) {
    code += kRunAlphabet[random_bits % kRunAlphabet.size()];
    random_bits /= static_cast<std::uint32_t>(kRunAlphabet.size());
  }
  return code;
}

}  // namespace versolay
