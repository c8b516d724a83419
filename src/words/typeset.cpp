#include "words/typeset.h"

namespace versolay {

std::string typeset(std::string text) {
  for (std::size_t at = text.find("+-"); at != std::string::npos; at = text.find("+-", at)) {
    text.replace(at, 2, "\u00b1\u00a0");
  }
  return text;
}

}  // namespace versolay
