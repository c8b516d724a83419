#include "app/rehearse.h"
#include "words/translation.h"

namespace versolay {

Result<RehearseReport> run_rehearse(const RehearseRequest&, const Progress&) {
  throw Error("rehearse", tr("works on the command line only, not in the browser"));
}

}  // namespace versolay
