#include "imposition/art_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "core/numbers.h"
#include "imposition/findings.h"

namespace versolay {
namespace {

constexpr double kAspectTolerance = 0.01;
constexpr double kPpiTolerance = 0.03;  // 744 px over 63 mm are 299.96 ppi, and nobody minds 295

/// Remarks on the artwork of one side.
class SideFindings {
 public:
  SideFindings(Term side, CardSize card, const ArtRules& rules, double wanted_ppi)
      : side_(side), card_(card), rules_(rules), wanted_ppi_(wanted_ppi) {}

  void add(const Artwork& art) {
    const ArtSize size = size_of(art);
    const double bleed = bleed_of(art, rules_);
    const CardPlace place{{0, 0, card_.width_mm, card_.height_mm}, {}, 0};
    const ImagePlace image = place_image(place, size, rules_.fit, bleed, {});
    ++count_;
    const auto* picture = std::get_if<CodedImage>(&art);
    if (picture != nullptr) {
      note_ppi(*picture, size.width / image.width_mm * kMmPerInch);
      if (const auto beyond_px = like_bleed_px(size)) {
        ++like_bleed_;
        if (*beyond_px > bleed_px_) {
          bleed_px_ = *beyond_px;
          with_bleed_ = fmt::format("{} ({} x {} px)", file_of(art), format_number(size.width, 1),
                                    format_number(size.height, 1));
        }
        return;
      }
    }
    if (std::abs(image.aspect_error) > kAspectTolerance) {
      ++misshapen_;
      if (std::abs(image.aspect_error) > std::abs(worst_aspect_)) {
        worst_aspect_ = image.aspect_error;
        worst_shape_ = fmt::format("{} ({} x {} {})", file_of(art), format_number(size.width, 1),
                                   format_number(size.height, 1), picture ? "px" : "mm");
      }
    }
  }

  EffectivePpi ppi() const { return ppi_; }

  void report(Notices& notices) const {
    const double width = card_.width_mm + 2 * rules_.bleed_mm;
    const double height = card_.height_mm + 2 * rules_.bleed_mm;
    const std::int64_t width_px = std::lround(artwork_px_from_mm(width, wanted_ppi_));
    const std::int64_t height_px = std::lround(artwork_px_from_mm(height, wanted_ppi_));
    if (coarse_ > 0) {
      notices.push_back(findings::low_resolution(wanted_ppi_, coarse_, count_, side_, coarsest_,
                                                 ppi_.lowest, width_px, height_px,
                                                 std::floor(ppi_.lowest)));
    }
    if (like_bleed_ > 0) {
      notices.push_back(
          findings::like_bleed(like_bleed_, count_, side_, with_bleed_, bleed_px_, wanted_ppi_));
    }
    if (misshapen_ > 0) {
      notices.push_back(findings::wrong_aspect(
          misshapen_, count_, side_, worst_shape_, Share{std::abs(worst_aspect_)},
          Term{worst_aspect_ > 0 ? "wide" : "high"}, Length{width}, Length{height}, width_px,
          height_px, wanted_ppi_, Term{name_of(rules_.fit)}));
    }
  }

 private:
  /// By how many pixels a side a picture is larger than the card at the wanted resolution, where it
  /// is by as much on all sides: a bleed, or a back that was enlarged by hand.
  std::optional<double> like_bleed_px(const ArtSize& size) const {
    constexpr double kMostMm = 10.0;
    if (rules_.bleed_mm > 0) return std::nullopt;
    const double across = size.width - std::round(artwork_px_from_mm(card_.width_mm, wanted_ppi_));
    const double down = size.height - std::round(artwork_px_from_mm(card_.height_mm, wanted_ppi_));
    if (std::min(across, down) < 2 || std::abs(across - down) > 2) return std::nullopt;
    if (across / 2 > artwork_px_from_mm(kMostMm, wanted_ppi_)) return std::nullopt;
    return across / 2;
  }

  void note_ppi(const CodedImage& image, double ppi) {
    if (ppi_.highest == 0 || ppi < ppi_.lowest) {
      ppi_.lowest = ppi;
      coarsest_ = image.file;
    }
    ppi_.highest = std::max(ppi_.highest, ppi);
    if (ppi < wanted_ppi_ * (1 - kPpiTolerance)) ++coarse_;
  }

  static const char* name_of(ArtFit fit) {
    switch (fit) {
      case ArtFit::fill:
        return "fill";
      case ArtFit::fit:
        return "fit";
      case ArtFit::crop:
        break;
    }
    return "crop";
  }

  Term side_;
  CardSize card_;
  ArtRules rules_;
  double wanted_ppi_;
  EffectivePpi ppi_;
  int count_ = 0;
  int coarse_ = 0;
  int misshapen_ = 0;
  int like_bleed_ = 0;
  double bleed_px_ = 0.0;
  double worst_aspect_ = 0.0;
  std::string coarsest_;
  std::string worst_shape_;
  std::string with_bleed_;
};

}  // namespace

ArtFindings check_artwork(const Deck& deck, CardSize card, const ArtRules& fronts,
                          const ArtRules& backs, double wanted_ppi) {
  std::set<std::size_t> front_images;
  std::set<std::size_t> back_images;
  for (const CardArt& one : deck.cards) {
    front_images.insert(one.front);
    back_images.insert(one.back);
  }
  SideFindings front(Term{"front"}, card, fronts, wanted_ppi);
  SideFindings back(Term{"back"}, card, backs, wanted_ppi);
  for (const std::size_t i : front_images) front.add(deck.images[i]);
  for (const std::size_t i : back_images) back.add(deck.images[i]);
  ArtFindings findings{front.ppi(), back.ppi(), {}};
  front.report(findings.warnings);
  back.report(findings.warnings);
  return findings;
}

}  // namespace versolay
