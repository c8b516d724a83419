#include "rehearse/program.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdlib>
#include <cstring>

#include "core/files.h"
#include "core/findings.h"
#include "rehearse/findings.h"
#include "versolay/result.h"

extern char** environ;

namespace versolay::rehearse {
namespace {

std::string unique_name(const std::string& stem) {
  static std::atomic<int> count{0};
  return stem + std::to_string(count++);
}

}  // namespace

TemporaryFolder::TemporaryFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "versolay-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) {
    throw Error(name, findings::cannot_make_folder(std::strerror(errno)));
  }
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

bool program_exists(const std::string& name) {
  const char* path = std::getenv("PATH");
  std::string_view rest = path != nullptr ? path : "/usr/bin:/bin";
  while (true) {
    const std::size_t colon = rest.find(':');
    const std::string candidate = std::string(rest.substr(0, colon)) + "/" + name;
    if (access(candidate.c_str(), X_OK) == 0) return true;
    if (colon == std::string_view::npos) return false;
    rest.remove_prefix(colon + 1);
  }
}

ProgramResult run_program(const std::vector<std::string>& words,
                          const std::filesystem::path& scratch) {
  const std::filesystem::path output = scratch / unique_name("output-");
  std::vector<char*> argv;
  for (const std::string& w : words) argv.push_back(const_cast<char*>(w.c_str()));
  argv.push_back(nullptr);

  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, output.c_str(),
                                   O_WRONLY | O_CREAT | O_TRUNC, 0600);
  posix_spawn_file_actions_adddup2(&actions, STDOUT_FILENO, STDERR_FILENO);
  pid_t child = 0;
  const int failure = posix_spawnp(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failure != 0) {
    throw Error(words.front(), findings::program_not_started(std::strerror(failure)));
  }
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR)
      throw Error(words.front(), findings::program_not_started(std::strerror(errno)));
  }
  ProgramResult result{0, read_file(output)};
  std::error_code ignored;
  std::filesystem::remove(output, ignored);
  if (!WIFEXITED(status)) throw Error(words.front(), findings::program_stopped(result.output));
  result.exit_code = WEXITSTATUS(status);
  return result;
}

}  // namespace versolay::rehearse
