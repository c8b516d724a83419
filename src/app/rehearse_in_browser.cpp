#include "app/rehearse.h"
#include "words/findings.h"

namespace versolay {

Result<RehearseReport> run_rehearse(const RehearseRequest&, const Progress&) {
  throw Error("rehearse", findings::not_in_a_browser());
}

}  // namespace versolay
