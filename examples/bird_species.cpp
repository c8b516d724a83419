// Who is in the deck. The colours are those of a child's paint box, not of a field guide.
#include "bird_art.h"

namespace bird_deck {
namespace {

constexpr int kBlack = 0x2b2b30;
constexpr int kWhite = 0xf6f2e8;
constexpr int kSlate = 0x6f7c8a;
constexpr int kBrown = 0x8a6544;
constexpr int kUmber = 0x5f4632;
constexpr int kRust = 0xc8622d;
constexpr int kGold = 0xe8b92f;
constexpr int kLemon = 0xf0d45c;
constexpr int kOlive = 0x87935a;
constexpr int kBlue = 0x3f78b5;
constexpr int kTeal = 0x1f8f9c;
constexpr int kPink = 0xd98a80;
constexpr int kBuff = 0xd9bd92;
constexpr int kGrey = 0xa9adb0;
constexpr int kHorn = 0x4a4440;
constexpr int kLeg = 0x7a4f3a;

}  // namespace

const std::vector<Bird>& birds() {
  // name, cm, habitat, {back wing breast belly head cap cheek throat bar tail beak legs},
  // {beak length, beak height, tail length, tail angle, roundness, crest, eye stripe, spots}
  static const std::vector<Bird> kBirds = {
      {"Robin",
       14,
       "garden",
       {kBrown, kUmber, kRust, kWhite, kBrown, kBrown, kRust, kRust, kBrown, kUmber, kHorn, kLeg},
       {.11, .05, .50, -32, 1.08, 0, false, false}},
      {"Blue Tit",
       12,
       "garden",
       {kOlive, kBlue, kLemon, kLemon, kWhite, kBlue, kWhite, kBlack, kWhite, kBlue, kHorn, kSlate},
       {.08, .06, .45, -30, 1.10, 0, true, false}},
      {"Great Tit",
       14,
       "woodland",
       {kOlive, kSlate, kGold, kLemon, kBlack, kBlack, kWhite, kBlack, kWhite, kSlate, kHorn,
        kSlate},
       {.10, .06, .50, -32, 1.02, 0, false, false}},
      {"Blackbird",
       25,
       "garden",
       {kBlack, 0x1f1f23, kBlack, 0x3a3a40, kBlack, kBlack, kBlack, kBlack, kBlack, kBlack, kGold,
        kUmber},
       {.15, .06, .68, -26, .94, 0, false, false}},
      {"House Sparrow",
       15,
       "town",
       {kBrown, kUmber, kGrey, kGrey, kGrey, kSlate, kWhite, kBlack, kWhite, kUmber, kHorn, kLeg},
       {.11, .09, .48, -30, 1.06, 0, false, false}},
      {"Goldfinch",
       12,
       "meadow",
       {kBuff, kBlack, kBuff, kWhite, 0xb8322f, kBlack, kWhite, 0xb8322f, kGold, kBlack, 0xe3c9b0,
        kLeg},
       {.15, .08, .50, -33, 1.0, 0, false, false}},
      {"Chaffinch",
       15,
       "woodland",
       {kBrown, kBlack, kPink, kPink, kSlate, 0x5f7f9c, kPink, kPink, kWhite, kBlack, kSlate, kLeg},
       {.11, .08, .56, -30, .98, 0, false, false}},
      {"Wren",
       10,
       "hedge",
       {kBrown, kUmber, kBuff, kBuff, kBrown, kBrown, kBuff, kBuff, kBuff, kUmber, kHorn, kLeg},
       {.14, .04, .34, 48, 1.18, 0, true, true}},
      {"Starling",
       21,
       "town",
       {0x2c3445, 0x3b3a3a, 0x2d4a48, 0x33304a, 0x2c3445, 0x2c3445, 0x2d4a48, 0x33304a, kBrown,
        0x3b3a3a, kGold, kLeg},
       {.18, .06, .36, -36, .96, 0, false, true}},
      {"Magpie",
       45,
       "open ground",
       {kBlack, 0x24567e, kBlack, kWhite, kBlack, kBlack, kBlack, kBlack, kWhite, 0x1f5d5a, kHorn,
        kHorn},
       {.14, .09, 1.05, -24, .94, 0, false, false}},
      {"Bullfinch",
       16,
       "orchard",
       {kGrey, kBlack, 0xd9645a, 0xd9645a, kBlack, kBlack, 0xd9645a, 0xd9645a, kWhite, kBlack,
        kHorn, kLeg},
       {.09, .11, .50, -31, 1.14, 0, false, false}},
      {"Nuthatch",
       14,
       "woodland",
       {0x6d8fae, kSlate, kBuff, 0xd9955a, 0x6d8fae, 0x6d8fae, kWhite, kWhite, kSlate, kSlate,
        kHorn, kLeg},
       {.18, .05, .30, -28, .98, 0, true, false}},
      {"Kingfisher",
       17,
       "river",
       {kTeal, 0x1a7788, kRust, kRust, kTeal, kTeal, kRust, kWhite, 0x7fd0d8, kTeal, kHorn,
        0xd2502f},
       {.38, .08, .24, -40, 1.06, 0, true, false}},
      {"Grey Wagtail",
       18,
       "river",
       {kSlate, kBlack, kGold, kLemon, kSlate, kSlate, kSlate, kWhite, kWhite, kBlack, kHorn,
        kPink},
       {.13, .04, .98, -18, .86, 0, true, false}},
      {"Collared Dove",
       32,
       "town",
       {0xc9b8a6, 0xb09a86, 0xdfcdbd, 0xe6d8cb, 0xdfcdbd, 0xdfcdbd, 0xdfcdbd, 0xdfcdbd, kGrey,
        0xb09a86, kBlack, 0xb5433f},
       {.10, .05, .72, -26, .98, 0, false, false}},
      {"Redstart",
       14,
       "woodland",
       {kSlate, kUmber, kRust, kBuff, kSlate, 0xb9c3cc, kBlack, kBlack, kBrown, kRust, kHorn,
        kHorn},
       {.11, .05, .58, -30, .96, 0, false, false}},
      {"Greenfinch",
       15,
       "orchard",
       {kOlive, 0x6d7a45, 0xa9b35c, 0xc5c878, kOlive, kOlive, 0x9aa65e, 0xa9b35c, kGold, 0x6d7a45,
        0xe3c9b0, kPink},
       {.11, .10, .46, -32, 1.06, 0, false, false}},
      {"Jay",
       34,
       "woodland",
       {0xc79a86, kBlack, 0xd6ab98, 0xe0bfae, 0xc79a86, kUmber, 0xd6ab98, kWhite, 0x4b9ad8, kBlack,
        kHorn, kLeg},
       {.13, .08, .64, -27, 1.0, .07, false, false}},
  };
  return kBirds;
}

}  // namespace bird_deck
