#include "report/html.h"

#include <fmt/format.h>

#include "core/numbers.h"
#include "report/html_text.h"
#include "report/page_assets.h"
#include "report/svg.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// A table that stays one for screen readers when a phone shows its cells below each other.
std::string table_html(const Table& table) {
  if (table.rows.empty()) return "";
  std::string html = "<table role=\"table\">\n<caption>" + html_text(table.caption) +
                     "</caption>\n<thead role=\"rowgroup\"><tr role=\"row\">";
  for (const std::string& head : table.head) {
    html += "<th scope=\"col\" role=\"columnheader\">" + html_prose(head) + "</th>";
  }
  html += "</tr></thead>\n<tbody role=\"rowgroup\">\n";
  for (const auto& row : table.rows) {
    html += "<tr role=\"row\">";
    for (std::size_t i = 0; i < row.size(); ++i) {
      html += i == 0
                  ? fmt::format("<th scope=\"row\" role=\"rowheader\">{}</th>", html_prose(row[i]))
                  : fmt::format("<td role=\"cell\" data-label=\"{}\">{}</td>",
                                html_text(table.head[i]), html_prose(row[i]));
    }
    html += "</tr>\n";
  }
  return html + "</tbody>\n</table>\n";
}

std::string figure_html(const Figure& f) {
  std::string html = fmt::format("<figure id=\"{}\">\n<h3>{}</h3>\n{}<figcaption>{}</figcaption>\n",
                                 f.id, html_text(f.title), svg_of(f), html_prose(f.caption));
  if (!f.numbers.rows.empty()) {
    html += "<details><summary>" + html_text(tr("The numbers")) + "</summary>\n" +
            table_html(f.numbers) + "</details>\n";
  }
  return html + "</figure>\n";
}

std::string select_html(const std::string& name, const char* words, const Json& choices,
                        const std::string& chosen, const char* unit, double factor) {
  std::string html = fmt::format("<div><label for=\"wish-{0}\">{1}</label><select id=\"wish-{0}\">",
                                 name, html_text(words));
  for (const Json& choice : choices) {
    const std::string value = choice.is_string() ? choice.get<std::string>() : choice.dump();
    const std::string shown =
        choice.is_string() ? value : format_number(factor * choice.get<double>(), 2) + unit;
    html += fmt::format("<option value=\"{0}\"{1}>{2}</option>", html_text(value),
                        value == chosen ? " selected" : "", html_text(shown));
  }
  return html + "</select></div>\n";
}

std::string result_html(const std::string& id, const char* words) {
  return fmt::format(
      "<dt>{}</dt><dd><output id=\"result-{}\" for=\"wish-coverage wish-confidence wish-grow "
      "wish-ppi "
      "wish-border\"></output></dd>\n",
      html_text(words), id);
}

/// JSON that cannot end the script element that it is in.
std::string script_safe(const Json& data) {
  std::string text;
  for (char c : data.dump(-1, ' ', true)) {
    text += c == '<' ? std::string("\\u003c") : std::string(1, c);
  }
  return text;
}

/// The texts of report.js: English to shown.
Json script_words() {
  constexpr const char* kTexts[] = {
      tr_noop("under 0.001 mm"),
      tr_noop("not at all"),
      tr_noop("to the right"),
      tr_noop("to the left"),
      tr_noop("down"),
      tr_noop("up"),
      tr_noop("{} degrees clockwise"),
      tr_noop("{} degrees anticlockwise"),
      tr_noop("{} px in width, {} px in height"),
      tr_noop("{} ({} off)"),
      tr_noop("{} or better (up to {} off)"),
      tr_noop("enter a border of more than 0 mm"),
  };
  Json words;
  for (const char* text : kTexts) words[text] = tr(text);
  return words;
}

