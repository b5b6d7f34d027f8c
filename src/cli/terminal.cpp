// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace sightfall::cli {
namespace {

std::atomic<bool> stop_asked{false};

/// The first interrupt asks; a second one ends the program as usual.
extern "C" void on_interrupt(int) {
  stop_asked = true;
  std::signal(SIGINT, SIG_DFL);
}

/// A number of columns as the environment states it; 0 when it states none.
size_t stated_columns() {
  const char* const text = std::getenv("COLUMNS");  // NOLINT(concurrency-mt-unsafe): nobody sets it
  return text == nullptr ? 0 : std::strtoul(text, nullptr, 10);
}

bool progress_wanted() {
  // NOLINTNEXTLINE(concurrency-mt-unsafe): nobody sets it
  return isatty(STDERR_FILENO) != 0 || std::getenv("SIGHTFALL_PROGRESS") != nullptr;
}

/// Shows what is done, each hundredth once.
std::function<void(double, std::string_view)> showing() {
  return [shown = std::string()](double share, std::string_view what) mutable {
    std::array<char, 200> line{};
    std::snprintf(line.data(), line.size(), "%3.0f %%  %.*s", 100 * share, static_cast<int>(what.size()), what.data());
    if (shown == line.data()) return;
    shown = line.data();
    std::fprintf(stderr, "\r\033[K%s", shown.c_str());
    std::fflush(stderr);
  };
}

}  // namespace

int report(const Errors& errors) {
  for (const Error& error : errors) std::fprintf(stderr, "%s\n", to_line(error).c_str());
  if (errors.size() > 1) std::fprintf(stderr, "%zu errors; nothing was done\n", errors.size());
  return 2;
}

int report(const Error& error) { return report(Errors{error}); }

size_t terminal_width() {
  constexpr size_t kUsual = 100, kNarrowest = 40, kWidest = 1000;
  size_t width = stated_columns();
  winsize size{};
  if (width == 0 && isatty(STDOUT_FILENO) != 0 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) width = size.ws_col;
  return width == 0 ? kUsual : std::clamp(width, kNarrowest, kWidest);
}

Watching::Watching() {
  stop_asked = false;
  std::signal(SIGINT, on_interrupt);
  progress_.stop = &stop_asked;
  if (progress_wanted()) progress_.tell = showing();
}

Watching::~Watching() {
  std::signal(SIGINT, SIG_DFL);
  if (progress_wanted()) std::fprintf(stderr, "\r\033[K");
}

}  // namespace sightfall::cli
