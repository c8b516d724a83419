#include "app/rehearse_job.h"
#include "words/translation.h"

namespace versolay {

Result<RehearseJobReport> run_rehearse_job(const RehearseJobRequest&, const Progress&) {
  throw Error("rehearse", tr("works on the command line only, not in the browser"));
}

}  // namespace versolay
