// A stop that is asked for while helpers run: put off until their files are gone, and never lost.
// Each case runs in a child, which says with a byte that it came to the end of the part that no
// stop may cut short.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <string>

#include "core/stops_held.h"

namespace versolay {
namespace {

struct Ended {
  std::string said;
  int signal = 0;  // 0: by itself
};

/// What a child that does this said, and what ended it.
Ended child_that(const std::function<void(const std::function<void(char)>&)>& does) {
  int ends[2] = {};
  if (pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = fork();
  if (child == 0) {
    close(ends[0]);
    does([&](char c) { [[maybe_unused]] const auto n = write(ends[1], &c, 1); });
    _exit(0);
  }
  close(ends[1]);
  Ended ended;
  char c = 0;
  while (read(ends[0], &c, 1) == 1) ended.said += c;
  close(ends[0]);
  int status = 0;
  waitpid(child, &status, 0);
  if (WIFSIGNALED(status)) ended.signal = WTERMSIG(status);
  return ended;
}

TEST(StopsHeld, TakeTheirCourseWhenTheLastHolderIsGone) {
  for (const int stop : {SIGINT, SIGTERM, SIGHUP}) {
    SCOPED_TRACE(stop);
    const Ended ended = child_that([stop](const auto& say) {
      {
        const StopsHeld outer;
        {
          const StopsHeld inner;
          raise(stop);
          if (stop_was_asked()) say('a');
        }
        say('b');
      }
      say('c');
    });
    EXPECT_EQ(ended.said, "ab");
    EXPECT_EQ(ended.signal, stop);
  }
}

TEST(StopsHeld, AreAsBeforeWhenNoneWasAskedFor) {
  const Ended ended = child_that([](const auto& say) {
    { const StopsHeld held; }
    say(stop_was_asked() ? 'x' : 'a');
    raise(SIGTERM);
    say('b');
  });
  EXPECT_EQ(ended.said, "a");
  EXPECT_EQ(ended.signal, SIGTERM);
}

TEST(StopsHeld, LeaveAloneWhatTheProgramIgnores) {
  const Ended ended = child_that([](const auto& say) {
    signal(SIGHUP, SIG_IGN);  // as nohup does
    {
      const StopsHeld held;
      raise(SIGHUP);
      say(stop_was_asked() ? 'x' : 'a');
    }
    say('b');
  });
  EXPECT_EQ(ended.said, "ab");
  EXPECT_EQ(ended.signal, 0);
}

}  // namespace
}  // namespace versolay