std::string what_if_html(const WhatIfTable& w) {
  Json d = w.data;
  d["words"] = script_words();
  const Json& chosen = d["chosen"];
  Json resolutions = Json::array();
  for (const Json& p : d["ppi"]) resolutions.push_back(p["ppi"]);

  std::string html = fmt::format(
      "<div id=\"what-if\" hidden>\n<div class=\"wishes\" role=\"group\" aria-label=\"{}\">\n",
      html_text(tr("Your requirements")));
  html += select_html("coverage",
                      d["count"] == "card" ? tr("Share of good cards") : tr("Share of good sheets"),
                      d["coverage"], chosen["coverage"].dump(), " %", 100);
  html += select_html("confidence", tr("How sure"), d["confidence"], chosen["confidence"].dump(),
                      " %", 100);
  html += select_html("grow", tr("Growth of the back"), d["grow"],
                      chosen["grow"].get<std::string>(), "", 1);
  html += select_html("ppi", tr("Pixels per inch"), resolutions, chosen["ppi"].dump(), " ppi", 1);
  html += fmt::format(
      "<div><label for=\"wish-border\">{}</label><input id=\"wish-border\" "
      "type=\"number\" min=\"0.5\" max=\"50\" step=\"0.5\" value=\"{}\"></div>\n</div>\n",
      html_text(tr("Border, mm")), format_number(d["border_mm"].get<double>(), 2));
  html += "<dl class=\"results\" aria-live=\"polite\">\n";
  html += result_html("across", tr("Move the back left or right"));
  html += result_html("along", tr("Move it up or down"));
  html += result_html("turn", tr("Turn it"));
  html += result_html("x", tr("Let it reach beyond the card, left and right"));
  html += result_html("y", tr("... and at top and bottom"));
  html += result_html("total", tr("Total added to the picture"));
  html += result_html("typical", tr("Border: wide to narrow side, typically"));
  html += result_html("worst", tr("Border: on the stated share of cards"));
  html += "</dl>\n</div>\n<details id=\"what-if-table\" open><summary>" +
          html_text(tr("All results as a table")) + "</summary>\n" + table_html(w.table) +
          "</details>\n";
  html += "<script type=\"application/json\" id=\"what-if-data\">" + script_safe(d) + "</script>\n";
  return html + "<script>\n" + std::string(kReportJs) + "</script>\n";
}

struct HtmlBlockWriter {
  std::string operator()(const Paragraph& p) const {
    switch (p.tone) {
      case Tone::plain:
        return "<p>" + html_prose(p.text) + "</p>\n";
      case Tone::lead:
        return "<p class=\"lead\">" + html_prose(p.text) + "</p>\n";
      case Tone::promise:
        return "<p class=\"promise\">" + html_prose(p.text) + "</p>\n";
      case Tone::caution:
        return "<p class=\"caution\"><strong>" + html_text(tr("Caution.")) + "</strong> " +
               html_prose(p.text) + "</p>\n";
      case Tone::command:
        return "<p class=\"command\"><code>" + html_prose(p.text) + "</code></p>\n";
    }
    return "";
  }
  std::string operator()(const Table& t) const { return table_html(t); }
  std::string operator()(const Figures& f) const {
    std::string html = "<div class=\"figures\">\n";
    for (const Figure& figure : f.list) html += figure_html(figure);
    return html + "</div>\n";
  }
  std::string operator()(const WhatIfTable& w) const { return what_if_html(w); }
};

std::string section_html(const Section& s, bool first) {
  std::string html = fmt::format(
      "<section id=\"{0}\" aria-labelledby=\"{0}-heading\"{1}>\n"
      "<h2 id=\"{0}-heading\">{2}</h2>\n",
      s.id, first ? " class=\"first\"" : "", html_text(s.heading));
  for (const Block& block : s.blocks) html += std::visit(HtmlBlockWriter{}, block);
  return html + "</section>\n";
}

std::string contents_html(const ReportDocument& document) {
  std::string html = "<nav aria-label=\"" + html_text(tr("Contents")) + "\"><ul>\n";
  for (std::size_t i = 1; i < document.sections.size(); ++i) {
    html += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", document.sections[i].id,
                        html_text(document.sections[i].heading));
  }
  return html + "</ul></nav>\n";
}

}  // namespace

std::string html_of(const ReportDocument& document) {
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"" +
      // Translators: the code of your language, as in de
      html_text(tr("en")) +
      "\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; script-src 'unsafe-inline'\">\n<title>" +
      html_text(document.title) + "</title>\n<style>\n" + std::string(kReportCss) +
      "</style>\n</head>\n<body>\n<header>\n<h1>" + html_text(document.title) + "</h1>\n<p>" +
      html_text(document.subtitle) + "</p>\n</header>\n<main>\n";
  for (std::size_t i = 0; i < document.sections.size(); ++i) {
    html += section_html(document.sections[i], i == 0);
    if (i == 0) html += contents_html(document);
  }
  return html + "</main>\n<footer>" + html_text(document.colophon) +
         "</footer>\n</body>\n</html>\n";
}

}  // namespace versolay
