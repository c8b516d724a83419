#include "app/rehearse_job.h"
#include "words/translation.h"

namespace versolay {

Result<RehearseJobReport> run_rehearse_job(const RehearseJobRequest&, const Progress&) {
  throw Error("rehearse", tr("is a command of the command line only, not of the browser"));
}

}  // namespace versolay
