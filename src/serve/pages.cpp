// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/pages.h"

#include <algorithm>
#include <array>

#include "embedded/no_page_html.h"
#include "embedded/web_pages.h"
#include "file/history.h"

namespace sightfall::serve {
namespace {

constexpr std::string_view kCompressed = ".gz";
constexpr std::string_view kHashedFolder = "assets/";  // where the page's build puts hashes into names

std::string_view type_of(std::string_view name) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kTypes{
      {{".html", "text/html; charset=utf-8"},
       {".js", "text/javascript; charset=utf-8"},
       {".css", "text/css; charset=utf-8"},
       {".json", "application/json"},
       {".webmanifest", "application/manifest+json"},
       {".svg", "image/svg+xml"},
       {".png", "image/png"},
       {".ico", "image/x-icon"},
       {".woff2", "font/woff2"},
       {".wasm", "application/wasm"},
       {".txt", "text/plain; charset=utf-8"}}};
  const auto found =
      std::find_if(kTypes.begin(), kTypes.end(), [&](const auto& one) { return name.ends_with(one.first); });
  return found == kTypes.end() ? "application/octet-stream" : found->second;
}

/// Tells one build's file from another's.
std::string tag_of(std::string_view bytes) { return '"' + file::fingerprint(bytes) + '"'; }

std::vector<PageFile> built_in() {
  std::vector<PageFile> files;
  for (const embedded::File& file : embedded::web_pages()) files.push_back({file.name, file.bytes});
  if (files.empty()) files.push_back({"index.html", embedded::no_page_html});
  return files;
}

bool accepts_compressed(const Request& request) {
  const std::string* accepted = request.header("Accept-Encoding");
  return accepted != nullptr && accepted->find("gzip") != std::string::npos &&
         accepted->find("gzip;q=0") == std::string::npos;
}

}  // namespace

Pages::Pages() : Pages(built_in()) {}

Pages::Pages(std::vector<PageFile> files) {
  for (const PageFile& file : files) {
    if (file.name.ends_with(kCompressed)) continue;
    const auto compressed = std::find_if(files.begin(), files.end(), [&](const PageFile& one) {
      return one.name == std::string(file.name) + std::string(kCompressed);
    });
    files_.push_back({"/" + std::string(file.name), std::string(type_of(file.name)), tag_of(file.bytes), file.bytes,
                      compressed == files.end() ? std::string_view{} : compressed->bytes,
                      file.name.starts_with(kHashedFolder)});
  }
}

std::optional<Response> Pages::find(const Request& request) const {
  const std::string path = request.target.segments.empty() ? "/index.html" : request.target.path();
  const auto file = std::find_if(files_.begin(), files_.end(), [&](const Kept& one) { return one.name == path; });
  if (file == files_.end()) return std::nullopt;
  Response response;
  response.headers = {{"Content-Type", file->type},
                      {"ETag", file->tag},
                      {"Vary", "Accept-Encoding"},
                      {"Cache-Control", file->hashed ? "public, max-age=31536000, immutable" : "no-cache"}};
  const std::string* known = request.header("If-None-Match");
  if (known != nullptr && known->find(file->tag) != std::string::npos) {
    response.status = 304;
    return response;
  }
  const bool compressed = !file->compressed.empty() && accepts_compressed(request);
  if (compressed) response.headers.push_back({"Content-Encoding", "gzip"});
  response.body = compressed ? file->compressed : file->bytes;
  return response;
}

}  // namespace sightfall::serve
