#include "words/translation.h"

#include <libintl.h>

#include <clocale>
#include <cstdlib>

#include "core/data_folder.h"

namespace versolay {
namespace {

constexpr char kDomain[] = "versolay";

std::string filled(const char* text, const char* english, fmt::format_args values) {
  try {
    return fmt::vformat(text, values);
  } catch (const fmt::format_error&) {
    return fmt::vformat(english, values);
  }
}

}  // namespace

void translate_texts() {
  std::setlocale(LC_MESSAGES, "");
  if (const auto folder = catalogue_folder()) bindtextdomain(kDomain, folder->c_str());
  for (const char* domain : {kDomain, "libc"}) bind_textdomain_codeset(domain, "UTF-8");
}

const char* tr(const char* english) {
  return *english == '\0' ? english : dgettext(kDomain, english);
}

const char* tr(const Plural& english, long count) {
  return dngettext(kDomain, english.one, english.many, static_cast<unsigned long>(std::abs(count)));
}

std::string translated(fmt::string_view english, fmt::format_args values) {
  return filled(tr(english.data()), english.data(), values);
}

std::string translated(fmt::string_view one, fmt::string_view many, long count,
                       fmt::format_args values) {
  const auto n = static_cast<unsigned long>(std::abs(count));
  return filled(dngettext(kDomain, one.data(), many.data(), n), n == 1 ? one.data() : many.data(),
                values);
}

}  // namespace versolay
