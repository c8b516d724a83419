#include "report/run_card.h"

#include "pdf/filled_pages.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::vector<std::string> instructions() {
  return {
      tr("Print the target sheets one by one in this order; set up the printer again before every "
         "run, even when the set-up stays the same. Sheet numbers are printed on the targets."),
      tr("Same paper pack, same quality, actual size. Guides touch the paper without bowing it. "
         "Let side one dry before side two; never feed torn, punched or damp sheets."),
      tr("Tick a run off only when both sides are printed. If one fails, write it down and repeat "
         "it at the end: do not swap runs."),
      tr("Punch or prick only after the last run. Then scan and measure the sheets of each set-up "
         "into a separate readings file, and compare them with --paired.")};
}

std::string title() { return tr("Run card: which set-up comes next"); }

std::string box_line(const RunOrderRequest& request, const Run& run) {
  return tr("run {}, sheet {}: {}", run.number, run.number, request.set_ups[run.set_up]);
}

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
  FilledPages sheets(parse_paper("a4"), {});
  sheets.title(title(), 5.0);
  sheets.gap();
  for (const std::string& line : instructions()) sheets.paragraph(line);
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
