#include "cli/typed_option.h"

#include "core/numbers.h"
#include "versolay/advice.h"

namespace versolay::cli {
namespace {

// CLI11 keeps no notes on an option, but checks with a name.
constexpr char kRead[] = "file that is read";
constexpr char kWritten[] = "file that is written";

bool has_check(CLI::Option& option, const char* name) {
  try {
    return option.get_validator(name) != nullptr;
  } catch (const CLI::OptionNotFound&) {
    return false;
  }
}

}  // namespace

void mark(CLI::Option& option, FileUse use) {
  if (use == FileUse::none) return;
  option.check(CLI::Validator([](std::string&) { return std::string(); }, "",
                              use == FileUse::read ? kRead : kWritten));
}

FileUse use_of(CLI::Option& option) {
  return has_check(option, kWritten) ? FileUse::written
         : has_check(option, kRead)  ? FileUse::read
                                     : FileUse::none;
}

double ppi_of(const CLI::App& command) {
  const CLI::Option* option = command.get_option_no_throw("--ppi");
  if (option == nullptr) return kUsualPpi;
  const auto ppi = parse_number(option->as<std::string>());
  return ppi && *ppi > 0 ? *ppi : kUsualPpi;
}

}  // namespace versolay::cli
