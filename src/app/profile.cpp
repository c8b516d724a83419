#include "app/profile.h"

#include "core/files.h"
#include "profile/profile_json.h"
#include "registration/readings_json.h"

namespace versolay {

Result<PrinterProfile> make_profile(const ProfileRequest& request) {
  if (request.labels.printer.empty()) {
    throw Error("--printer", "needs a name, so that profiles can be told apart");
  }
  check_output(request.out, request.replace);
  std::vector<ReadingSession> sessions;
  for (const std::filesystem::path& file : request.readings) {
    sessions.push_back({file.filename().string(), read_readings(file)});
  }
  Result<PrinterProfile> profile =
      estimate_profile(std::move(sessions), request.labels, request.options);
  if (profile) {
    write_file_atomically(request.out, to_text(json_of(profile.value())), request.replace);
  }
  return profile;
}

}  // namespace versolay
