#include "target/waste_code.h"

#include <fmt/format.h>

#include <cmath>

#include "core/expect.h"
#include "target/identity.h"

namespace versolay {
namespace {

constexpr std::size_t kDigits = 62;
constexpr int kCheckModulus = 997;

enum Flag { short_edge = 1, verso = 2, rows_top_bottom = 4, rows_left_right = 8, all_flags = 15 };

/// A number of the correction: whole steps of `step`, written with `offset` added.
struct CorrectionField {
  double step;
  int offset;
  int width;
};
// In the order of Registration::vec(): mm, mm, mrad, ppm, ppm, mrad.
constexpr CorrectionField kCorrection[6] = {{0.001, 5000, 4}, {0.001, 5000, 4}, {0.001, 50000, 5},
                                            {1.0, 5000, 4},   {1.0, 5000, 4},   {0.001, 5000, 4}};

int check_sum(std::string_view digits) {
  int sum = 0;
  for (const char c : digits) sum = (sum * 10 + (c - '0')) % kCheckModulus;
  return sum;
}

int run_number(std::string_view run) {
  int number = 0;
  for (const char c : run) {
    number =
        number * static_cast<int>(kRunAlphabet.size()) + static_cast<int>(kRunAlphabet.find(c));
  }
  return number;
}

std::optional<std::string> run_of(int number) {
  std::string run(4, ' ');
  for (int i = 3; i >= 0; --i) {
    run[static_cast<std::size_t>(i)] =
        kRunAlphabet[static_cast<std::size_t>(number) % kRunAlphabet.size()];
    number /= static_cast<int>(kRunAlphabet.size());
  }
  if (number != 0) return std::nullopt;
  return run;
}

std::optional<WasteLattice> lattice_of_format(int format) {
  for (const auto lattice : {WasteLattice::from_middle, WasteLattice::from_corners}) {
    if (format == static_cast<int>(lattice)) return lattice;
  }
  return std::nullopt;
}

/// Takes fields off the front of the digits.
class Fields {
 public:
  explicit Fields(std::string_view digits) : rest_(digits) {}
  int take(std::size_t width) {
    int value = 0;
    for (const char c : rest_.substr(0, width)) value = value * 10 + (c - '0');
    rest_.remove_prefix(width);
    return value;
  }
  double tenths_mm(std::size_t width) { return take(width) / 10.0; }

 private:
  std::string_view rest_;
};

long tenths(double mm) { return std::lround(mm * 10); }

}  // namespace

std::optional<Registration> coded_correction(const Registration& wanted) {
  RegistrationVector v = wanted.vec();
  for (int i = 0; i < 6; ++i) {
    const long steps = std::lround(v[i] / kCorrection[i].step);
    if (std::abs(steps) >= kCorrection[i].offset) return std::nullopt;
    v[i] = static_cast<double>(steps) * kCorrection[i].step;
  }
  return Registration::from(v);
}

std::string waste_code_digits(const ProductionPage& page) {
  const PageIdentity& id = page.identity;
  const WasteLayout& layout = page.layout;
  const int flags = (id.turn == Turn::short_edge ? short_edge : 0) |
                    (id.side == Side::verso ? verso : 0) |
                    (layout.rows_top_bottom ? rows_top_bottom : 0) |
                    (layout.rows_left_right ? rows_left_right : 0);
  std::string digits = fmt::format("{:02}{:04}{:04}{:02}{:07}{:03}",
                                   static_cast<int>(layout.lattice), tenths(id.paper.width_mm),
                                   tenths(id.paper.height_mm), flags, run_number(id.run), id.sheet);
  const RegistrationVector v = page.correction.vec();
  for (int i = 0; i < 6; ++i) {
    digits += fmt::format("{:0{}}", std::lround(v[i] / kCorrection[i].step) + kCorrection[i].offset,
                          kCorrection[i].width);
  }
  digits += fmt::format("{:03}{:03}{:03}{:03}", tenths(layout.frame_mm), tenths(layout.tag_x_mm),
                        tenths(layout.tag_y_mm), layout.rings);
  digits += fmt::format("{:03}", check_sum(digits));
  expect(digits.size() == kDigits);
  return digits;
}

std::optional<ProductionPage> production_page_from_digits(std::string_view digits) {
  if (digits.size() != kDigits || digits.find_first_not_of("0123456789") != std::string::npos) {
    return std::nullopt;
  }
  const std::string_view body = digits.substr(0, kDigits - 3);
  if (Fields(digits.substr(kDigits - 3)).take(3) != check_sum(body)) return std::nullopt;
  Fields fields(body);
  const auto lattice = lattice_of_format(fields.take(2));
  if (!lattice) return std::nullopt;
  ProductionPage page;
  page.layout.lattice = *lattice;
  const double width_mm = fields.tenths_mm(4);
  const double height_mm = fields.tenths_mm(4);
  if (std::min(width_mm, height_mm) < 100 || std::max(width_mm, height_mm) > 600) {
    return std::nullopt;
  }
  page.identity.paper = paper_of_size(width_mm, height_mm);
  const int flags = fields.take(2);
  if (flags > all_flags) return std::nullopt;
  page.identity.turn = (flags & short_edge) != 0 ? Turn::short_edge : Turn::long_edge;
  page.identity.side = (flags & verso) != 0 ? Side::verso : Side::recto;
  page.layout.rows_top_bottom = (flags & rows_top_bottom) != 0;
  page.layout.rows_left_right = (flags & rows_left_right) != 0;
  const auto run = run_of(fields.take(7));
  if (!run) return std::nullopt;
  page.identity.run = *run;
  page.identity.sheet = fields.take(3);
  if (page.identity.sheet < 1) return std::nullopt;
  RegistrationVector v;
  for (int i = 0; i < 6; ++i) {
    const CorrectionField& field = kCorrection[i];
    v[i] = (fields.take(static_cast<std::size_t>(field.width)) - field.offset) * field.step;
  }
  page.correction = Registration::from(v);
  page.layout.frame_mm = fields.tenths_mm(3);
  page.layout.tag_x_mm = fields.tenths_mm(3);
  page.layout.tag_y_mm = fields.tenths_mm(3);
  page.layout.rings = fields.take(3);
  if (2 * page.layout.frame_mm >= std::min(width_mm, height_mm)) return std::nullopt;
  return page;
}

}  // namespace versolay
