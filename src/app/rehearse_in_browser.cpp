#include "app/rehearse.h"
#include "words/translation.h"

namespace versolay {

Result<RehearseReport> run_rehearse(const RehearseRequest&, const Progress&) {
  throw Error("rehearse", tr("is a command of the command line only, not of the browser"));
}

}  // namespace versolay
