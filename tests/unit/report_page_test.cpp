// The web page and the PDF of a report: what a user typed stays text, whatever it is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "pdf/fonts.h"
#include "profile/recommendation.h"
#include "report/html.h"
#include "report/html_text.h"
#include "report/report_pdf.h"
#include "report/report_sections.h"
#include "report/shapes.h"
#include "report/svg.h"
#include "report/what_if.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

Figure some_figure() {
  Figure f;
  f.id = "some";
  f.title = "Title <of> a \"figure\"";
  f.alt = "Seen & said";
  f.width_mm = 88;
  f.height_mm = 20;
  f.layers.push_back({Role::before,
                      {label({1, 2}, "a < b"), filled({0, 0, 10, 5}, 0.25), filled({0, 0, 1, 1}, 0),
                       Disc{{3, 4}, 2.0, 1.0, {}}, line({0, 0}, {1, 0}, 0.2, 0.5)}});
  f.numbers = {"Numbers", {"what", "how much"}, {{"<b>", "1 & 2"}}};
  return f;
}

ReportDocument document_with(const std::string& text) {
  return {text, text, {{"first", text, {Paragraph{text}, Figures{{some_figure()}}}}}, text};
}

// SOURCE  HTML Living Standard, 13.3 "Escaping a string", and the apostrophe besides.
TEST(HtmlText, EscapesWhatMeansSomething) {
  EXPECT_EQ(html_text("<b a='1'>Fink & \"Söhne\"</b> 鳥"),
            "&lt;b a=&#39;1&#39;&gt;Fink &amp; &quot;Söhne&quot;&lt;/b&gt; 鳥");
}

TEST(HtmlText, ReplacesWhatNoPageMayHold) {
  const std::string mark = "\xEF\xBF\xBD";
  EXPECT_EQ(html_text(std::string("a\0b", 3)), "a" + mark + "b");
  EXPECT_EQ(html_text("\x1B[0m\xFF"), mark + "[0m" + mark);
  EXPECT_EQ(html_text("\xEF\xBF\xBF\xC2\x85"), mark + mark);
  EXPECT_EQ(html_text("line\nline\t"), "line\nline\t");
}

TEST(HtmlProse, KeepsNumbersWithTheirUnitsAndOptionsWithTheirDashes) {
  EXPECT_EQ(html_prose("under 0.1 % with --sharpen, <5"),
            "under <span class=\"whole\">0.1 %</span> with "
            "<span class=\"whole\">--sharpen,</span> &lt;5");
}

TEST(Html, WordsOfTheUserAreNeverMarkup) {
  const std::string page = html_of(document_with("</title></script><img src=x onerror=y>"));
  EXPECT_THAT(page, Not(HasSubstr("<img")));
  EXPECT_THAT(page, Not(HasSubstr("</title></script>")));
  EXPECT_THAT(page, HasSubstr("&lt;img src=x onerror=y&gt;"));
}

TEST(Html, TheTableOfResultsCannotEndItsScript) {
  WhatIfTable w;
  w.data = {
      {"ppi", {{{"ppi", 300}, {"group", 0}}}},
      {"border_mm", 3},
      {"coverage", {0.95}},
      {"confidence", {0.9}},
      {"grow", {"</script><b>"}},
      {"chosen", {{"coverage", 0.95}, {"confidence", 0.9}, {"grow", "</script><b>"}, {"ppi", 300}}},
      {"count", "card"}};
  const std::string page = html_of({"t", "s", {{"first", "h", {w}}}, "c"});
  EXPECT_THAT(page, Not(HasSubstr("</script><b>")));
  EXPECT_THAT(page, HasSubstr("\\u003c/script>"));
}

