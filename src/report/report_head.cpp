#include "report/report_head.h"

#include <cctype>

#include "core/files.h"
#include "core/software.h"
#include "core/utf8.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string paper_words(const Paper& paper) {
  std::string name = paper.name;
  if (!name.empty()) name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
  return tr("{} paper", name);
}

std::string subtitle_of(const PrinterProfile& p) {
  std::string text;
  for (const std::string& part :
       {p.feed, p.stock, p.quality, paper_words(p.paper),
        tr("turned on the {}", p.turn == Turn::long_edge ? tr("long edge") : tr("short edge"))}) {
    if (!part.empty()) text += (text.empty() ? "" : ", ") + part;
  }
  return text;
}

}  // namespace

void add_head(const PrinterProfile& profile, const std::string& profile_file,
              ReportDocument& document) {
  document.title = tr("Front and back: {}", profile.printer);
  document.subtitle = subtitle_of(profile);
  document.colophon =
      tr("Made by {} on {} from {} (profile of {}).", kSoftware, utc_now().substr(0, 10),
         valid_utf8(profile_file), profile.created.substr(0, 10));
}

}  // namespace versolay
