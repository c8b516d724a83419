#include "cli/help_format.h"

#include "cli/text_style.h"

namespace versolay::cli {

std::string HelpFormat::beside(const std::string& name, const std::string& words) const {
  constexpr std::size_t kGap = 2;
  std::string line = "  " + name;
  if (!words.empty()) {
    std::size_t used = width_of(line);
    if (used + kGap > get_column_width()) {
      line += "\n";
      used = 0;
    }
    line += std::string(get_column_width() - used, ' ') + words;
  }
  return wrapped_for(line, columns_) + "\n";
}

std::string HelpFormat::make_description(const CLI::App* app) const {
  return wrapped_for(Formatter::make_description(app), columns_);
}

std::string HelpFormat::make_usage(const CLI::App* app, std::string name) const {
  return wrapped_for(Formatter::make_usage(app, std::move(name)), columns_);
}

std::string HelpFormat::make_subcommand(const CLI::App* command) const {
  return beside(command->get_display_name(), command->get_description());
}

std::string HelpFormat::make_option(const CLI::Option* option, bool is_positional) const {
  return beside(make_option_name(option, is_positional) + make_option_opts(option),
                make_option_desc(option));
}

}  // namespace versolay::cli
