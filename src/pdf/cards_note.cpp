#include "pdf/cards_note.h"

#include <qpdf/QPDF.hh>
#include <stdexcept>

#include "core/json.h"
#include "pdf/reading_errors.h"
#include "pdf/unpacking_budget.h"

namespace versolay {
namespace {

constexpr const char* kCardsKey = "/VersolayCards";
constexpr double kFarthestMm = 700.0;  // paper is up to 600 mm
constexpr int kMostCards = 1'000'000;
constexpr std::size_t kLongestNote = 1u << 20;

Json json_of(const PageRect& r) {
  return Json::array({rounded(r.left_mm, 4), rounded(r.top_mm, 4), rounded(r.right_mm, 4),
                      rounded(r.bottom_mm, 4)});
}

std::vector<double> numbers_of(const JsonPlace& list, std::size_t count) {
  std::vector<double> numbers;
  for (const JsonPlace& item : list.items()) {
    numbers.push_back(item.number_in(-kFarthestMm, kFarthestMm));
  }
  if (numbers.size() != count) throw std::runtime_error("another number of numbers");
  return numbers;
}

PageRect rect_of(const JsonPlace& list) {
  const std::vector<double> n = numbers_of(list, 4);
  if (!(n[0] < n[2] && n[1] < n[3])) throw std::runtime_error("an empty rectangle");
  return {n[0], n[1], n[2], n[3]};
}

CardsNote note_of(const std::string& text, const std::string& file) {
  const Json json = parse_json(text, file);
  const JsonPlace document(json, file);
  require_schema(document, "cards", 1);
  CardsNote note;
  note.cards = document.at("cards").integer();
  if (note.cards < 1 || note.cards > kMostCards)
    throw std::runtime_error("no such number of cards");
  for (const JsonPlace& back : document.at("backs").items()) {
    const std::vector<double> moved = numbers_of(back.at("moved_mm"), 2);
    note.backs.push_back(
        {rect_of(back.at("card_mm")), {moved[0], moved[1]}, rect_of(back.at("covered_mm"))});
  }
  if (note.backs.empty()) throw std::runtime_error("no backs");
  return note;
}

std::optional<std::string> text_of_note(const std::string& bytes, const std::string& file) {
  UnpackingBudget unpacking(file);
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile(file.c_str(), bytes.data(), bytes.size());
    QPDFObjectHandle info = pdf.getTrailer().getKey("/Info");
    if (!info.isDictionary()) return std::nullopt;
    QPDFObjectHandle text = info.getKey(kCardsKey);
    unpacking.require_kept();
    if (!text.isString()) return std::nullopt;
    std::string value = text.getUTF8Value();
    if (value.size() > kLongestNote) return std::nullopt;
    return value;
  } catch (const std::runtime_error&) {
    throw_reading_error(file, bytes, unpacking);
  }
}

}  // namespace

void note_cards(QPDF& pdf, const CardsNote& note) {
  QPDFObjectHandle info = pdf.getTrailer().getKey("/Info");
  if (!info.isDictionary()) return;
  Json backs = Json::array();
  for (const CardBack& back : note.backs) {
    backs.push_back({{"card_mm", json_of(back.card)},
                     {"moved_mm", {rounded(back.moved_mm.x(), 4), rounded(back.moved_mm.y(), 4)}},
                     {"covered_mm", json_of(back.covered)}});
  }
  const Json json = {
      {"schema", "versolay.cards/1"}, {"cards", note.cards}, {"backs", std::move(backs)}};
  info.replaceKey(kCardsKey, QPDFObjectHandle::newUnicodeString(json.dump()));
}

std::optional<CardsNote> noted_cards(const std::string& bytes, const std::string& file) {
  const auto text = text_of_note(bytes, file);
  if (!text) return std::nullopt;
  try {
    return note_of(*text, file);
  } catch (const std::exception&) {  // somebody else's, or spoilt: the pages can be read without it
    return std::nullopt;
  }
}

}  // namespace versolay
