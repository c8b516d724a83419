// A list of cards: whatever is in the file, it is understood or refused with a reason.
#include "imposition/card_list.h"
#include "memory_file.h"
#include "versolay/result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const versolay::testing_support::MemoryFile file(data, size);
  try {
    for (const versolay::ListedCard& card : versolay::read_card_list(file.path())) {
      if (card.quantity < 1 || card.front.path.empty() || card.line < 1) std::abort();
    }
  } catch (const versolay::Error& e) {
    if (std::string_view(e.what()).empty()) std::abort();
  }
  return 0;
}
