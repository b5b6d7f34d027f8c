// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/plan_upload.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <mutex>
#include <span>
#include <system_error>
#include <utility>
#include <vector>

#include "file/atomic.h"
#include "serve/child.h"
#include "serve/plan_picture.h"
#include "video/png.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using Bytes = std::span<const uint8_t>;
using video::Picture;

constexpr const char* kPageDrawer = "/usr/bin/pdftoppm";

Bytes bytes_of(std::string_view text) { return {reinterpret_cast<const uint8_t*>(text.data()), text.size()}; }

bool is_pdf(std::string_view bytes) {
  constexpr size_t kHead = 1024;  // within which readers look for the mark
  return bytes.substr(0, kHead).find("%PDF-") != std::string_view::npos;
}

/// What a program said, on one line and without what a terminal or a page could take for more than text.
std::string first_line(const std::string& words) {
  std::string line = words.substr(0, std::min(words.find('\n'), size_t{200}));
  constexpr char kFirstPrinted = ' ', kLastPrinted = '~';
  std::replace_if(
      line.begin(), line.end(), [](char c) { return c < kFirstPrinted || c > kLastPrinted; }, '?');
  return line.empty() ? "it says no more" : line;
}

Result<Picture> draw_page(std::string_view pdf, int page) {
  const std::string number = std::to_string(page);
  const Result<ChildResult> drawn = run_child(
      kPageDrawer, {"-png", "-singlefile", "-f", number, "-l", number, "-scale-to", std::to_string(kPlanPageSide), "-"},
      pdf);
  if (!drawn)
    return failure(ErrorKind::kRequest, drawn.error().text + "; pages of PDFs need the package poppler-utils");
  if (drawn->too_slow) return failure(ErrorKind::kTooLarge, "is a PDF whose page takes too long to draw");
  if (drawn->status != 0 || !is_png(bytes_of(drawn->output)))
    return failure(ErrorKind::kSyntax,
                   fmt::format("is a PDF of which page {} cannot be drawn: {}", page, first_line(drawn->words)));
  return decode_png(bytes_of(drawn->output));
}

Result<Picture> picture_in(std::string_view bytes, int page) {
  if (bytes.size() > kLargestPlan)
    return failure(ErrorKind::kTooLarge,
                   fmt::format("has {} bytes; at most {} are allowed", bytes.size(), kLargestPlan));
  if (is_png(bytes_of(bytes))) return decode_png(bytes_of(bytes));
  if (is_jpeg(bytes_of(bytes))) return decode_jpeg(bytes_of(bytes));
  if (!is_pdf(bytes)) return failure(ErrorKind::kSyntax, "is neither a PNG, a JPEG nor a PDF");
  if (page < 1 || page > kMostPages)
    return failure(ErrorKind::kField, fmt::format("found page {}; allowed is 1 to {}", page, kMostPages));
  return draw_page(bytes, page);
}

/// The document's name without its ending, short enough for what a document may call its picture.
std::string stem_of(const std::string& document_path) {
  constexpr std::string_view kEnding = ".sightfall.json";
  constexpr size_t kLongest = 50;
  std::string stem = fs::path(document_path).filename().string();
  if (stem.ends_with(kEnding)) stem.resize(stem.size() - kEnding.size());
  if (stem.size() <= kLongest) return stem;
  size_t end = kLongest;
  constexpr unsigned kContinues = 0x80, kMask = 0xC0;
  while (end > 0 && (static_cast<unsigned char>(stem[end]) & kMask) == kContinues) --end;
  return stem.substr(0, end);
}

/// A name beside the document that nothing has.
std::string free_name(const std::string& document_path) {
  constexpr int kMostTried = 10'000;
  for (int i = 1; i <= kMostTried; ++i) {
    std::string name = fmt::format("{}.plan-{}.png", stem_of(document_path), i);
    std::error_code error;
    if (fs::symlink_status(fs::path(document_path).parent_path() / name, error).type() == fs::file_type::not_found)
      return name;
  }
  return {};
}

Reply body_reply(int status, Error error) {
  error.where = {"request", {}, "body"};
  return {status, errors_body({std::move(error)})};
}

}  // namespace

Reply put_plan(const std::string& document_path, std::string_view bytes, int page) {
  if (document_path.empty()) return body_reply(kConflict, {ErrorKind::kRequest, "no site is open", {}});
  static std::mutex one_at_a_time;  // a picture as large as allowed takes most of a gigabyte while it is made
  const std::lock_guard lock(one_at_a_time);
  const Result<Picture> picture = picture_in(bytes, page);
  if (!picture) return body_reply(kBad, picture.error());
  const Result<std::vector<uint8_t>> png = video::png_of(*picture);
  if (!png) return body_reply(kOurFault, png.error());
  const std::string name = free_name(document_path);
  if (name.empty()) return body_reply(kBad, {ErrorKind::kWrite, "too many plans beside this document", {}});
  const std::string path = (fs::path(document_path).parent_path() / name).string();
  const std::string_view text(reinterpret_cast<const char*>(png->data()), png->size());
  if (auto written = file::write_atomically(path, text); !written) return body_reply(kOurFault, written.error());
  return {200, file::Object{{"picture", name}, {"columns", picture->columns}, {"rows", picture->rows}}};
}

}  // namespace sightfall::serve
