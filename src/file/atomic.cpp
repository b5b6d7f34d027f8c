// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/atomic.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>

namespace sightfall::file {
namespace {

tl::unexpected<Error> system_failure(ErrorKind kind, std::string_view what, const std::string& path) {
  return failure(kind, fmt::format("{}: {}", what, std::generic_category().message(errno)), {path, {}, {}});
}

/// An open file, closed at the end.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_{number} {}
  ~Descriptor() { close(); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  bool good() const { return number_ >= 0; }
  int number() const { return number_; }
  /// Whether it closed without an error; some file systems report a full disk only here.
  bool close() { return number_ < 0 || ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

/// A file that is removed again unless it is kept.
class Temporary {
 public:
  explicit Temporary(std::string path) : path_{std::move(path)} {}
  ~Temporary() {
    if (!path_.empty()) ::unlink(path_.c_str());
  }
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;
  const std::string& path() const { return path_; }
  void keep() { path_.clear(); }

 private:
  std::string path_;
};

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    text.remove_prefix(static_cast<size_t>(written));
  }
  return true;
}

bool sync_folder(const std::string& folder) {
  const Descriptor file(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // Some file systems cannot sync a folder and say that the call is invalid; there is nothing more to do then.
  return file.good() && (::fsync(file.number()) == 0 || errno == EINVAL);
}

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

/// Where a link leads, so that the file it names is replaced and not the link.
std::string behind_links(const std::string& path) {
  std::error_code none;
  const auto real = std::filesystem::canonical(path, none);
  return none ? path : real.string();
}

std::string name_of(const std::string& path) { return std::filesystem::path(path).filename().string(); }

/// A new file in the same folder, named after `path` and this process.
struct NewFile {
  std::string name;
  int descriptor = -1;
};

NewFile open_beside(const std::string& path) {
  constexpr int kMostTried = 100;
  constexpr mode_t kUsual = 0666;  // less what the user's mask takes away
  NewFile file;
  for (int i = 0; i < kMostTried; ++i) {
    file.name = fmt::format("{}/.{}.{}-{}", folder_of(path), name_of(path), ::getpid(), i);
    file.descriptor = ::open(file.name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, kUsual);
    if (file.descriptor >= 0 || errno != EEXIST) break;
  }
  return file;
}

/// Writes the text to a new file beside `path` and syncs it; its rights are `mode`, or the usual ones.
Result<std::string> write_beside(const std::string& path, std::optional<mode_t> mode, std::string_view text) {
  const NewFile fresh = open_beside(path);
  Descriptor file(fresh.descriptor);
  if (!file.good()) return system_failure(ErrorKind::kWrite, "cannot write in this folder", path);
  Temporary temporary(fresh.name);
  const bool written = (!mode || ::fchmod(file.number(), *mode) == 0) && write_all(file.number(), text) &&
                       ::fsync(file.number()) == 0 && file.close();
  if (!written) return system_failure(ErrorKind::kWrite, "cannot be written, and nothing is changed", path);
  temporary.keep();
  return fresh.name;
}

/// Gives the file a second name, under which it stays when it is replaced. A file of that name that is there already is
/// somebody's own and is left alone. Where a file cannot have two names, it is copied.
Result<std::string> keep_as_second_name(const std::string& path) {
  constexpr int kMostTried = 100;
  for (int i = 1; i <= kMostTried; ++i) {
    std::string second = i == 1 ? path + "~" : fmt::format("{}~{}", path, i);
    if (::link(path.c_str(), second.c_str()) == 0) return second;
    if (errno == EEXIST) continue;
    std::error_code error;
    if (std::filesystem::copy_file(path, second, error)) return second;
    if (error == std::errc::file_exists) continue;
    return failure(ErrorKind::kWrite, "cannot be kept beside its new version: " + error.message(), {path, {}, {}});
  }
  return failure(ErrorKind::kWrite,
                 "cannot be kept beside its new version: every name tried, such as " + name_of(path) + "~, is taken",
                 {path, {}, {}});
}

}  // namespace

Result<std::string> read_whole(const std::string& path, size_t largest) {
  // Without O_NONBLOCK a pipe that nobody writes to would be waited for.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
  if (!file.good()) return system_failure(ErrorKind::kMissingFile, "cannot be opened", path);
  struct stat facts {};
  if (::fstat(file.number(), &facts) != 0) return system_failure(ErrorKind::kMissingFile, "cannot be read", path);
  if (!S_ISREG(facts.st_mode))
    return failure(ErrorKind::kMissingFile,
                   S_ISDIR(facts.st_mode) ? "is a folder; a file is needed" : "is no regular file; one is needed",
                   {path, {}, {}});
  if (static_cast<size_t>(facts.st_size) > largest)
    return failure(ErrorKind::kTooLarge, fmt::format("has {} bytes; at most {} are allowed", facts.st_size, largest),
                   {path, {}, {}});
  std::string text(static_cast<size_t>(facts.st_size), '\0');
  size_t have = 0;
  while (have < text.size()) {
    const ssize_t got = ::read(file.number(), text.data() + have, text.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return system_failure(ErrorKind::kMissingFile, "cannot be read", path);
    if (got == 0) break;
    have += static_cast<size_t>(got);
  }
  text.resize(have);
  return text;
}

Result<void> write_atomically(const std::string& given_path, std::string_view text) {
  const std::string path = behind_links(given_path);
  struct stat facts {};
  const bool replaces = ::stat(path.c_str(), &facts) == 0;
  if (replaces && !S_ISREG(facts.st_mode))
    return failure(ErrorKind::kWrite, "is no regular file; only such a one is replaced", {given_path, {}, {}});
  const std::optional<mode_t> mode = replaces ? std::optional<mode_t>(facts.st_mode & 0777) : std::nullopt;
  const Result<std::string> fresh = write_beside(path, mode, text);
  if (!fresh) return tl::make_unexpected(fresh.error());
  Temporary temporary(*fresh);
  std::string kept;
  if (replaces) {
    Result<std::string> second = keep_as_second_name(path);
    if (!second) return tl::make_unexpected(second.error());
    kept = *second;
  }
  Temporary old(kept);
  if (::rename(fresh->c_str(), path.c_str()) != 0)
    return system_failure(ErrorKind::kWrite, "cannot be replaced, and nothing is changed", path);
  temporary.keep();
  if (!sync_folder(folder_of(path))) {
    old.keep();
    return system_failure(ErrorKind::kWrite, "is written but may not be safe on disk; the version before it is " + kept,
                          path);
  }
  return {};
}

}  // namespace sightfall::file