TEST(Svg, EveryShapeAndWhatItSays) {
  const std::string svg = svg_of(some_figure());
  EXPECT_THAT(svg, HasSubstr("viewBox=\"-44 -10 88 20\" role=\"img\""));
  EXPECT_THAT(svg, HasSubstr("<title id=\"some-title\">Title &lt;of&gt; a &quot;figure&quot;<"));
  EXPECT_THAT(svg, HasSubstr("<desc id=\"some-alt\">Seen &amp; said</desc>"));
  EXPECT_THAT(svg, HasSubstr(">a &lt; b</text>"));
  EXPECT_THAT(svg, HasSubstr("fill-opacity=\"0.25\""));
  EXPECT_THAT(svg, HasSubstr("class=\"paper\""));  // ink 0 is the paper, also of a dark page
  EXPECT_THAT(svg, HasSubstr("r=\"1.5\""));        // the ring from 1 to 2 mm
  EXPECT_THAT(svg, HasSubstr("stroke-dasharray=\"0.5\""));
}

TEST(ReportPdf, NothingIsWiderThanThePage) {
  const Paper a4 = parse_paper("a4");
  const std::string path(300, 'x');
  ReportDocument document = document_with("word word " + path);
  document.sections[0].blocks.push_back(Paragraph{"versolay " + path, Tone::command});
  document.sections[0].blocks.push_back(
      Table{"Caption", {"a", "b"}, {{path, "word"}, {"word", path}}});
  const PdfDocument pdf = pdf_of(document, a4);
  for (const PdfPage& page : pdf.pages) {
    for (const Shape& shape : page.drawing) {
      const auto* text = std::get_if<Text>(&shape);
      if (!text || text->align != Align::left) continue;
      EXPECT_LE(text->at.x + text_width_mm(text->utf8, text->size_mm, text->bold), 105 - 14);
      EXPECT_LT(std::abs(text->at.y), 297 / 2.0 - 5);
    }
  }
}

/// The share of the height between the margins that a page uses.
double filled_share(const PdfPage& page) {
  double lowest = -page.paper.height_mm / 2;
  for (const Shape& shape : page.drawing) {
    const auto* text = std::get_if<Text>(&shape);
    if (text && text->align == Align::left) lowest = std::max(lowest, text->at.y);
  }
  const double room = page.paper.height_mm - 2 * 15.0;
  return (lowest + page.paper.height_mm / 2 - 15.0) / room;
}

// However long a report is, its last page is no orphan with a few lines.
TEST(ReportPdf, TheLastPageIsAtLeastAQuarterFull) {
  for (const char* paper : {"a4", "letter"}) {
    for (int rows = 150; rows < 230; ++rows) {
      ReportDocument document = document_with("word");
      Table table{"Caption", {"a", "b"}, {}};
      for (int i = 0; i < rows; ++i) table.rows.push_back({"one", "two"});
      document.sections[0].blocks.push_back(table);
      const PdfDocument pdf = pdf_of(document, parse_paper(paper));
      ASSERT_GT(pdf.pages.size(), 1U);
      EXPECT_GE(filled_share(pdf.pages.back()), 0.25) << rows << " rows on " << paper;
    }
  }
}

TEST(ReportPdf, TheReportsOfSampleProfilesEndOnAWellFilledPage) {
  for (const std::size_t feeds : {std::size_t{2}, std::size_t{5}, std::size_t{8}}) {
    const auto eight = testing::eight_feeds();
    const PrinterProfile profile =
        testing::profile_of({eight.begin(), eight.begin() + static_cast<std::ptrdiff_t>(feeds)});
    AdviceRequest request;
    request.grid = testing::nine_cards();
    const Effort little{.populations = 200, .sheets = 200, .threads = 2};
    const Result<Advice> advice = advise(profile, request, little);
    const std::string next = "versolay impose --fronts FOLDER --back BACK.png --out deck.pdf";
    const auto sections =
        advice ? report_sections(profile, advice.value(), what_if(profile, request, little), next)
               : report_sections(profile, advice.refusal(), next);
    for (const char* paper : {"a4", "letter"}) {
      const PdfDocument pdf = pdf_of({"t", "s", sections, "made today"}, parse_paper(paper));
      EXPECT_GE(filled_share(pdf.pages.back()), 0.25) << feeds << " feeds on " << paper;
    }
  }
}

}  // namespace
}  // namespace versolay
