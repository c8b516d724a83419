#include "app/run_card.h"

#include <fmt/format.h>

#include "pdf/pdf_document.h"
#include "pdf/text_block.h"

namespace versolay {
namespace {

constexpr double kTextMm = 3.6;
constexpr double kLineMm = 6.0;
constexpr double kMarginMm = 18.0;
constexpr double kBoxMm = 3.4;

std::vector<std::string> instructions() {
  return {
      "Print the target sheets one by one in this order; set the printer up anew before every run, "
      "even when the set-up stays the same. Sheet numbers are printed on the targets.",
      "Same paper pack, same quality, actual size. Guides touch the paper without bowing it. Let "
      "side one dry before side two; never feed torn, punched or damp sheets.",
      "Tick a run off only when both sides are printed. If one fails, write it down and repeat it "
      "at the end: do not swap runs.",
      "Punch or prick only after the last run. Then scan and measure the sheets of each set-up "
      "into "
      "a readings file of its own, and compare them with --paired."};
}

std::string title() { return "Run card: which set-up comes next"; }

std::string box_line(const RunOrderRequest& request, const Run& run) {
  return fmt::format("run {}, sheet {}: {}", run.number, run.number, request.set_ups[run.set_up]);
}

/// Pages that are filled from the top.
class Sheets {
 public:
  explicit Sheets(const Paper& paper) : paper_(paper) { new_page(); }

  void paragraph(const std::string& text, double size_mm, bool bold) {
    for (const std::string& line : wrapped(text, width(), size_mm, bold)) {
      make_room();
      put(line, left(), size_mm, bold);
      y_ += kLineMm;
    }
  }
  void tick_box(const std::string& text) {
    make_room();
    const Point<PageMm> a{left(), y_ - kBoxMm + 0.4};
    drawing().push_back(
        Polyline{{a, {a.x + kBoxMm, a.y}, {a.x + kBoxMm, a.y + kBoxMm}, {a.x, a.y + kBoxMm}},
                 0.25,
                 true,
                 0.0,
                 {}});
    put(shortened(text, width() - 2 * kBoxMm, kTextMm), left() + 2 * kBoxMm, kTextMm, false);
    y_ += kLineMm;
  }
  void gap() { y_ += kLineMm / 2; }
  std::vector<PdfPage> take() { return std::move(pages_); }

 private:
  double left() const { return -paper_.width_mm / 2 + kMarginMm; }
  double width() const { return paper_.width_mm - 2 * kMarginMm; }
  Drawing& drawing() { return pages_.back().drawing; }
  void new_page() {
    pages_.push_back({paper_, {}, {}, {}});
    y_ = -paper_.height_mm / 2 + kMarginMm + kLineMm;
  }
  void make_room() {
    if (y_ > paper_.height_mm / 2 - kMarginMm) new_page();
  }
  void put(const std::string& text, double x, double size_mm, bool bold) {
    Text line;
    line.at = {x, y_};
    line.utf8 = text;
    line.size_mm = size_mm;
    line.bold = bold;
    drawing().push_back(line);
  }

  Paper paper_;
  std::vector<PdfPage> pages_;
  double y_ = 0.0;
};

}  // namespace

std::string run_card_text(const RunOrderRequest& request, std::span<const Run> runs) {
  std::string text = title() + "\n\n";
  for (const std::string& line : instructions()) text += "- " + line + "\n";
  int block = 0;
  for (const Run& run : runs) {
    if (run.block != block) text += "\n";
    block = run.block;
    text += "[ ] " + box_line(request, run) + "\n";
  }
  return text;
}

std::string run_card_pdf(const RunOrderRequest& request, std::span<const Run> runs) {
  Sheets sheets(parse_paper("a4"));
  sheets.paragraph(title(), 5.0, true);
  sheets.gap();
  for (const std::string& line : instructions()) sheets.paragraph(line, kTextMm, false);
  int block = 0;
  for (const Run& run : runs) {
    if (run.block != block) sheets.gap();
    block = run.block;
    sheets.tick_box(box_line(request, run));
  }
  PdfDocument document;
  document.title = title();
  document.pages = sheets.take();
  return render_pdf(document);
}

}  // namespace versolay
