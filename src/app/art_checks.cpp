#include "app/art_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/numbers.h"
#include "core/translation.h"

namespace versolay {
namespace {

constexpr double kAspectTolerance = 0.01;
constexpr double kPpiTolerance = 0.03;  // 744 px over 63 mm are 299.96 ppi, and nobody minds 295

/// Remarks on the artwork of one side.
class SideFindings {
 public:
  SideFindings(std::string side, CardSize card, const ArtRules& rules, double wanted_ppi)
      : side_(std::move(side)), card_(card), rules_(rules), wanted_ppi_(wanted_ppi) {}

  void add(const Artwork& art) {
    const ArtSize size = size_of(art);
    const double bleed = bleed_of(art, rules_);
    const CardPlace place{{0, 0, card_.width_mm, card_.height_mm}, {}, 0};
    const ImagePlace image = place_image(place, size, rules_.fit, bleed, {});
    ++count_;
    const auto* picture = std::get_if<CodedImage>(&art);
    if (picture != nullptr) note_ppi(*picture, size.width / image.width_mm * kMmPerInch);
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
    if (coarse_ > 0) {
      notices.push_back(
          {"low_resolution",
           tr("Fewer than {} pixels per inch when printed: {} of {} {} images; the coarsest, {}, "
              "has {}. Cards may look soft: export pictures at {} x {} px, or give --ppi {} if "
              "that "
              "is fine.",
              format_number(wanted_ppi_, 0), coarse_, count_, side_, coarsest_,
              format_number(ppi_.lowest, 0), std::lround(artwork_px_from_mm(width, wanted_ppi_)),
              std::lround(artwork_px_from_mm(height, wanted_ppi_)),
              format_number(std::floor(ppi_.lowest), 0))});
    }
    if (misshapen_ > 0) {
      notices.push_back(
          {"wrong_aspect",
           tr("Not of the shape of the card: {} of {} {} images; the worst, {}, is {} % too {} for "
              "{} x {} mm ({} x {} px at {} ppi). {}",
              misshapen_, count_, side_, worst_shape_,
              format_fixed(std::abs(worst_aspect_) * 100, 1),
              worst_aspect_ > 0 ? tr("wide") : tr("high"), format_number(width, 2),
              format_number(height, 2), std::lround(artwork_px_from_mm(width, wanted_ppi_)),
              std::lround(artwork_px_from_mm(height, wanted_ppi_)), format_number(wanted_ppi_, 0),
              what_happens())});
    }
  }

 private:
  void note_ppi(const CodedImage& image, double ppi) {
    if (ppi_.highest == 0 || ppi < ppi_.lowest) {
      ppi_.lowest = ppi;
      coarsest_ = image.file;
    }
    ppi_.highest = std::max(ppi_.highest, ppi);
    if (ppi < wanted_ppi_ * (1 - kPpiTolerance)) ++coarse_;
  }

  const char* what_happens() const {
    switch (rules_.fit) {
      case ArtFit::fill:
        return tr(
            "They fill the card and lose the excess on both sides; --fit fit shows all of them.");
      case ArtFit::fit:
        return tr(
            "They are shown whole; the rest of the card stays empty, or goes on in the colour "
            "of a back's plain edge.");
      case ArtFit::crop:
        break;
    }
    return tr("They keep their size and are cut to the card.");
  }

  std::string side_;
  CardSize card_;
  ArtRules rules_;
  double wanted_ppi_;
  EffectivePpi ppi_;
  int count_ = 0;
  int coarse_ = 0;
  int misshapen_ = 0;
  double worst_aspect_ = 0.0;
  std::string coarsest_;
  std::string worst_shape_;
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
  SideFindings front(tr("front"), card, fronts, wanted_ppi);
  SideFindings back(tr("back"), card, backs, wanted_ppi);
  for (const std::size_t i : front_images) front.add(deck.images[i]);
  for (const std::size_t i : back_images) back.add(deck.images[i]);
  ArtFindings findings{front.ppi(), back.ppi(), {}};
  front.report(findings.warnings);
  back.report(findings.warnings);
  return findings;
}

}  // namespace versolay
