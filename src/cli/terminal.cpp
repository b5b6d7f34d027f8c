// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/terminal.h"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>

namespace sightfall::cli {
namespace {

std::atomic<bool> stop_asked{false};

/// The first interrupt asks; a second one ends the program as usual.
extern "C" void on_interrupt(int) {
  stop_asked = true;
  std::signal(SIGINT, SIG_DFL);
}

size_t terminal_width() {
  constexpr size_t kUsual = 100;
  winsize size{};
  if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col < 40) return kUsual;
  return size.ws_col;
}

void show(double share, std::string_view what) {
  std::fprintf(stderr, "\r\033[K%3.0f %%  %.*s", 100 * share, static_cast<int>(what.size()), what.data());
  std::fflush(stderr);
}

}  // namespace

int report(const Errors& errors) {
  for (const Error& error : errors) std::fprintf(stderr, "%s\n", to_line(error).c_str());
  if (errors.size() > 1) std::fprintf(stderr, "%zu errors; nothing was done\n", errors.size());
  return 2;
}

int report(const Error& error) { return report(Errors{error}); }

size_t columns_of(std::string_view text) {
  constexpr unsigned kContinuation = 0x80, kContinuationMask = 0xC0;
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & kContinuationMask) != kContinuation;
  }));
}

std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::vector<size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
  }
  std::string text;
  for (const auto& row : rows) {
    std::string line;
    for (size_t i = 0; i < row.size(); ++i) {
      line += row[i];
      if (i + 1 < row.size()) line.append(widths[i] - columns_of(row[i]) + 2, ' ');
    }
    text += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return text;
}

std::string wrapped(std::string_view text, size_t indent) {
  const size_t width = std::max<size_t>(terminal_width(), indent + 30);
  std::string result, line(indent, ' ');
  bool empty = true;
  size_t from = 0;
  while (from < text.size()) {
    const size_t end = std::min(text.find(' ', from), text.size());
    const std::string_view word = text.substr(from, end - from);
    if (!empty && columns_of(line) + 1 + columns_of(word) > width) {
      result += line + "\n";
      line.assign(indent, ' ');
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
    from = end + 1;
  }
  return result + line + "\n";
}

Watching::Watching() {
  stop_asked = false;
  std::signal(SIGINT, on_interrupt);
  progress_.stop = &stop_asked;
  if (isatty(STDERR_FILENO) != 0) progress_.tell = show;
}

Watching::~Watching() {
  std::signal(SIGINT, SIG_DFL);
  if (isatty(STDERR_FILENO) != 0) std::fprintf(stderr, "\r\033[K");
}

}  // namespace sightfall::cli
