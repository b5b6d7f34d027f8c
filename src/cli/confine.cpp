// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/confine.h"

#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace sightfall::cli {
namespace {

namespace fs = std::filesystem;

#if defined(__x86_64__)
constexpr uint32_t kProcessor = AUDIT_ARCH_X86_64;
#elif defined(__aarch64__)
constexpr uint32_t kProcessor = AUDIT_ARCH_AARCH64;
#else
#error "the processor's name in <linux/audit.h> is needed here"
#endif

/// Numbers above are those of another way to call the same system (x32), which nothing of ours takes.
constexpr uint32_t kHighestCall = 0x3FFFFFFF;

/// io_uring could open sockets of its own.
constexpr std::array<uint32_t, 4> kRefused{SYS_socket, SYS_execve, SYS_execveat, SYS_io_uring_setup};

tl::unexpected<Error> cannot(const char* what) {
  return failure(ErrorKind::kRequest,
                 std::string(what) + ", so no map is read: " + std::generic_category().message(errno));
}

/// Calls that are refused fail as without permission; calls by another processor's numbers end the program.
Result<void> refuse_calls() {
  std::vector<sock_filter> filter{
      BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, arch)),
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, kProcessor, 1, 0),
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_KILL_PROCESS),
      BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr)),
      BPF_JUMP(BPF_JMP | BPF_JGT | BPF_K, kHighestCall, 0, 1),
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EACCES),
  };
  for (const uint32_t call : kRefused) {
    filter.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, call, 0, 1));
    filter.push_back(BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EACCES));
  }
  filter.push_back(BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW));
  const sock_fprog program{static_cast<unsigned short>(filter.size()), filter.data()};
  if (::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) != 0) return cannot("the network cannot be given up");
  return {};
}

constexpr uint64_t kReadRights = LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR;
constexpr uint64_t kTruncate = 1U << 14;  // of Landlock's third version, which Debian 12's headers do not name

constexpr uint64_t kWriteRights = kReadRights | LANDLOCK_ACCESS_FS_WRITE_FILE | LANDLOCK_ACCESS_FS_REMOVE_FILE |
                                  LANDLOCK_ACCESS_FS_MAKE_REG | kTruncate;

/// All that this version of Landlock can refuse.
uint64_t rights_of_version(long version) {
  uint64_t rights = LANDLOCK_ACCESS_FS_MAKE_SYM | (LANDLOCK_ACCESS_FS_MAKE_SYM - 1);
  if (version >= 2) rights |= LANDLOCK_ACCESS_FS_REFER;
  if (version >= 3) rights |= kTruncate;
  return rights;
}

/// A file number that is closed at the end.
class Number {
 public:
  explicit Number(long number) : number_{static_cast<int>(number)} {}
  ~Number() {
    if (number_ >= 0) ::close(number_);
  }
  Number(const Number&) = delete;
  Number& operator=(const Number&) = delete;
  int is() const { return number_; }

 private:
  int number_;
};

/// A folder that is not there needs no right.
void allow(const Number& rules, const std::string& folder, uint64_t rights) {
  const Number there(::open(folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC));
  if (there.is() < 0) return;
  landlock_path_beneath_attr beneath{};
  beneath.allowed_access = rights;
  beneath.parent_fd = there.is();
  ::syscall(SYS_landlock_add_rule, rules.is(), LANDLOCK_RULE_PATH_BENEATH, &beneath, 0);
}

/// What the program itself needs: its libraries, the tables of map projections, and how it stands (/proc/self).
std::vector<std::string> folders_of_system() {
  std::vector<std::string> folders{"/usr", "/lib", "/lib64", "/proc/self"};
  for (const char* name : {"PROJ_LIB", "PROJ_DATA", "GDAL_DATA"})
    if (const char* const set = std::getenv(name))  // NOLINT(concurrency-mt-unsafe): nobody sets it
      folders.emplace_back(set);
  return folders;
}

Result<void> refuse_files(const Reach& reach) {
  const long version = ::syscall(SYS_landlock_create_ruleset, nullptr, 0, LANDLOCK_CREATE_RULESET_VERSION);
  if (version < 1) return {};
  landlock_ruleset_attr handled{};
  handled.handled_access_fs = rights_of_version(version);
  const Number rules(::syscall(SYS_landlock_create_ruleset, &handled, sizeof handled, 0));
  if (rules.is() < 0) return cannot("files cannot be given up");
  for (const std::string& folder : folders_of_system()) allow(rules, folder, kReadRights);
  for (const std::string& folder : reach.read) allow(rules, folder, kReadRights);
  for (const std::string& folder : reach.write) allow(rules, folder, kWriteRights & handled.handled_access_fs);
  if (::syscall(SYS_landlock_restrict_self, rules.is(), 0) != 0) return cannot("files cannot be given up");
  return {};
}

}  // namespace

std::vector<std::string> folders_of(const std::string& file) {
  const auto folder = [](const fs::path& path) { return path.has_parent_path() ? path.parent_path().string() : "."; };
  std::error_code none;
  return {folder(file), folder(fs::weakly_canonical(file, none))};
}

Result<void> confine(const Reach& reach) {
  if (::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) return cannot("the network cannot be given up");
  return refuse_files(reach).and_then([] { return refuse_calls(); });
}

}  // namespace sightfall::cli
