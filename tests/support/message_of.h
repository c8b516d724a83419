// What the error of an action says.
#pragma once

#include <string>

#include "versolay/result.h"

namespace versolay::testing_support {

/// The words of the Error that `action` throws; empty when it throws none.
template <class Action>
std::string message_of(const Action& action) {
  try {
    action();
  } catch (const Error& e) {
    return e.what();
  }
  return "";
}

}  // namespace versolay::testing_support
