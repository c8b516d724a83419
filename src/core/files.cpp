#include "core/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <fstream>
#include <map>
#include <sstream>

#include "core/findings.h"
#include "core/numbers.h"
#include "versolay/result.h"

namespace versolay {
namespace {

std::string system_reason() { return std::strerror(errno); }

/// A file that disappears unless it is renamed into place.
class TemporaryFile {
 public:
  /// Its name does not grow with that of the file, which may be as long as names can be.
  explicit TemporaryFile(std::filesystem::path beside)
      : beside_(std::move(beside)), name_(beside_.parent_path() / ".versolay-XXXXXX") {
    descriptor_ = mkstemp(name_.data());
    if (descriptor_ < 0) throw Error(beside_.string(), findings::cannot_write(system_reason()));
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (descriptor_ >= 0) close(descriptor_);
    if (!renamed_) unlink(name_.c_str());
  }

  void write(std::string_view content) {
    while (!content.empty()) {
      const ssize_t written = ::write(descriptor_, content.data(), content.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) throw Error(beside_.string(), findings::cannot_write(system_reason()));
      content.remove_prefix(static_cast<std::size_t>(written));
    }
  }

  void write_by(const std::function<void(std::FILE*)>& write_content) {
    const int copy = dup(descriptor_);
    std::FILE* stream = copy < 0 ? nullptr : fdopen(copy, "w+b");
    if (stream == nullptr) throw Error(beside_.string(), findings::cannot_write(system_reason()));
    try {
      write_content(stream);
    } catch (...) {
      std::fclose(stream);
      throw;
    }
    const bool failed = std::ferror(stream) != 0;
    if (std::fclose(stream) != 0 || failed) {
      throw Error(beside_.string(), findings::cannot_write(system_reason()));
    }
  }

  void rename_into_place() {
    const mode_t mask = umask(0);
    umask(mask);
    const bool durable = fchmod(descriptor_, 0666 & ~mask) == 0 && fsync(descriptor_) == 0;
    const bool closed = close(descriptor_) == 0;
    descriptor_ = -1;
    if (!durable || !closed || rename(name_.c_str(), beside_.c_str()) != 0) {
      throw Error(beside_.string(), findings::cannot_write(system_reason()));
    }
    renamed_ = true;
  }

 private:
  std::filesystem::path beside_;
  std::string name_;
  int descriptor_ = -1;
  bool renamed_ = false;
};

}  // namespace

void require_file(const std::filesystem::path& path) {
  namespace fs = std::filesystem;
  std::error_code told_by_opening;
  const fs::file_status status = fs::status(path, told_by_opening);
  if (fs::is_directory(status)) throw Error(path.string(), findings::is_a_folder());
  if (fs::exists(status) && !fs::is_regular_file(status)) {
    throw Error(path.string(), findings::is_a_pipe());
  }
}

std::string read_file(const std::filesystem::path& path) {
  require_file(path);
  std::ifstream in(path, std::ios::binary);
  if (!in) throw Error(path.string(), findings::cannot_open(system_reason()));
  // In one piece where the size is known beforehand: decks have gigabytes of pictures.
  std::error_code no_size;
  const auto size = std::filesystem::file_size(path, no_size);
  std::string start(no_size ? 0 : size, '\0');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  start.resize(static_cast<std::size_t>(in.gcount()));
  if (in.good()) {  // there may be more: a pipe, or a file that grows
    std::ostringstream rest;
    rest << in.rdbuf();
    start += std::move(rest).str();
  }
  if (in.bad()) throw Error(path.string(), findings::cannot_read());
  return start;
}

void make_folder(const std::filesystem::path& path) {
  std::error_code failed;
  std::filesystem::create_directories(path, failed);
  if (failed) throw Error(path.string(), findings::cannot_make_folder(failed.message()));
}

void check_output(const std::filesystem::path& path, bool replace) {
  std::error_code ignored;
  const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  if (!std::filesystem::is_directory(folder, ignored)) {
    throw Error(path.string(), findings::folder_missing());
  }
  if (std::filesystem::is_directory(path, ignored)) {
    throw Error(path.string(), findings::output_is_a_folder());
  }
  const auto status = std::filesystem::symlink_status(path, ignored);
  if (std::filesystem::is_symlink(status)) {
    throw Error(path.string(), findings::output_is_a_link());
  }
  if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status)) {
    throw Error(path.string(), findings::output_is_a_pipe());
  }
  if (!replace && std::filesystem::exists(status)) {
    throw Error(path.string(), findings::output_exists());
  }
}

namespace {

/// What a name comes down to.
std::filesystem::path place_of(const std::filesystem::path& path) {
  std::error_code failed;
  const std::filesystem::path whole = std::filesystem::absolute(path, failed);
  std::filesystem::path place = std::filesystem::weakly_canonical(whole, failed);
  return failed ? whole.lexically_normal() : place;
}

}  // namespace

void check_outputs(const std::vector<std::filesystem::path>& outputs, bool replace) {
  std::map<std::filesystem::path, std::filesystem::path> seen;  // by what they come down to
  for (const auto& path : outputs) {
    if (path.empty()) continue;
    const auto [earlier, is_new] = seen.emplace(place_of(path), path);
    if (is_new) continue;
    throw Error(path.string(), findings::same_output(earlier->second.string()));
  }
  for (const auto& path : outputs) {
    if (!path.empty()) check_output(path, replace);
  }
}

void require_not_an_input(const std::filesystem::path& output,
                          const std::vector<std::filesystem::path>& inputs) {
  const std::filesystem::path place = place_of(output);
  for (const auto& input : inputs) {
    if (input.empty()) continue;
    std::error_code missing;  // then neither is a second name of the other
    if (place_of(input) == place || std::filesystem::equivalent(input, output, missing)) {
      throw Error(output.string(), findings::output_is_an_input());
    }
  }
}

void write_file_atomically(const std::filesystem::path& path, std::string_view content,
                           bool replace) {
  check_output(path, replace);
  TemporaryFile file(path);
  file.write(content);
  file.rename_into_place();
}

void write_file_atomically(const std::filesystem::path& path, bool replace,
                           const std::function<void(std::FILE*)>& write) {
  check_output(path, replace);
  TemporaryFile file(path);
  file.write_by(write);
  file.rename_into_place();
}

std::string utc_now() {
  std::time_t now = std::time(nullptr);
  if (const char* fixed = std::getenv("SOURCE_DATE_EPOCH")) {
    constexpr double kYear10000 = 253402300800.0;  // strftime's four digits end there
    const auto seconds = parse_number(fixed);
    if (seconds && *seconds >= 0 && *seconds < kYear10000) now = static_cast<std::time_t>(*seconds);
  }
  std::tm utc{};
  gmtime_r(&now, &utc);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return text;
}

}  // namespace versolay
