#include "app/rehearse_job.h"
#include "words/findings.h"

namespace versolay {

Result<RehearseJobReport> run_rehearse_job(const RehearseJobRequest&, const Progress&) {
  throw Error("rehearse", findings::not_in_a_browser());
}

}  // namespace versolay
