// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/child.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <system_error>
#include <thread>

namespace sightfall::serve {
namespace {

using Clock = std::chrono::steady_clock;

constexpr size_t kMostWords = size_t{64} << 10, kMostHeard = 1000;
constexpr const char* kLimiter = "/usr/bin/prlimit";  // of util-linux, which no Debian is without

tl::unexpected<Error> system_failure(const std::string& what, int number) {
  return failure(ErrorKind::kRequest, what + ": " + std::generic_category().message(number));
}

/// A file that is nowhere but in memory.
class MemoryFile {
 public:
  explicit MemoryFile(const char* name) : number_{::memfd_create(name, MFD_CLOEXEC)} {}
  ~MemoryFile() {
    if (number_ >= 0) ::close(number_);
  }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  int number() const { return number_; }

  bool fill(std::string_view text) const {
    for (size_t done = 0; done < text.size();) {
      const ssize_t wrote = ::write(number_, text.data() + done, text.size() - done);
      if (wrote < 0 && errno == EINTR) continue;
      if (wrote <= 0) return false;
      done += static_cast<size_t>(wrote);
    }
    return ::lseek(number_, 0, SEEK_SET) == 0;
  }

  std::string text(size_t most) const { return text_from(0, std::min(most, size())); }
  std::string end(size_t most) const {
    const size_t whole = size(), part = std::min(most, whole);
    return text_from(whole - part, part);
  }

 private:
  /// Not by lseek, which would move where the other program writes on.
  size_t size() const {
    struct stat facts {};
    return ::fstat(number_, &facts) == 0 && facts.st_size > 0 ? static_cast<size_t>(facts.st_size) : 0;
  }

  std::string text_from(size_t from, size_t count) const {
    std::string text(count, '\0');
    size_t have = 0;
    while (have < text.size()) {
      const ssize_t got = ::pread(number_, text.data() + have, text.size() - have, static_cast<off_t>(from + have));
      if (got < 0 && errno == EINTR) continue;
      if (got <= 0) break;
      have += static_cast<size_t>(got);
    }
    text.resize(have);
    return text;
  }

  int number_;
};

/// What posix_spawn is told, freed at the end.
class Spawning {
 public:
  Spawning() {
    posix_spawn_file_actions_init(&actions_);
    posix_spawnattr_init(&attributes_);
    // A group of its own, so that a Ctrl-C on the terminal is ours to answer; signals as a program expects them.
    sigset_t all, none;
    sigfillset(&all);
    sigemptyset(&none);
    posix_spawnattr_setpgroup(&attributes_, 0);
    posix_spawnattr_setsigdefault(&attributes_, &all);
    posix_spawnattr_setsigmask(&attributes_, &none);
    posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK);
  }
  ~Spawning() {
    posix_spawn_file_actions_destroy(&actions_);
    posix_spawnattr_destroy(&attributes_);
  }
  Spawning(const Spawning&) = delete;
  Spawning& operator=(const Spawning&) = delete;

  void give(int file, int as) { posix_spawn_file_actions_adddup2(&actions_, file, as); }
  void run_in(const std::string& folder) { posix_spawn_file_actions_addchdir_np(&actions_, folder.c_str()); }

  /// 0, or why not.
  int start(const std::string& program, const std::vector<std::string>& arguments,
            const std::vector<std::string>& environment, pid_t& child) {
    // Nothing that is open here, not even what was so before this program began.
    posix_spawn_file_actions_addclosefrom_np(&actions_, STDERR_FILENO + 1);
    std::vector<std::string> words{program};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<std::string> set{"LC_ALL=C.UTF-8"};
    set.insert(set.end(), environment.begin(), environment.end());
    return ::posix_spawn(&child, program.c_str(), &actions_, &attributes_, pointers_to(words).data(),
                         pointers_to(set).data());
  }

 private:
  static std::vector<char*> pointers_to(std::vector<std::string>& words) {
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    return pointers;
  }

  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

/// The program behind one of the system's that sets limits on itself and then becomes it: it never runs without them.
std::vector<std::string> limited(const std::string& program, const std::vector<std::string>& arguments,
                                 const ChildLimits& limits) {
  std::vector<std::string> words{
      "--as=" + (limits.memory == 0 ? "unlimited" : std::to_string(limits.memory)),
      "--fsize=" + std::to_string(limits.output),
      "--cpu=" + std::to_string(std::chrono::ceil<std::chrono::seconds>(limits.time).count()),
      "--core=0",
      "--",
      program};
  words.insert(words.end(), arguments.begin(), arguments.end());
  return words;
}

/// Waits for the end, and makes it when the time is over or it is stopped.
void wait_for(pid_t child, const MemoryFile& words, const ChildLimits& limits, const ChildRoom& room,
              ChildResult& result) {
  constexpr std::chrono::milliseconds kBetween{5}, kBetweenWords{200};
  const Clock::time_point end = Clock::now() + limits.time;
  Clock::time_point heard = Clock::now();
  int status = 0;
  while (true) {
    const pid_t ended = ::waitpid(child, &status, result.too_slow || result.stopped ? 0 : WNOHANG);
    if (ended == child) break;
    if (ended < 0 && errno != EINTR) return;
    const Clock::time_point now = Clock::now();
    result.too_slow = now >= end;
    result.stopped = room.stop != nullptr && *room.stop;
    if (result.too_slow || result.stopped) ::kill(-child, SIGKILL);
    if (now - heard >= kBetweenWords) {
      heard = now;
      room.hear(words.end(kMostHeard));
    }
    std::this_thread::sleep_for(kBetween);
  }
  result.too_slow |= WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU;
  result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

}  // namespace

Result<ChildResult> run_child(const std::string& program, const std::vector<std::string>& arguments,
                              std::string_view input, const ChildLimits& limits, const ChildRoom& room) {
  const MemoryFile in("input"), out("output"), words("words");
  if (in.number() < 0 || out.number() < 0 || words.number() < 0 || !in.fill(input))
    return system_failure("no memory for another program", errno);
  Spawning spawning;
  spawning.give(in.number(), STDIN_FILENO);
  spawning.give(out.number(), STDOUT_FILENO);
  spawning.give(words.number(), STDERR_FILENO);
  if (!room.folder.empty()) spawning.run_in(room.folder);
  pid_t child = -1;
  if (::access(program.c_str(), X_OK) != 0) return system_failure(program + " cannot be run", errno);
  if (const int why = spawning.start(kLimiter, limited(program, arguments, limits), room.environment, child); why != 0)
    return system_failure(std::string(kLimiter) + " cannot be run", why);
  ChildResult result;
  wait_for(child, words, limits, room, result);
  result.output = out.text(limits.output);
  result.words = words.text(kMostWords);
  return result;
}

}  // namespace sightfall::serve
