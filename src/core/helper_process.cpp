#include "core/helper_process.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>

#include "core/stops_held.h"

extern char** environ;

namespace versolay {
namespace {

constexpr std::size_t kMostOutput = 16u << 20;

class Pipe {
 public:
  Pipe() {
    if (pipe2(ends_.data(), O_CLOEXEC) != 0) ends_ = {-1, -1};
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close_end(0);
    close_end(1);
  }
  bool open() const { return ends_[0] >= 0; }
  int read_end() const { return ends_[0]; }
  int write_end() const { return ends_[1]; }
  void close_write_end() { close_end(1); }

 private:
  void close_end(std::size_t i) {
    if (ends_[i] >= 0) close(ends_[i]);
    ends_[i] = -1;
  }
  std::array<int, 2> ends_{};
};

std::vector<std::string> environment_in_c_locale() {
  std::vector<std::string> kept = {"LC_ALL=C"};
  for (char** e = environ; e != nullptr && *e != nullptr; ++e) {
    if (std::strncmp(*e, "LC_ALL=", 7) != 0) kept.emplace_back(*e);
  }
  return kept;
}

std::vector<char*> pointers(std::vector<std::string>& strings) {
  std::vector<char*> list;
  for (std::string& s : strings) list.push_back(s.data());
  list.push_back(nullptr);
  return list;
}

/// Spawning cannot set limits, and a child that gets them from outside may be faster. So a shell
/// sets them and becomes the program; exit 127 says that there is no such program (POSIX, 2.8.2).
std::vector<std::string> limited(const std::vector<std::string>& arguments,
                                 const HelperLimits& limits) {
  std::vector<std::string> words = {
      "sh", "-c", "ulimit -t \"$0\" && ulimit -v \"$1\" && shift && exec \"$@\"",
      std::to_string(limits.seconds), std::to_string(std::int64_t{limits.megabytes} << 10)};
  words.insert(words.end(), arguments.begin(), arguments.end());
  return words;
}

int spawn(std::vector<std::string> words, int output, pid_t& child) {
  std::vector<std::string> variables = environment_in_c_locale();
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, output, STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, output, STDERR_FILENO);
  const int error = posix_spawnp(&child, words[0].c_str(), &actions, nullptr,
                                 pointers(words).data(), pointers(variables).data());
  posix_spawn_file_actions_destroy(&actions);
  return error;
}

/// Reads until the child closes its output. False: too slow or too much.
bool read_all(int descriptor, int seconds, std::string& output) {
  using Clock = std::chrono::steady_clock;
  const auto deadline = Clock::now() + std::chrono::seconds(seconds);
  std::array<char, 4096> buffer;
  while (output.size() <= kMostOutput) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
    if (left <= 0 || stop_was_asked()) return false;
    pollfd wait{descriptor, POLLIN, 0};
    constexpr std::int64_t kLookMs = 200;  // a stop may have reached another thread
    if (poll(&wait, 1, static_cast<int>(std::min<std::int64_t>(left, kLookMs))) <= 0) continue;
    const ssize_t n = read(descriptor, buffer.data(), buffer.size());
    if (n == 0) return true;
    if (n < 0 && errno != EINTR) return false;
    if (n > 0) output.append(buffer.data(), static_cast<std::size_t>(n));
  }
  return false;
}

}  // namespace

HelperResult run_helper(const std::vector<std::string>& arguments, const HelperLimits& limits) {
  HelperResult result;
  Pipe pipe;
  if (!pipe.open()) return result;
  pid_t child = -1;
  if (spawn(limited(arguments, limits), pipe.write_end(), child) != 0) return result;
  pipe.close_write_end();
  constexpr int kBusyMachine = 10;
  const bool read = read_all(pipe.read_end(), kBusyMachine * limits.seconds, result.output);
  if (!read) kill(child, SIGKILL);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  result.finished = read && WIFEXITED(status);
  if (result.finished) result.exit_code = WEXITSTATUS(status);
  constexpr int kNoSuchProgram = 127;
  result.found = result.exit_code != kNoSuchProgram;
  return result;
}

}  // namespace versolay
