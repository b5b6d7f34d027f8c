// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/quiet.h"

extern "C" {
#include <libavutil/error.h>
#include <libavutil/log.h>
}

#include <array>
#include <cstdarg>
#include <cstdio>
#include <mutex>
#include <utility>

namespace sightfall::video {
namespace {

thread_local Quiet* listener = nullptr;

// Called by FFmpeg from any of its threads; only complaints on a thread that listens can be told apart by call.
void hold(void*, int level, const char* format, va_list values) {
  if (level > AV_LOG_ERROR || listener == nullptr) return;
  std::array<char, 512> line{};
  const int length = std::vsnprintf(line.data(), line.size(), format, values);
  if (length <= 0) return;
  std::string text(line.data());
  while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
  if (!text.empty()) listener->hear(std::move(text));
}

}  // namespace

Quiet::Quiet() : outer_{std::exchange(listener, this)} {
  static std::once_flag silenced;
  std::call_once(silenced, [] { av_log_set_callback(hold); });
}

Quiet::~Quiet() { listener = outer_; }

std::string Quiet::said(int code) const {
  if (!heard_.empty()) return heard_;
  std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
  av_strerror(code, text.data(), text.size());
  return text.data();
}

}  // namespace sightfall::video
