// Preconditions: a violation is a bug in the program, never the fault of a file.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <source_location>
#include <stdexcept>
#include <string>

namespace versolay {

/// Where `holds` is false a build with sanitizers stops at once, and any other throws
/// std::logic_error: the command then refuses with exit code 2, and nothing wrong is written. One
/// bad scan costs only itself (app/measure.cpp).
inline void expect(bool holds, std::source_location where = std::source_location::current()) {
  if (holds) [[likely]]
    return;
  const std::string file = where.file_name();
  const std::string place = file.substr(file.rfind('/') + 1) + ":" + std::to_string(where.line());
#ifdef VERSOLAY_CHECKED
  std::fprintf(stderr, "a precondition does not hold: %s, %s\n", place.c_str(),
               where.function_name());
  std::abort();
#else
  throw std::logic_error("a precondition does not hold (" + place + ")");
#endif
}

}  // namespace versolay
