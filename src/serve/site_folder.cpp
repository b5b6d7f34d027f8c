// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/site_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "embedded/demo_bulkhead_ldt.h"
#include "embedded/demo_floodlight_ies.h"
#include "embedded/demo_json.h"
#include "file/atomic.h"
#include "file/project.h"
#include "file/version.h"
#include "file/words.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::List;
using file::Object;
using file::Value;

constexpr std::string_view kEnding = ".sightfall.json";
constexpr size_t kLongestFile = 120;
/// Of a larger document the name is not read.
constexpr size_t kLargestRead = size_t{4} << 20;

constexpr std::array<std::pair<std::string_view, std::string_view>, 2> kLamps{
    {{"bulkhead.ldt", embedded::demo_bulkhead_ldt}, {"yard_floodlight.ies", embedded::demo_floodlight_ies}}};

tl::unexpected<Error> refused(const std::string& name, const std::string& text) {
  return failure(ErrorKind::kRequest, "found " + file::in_quotes(name) + "; " + text, {"request", {}, "file"});
}

bool is_bare(std::string_view name) {
  constexpr unsigned char kSpace = 0x20, kDelete = 0x7F;
  return name.size() > kEnding.size() && name.size() <= kLongestFile && name.ends_with(kEnding) &&
         name.front() != '.' && std::none_of(name.begin(), name.end(), [](char c) {
           const auto byte = static_cast<unsigned char>(c);
           return c == '/' || c == '\\' || byte < kSpace || byte == kDelete;
         });
}

std::string path_in(const std::string& folder, std::string_view name) { return (fs::path(folder) / name).string(); }

/// What the document calls itself, or its file when that cannot be read.
std::string title_of(const fs::path& path) {
  std::string file = path.filename().string();
  const Result<std::string> text = file::read_whole(path.string(), kLargestRead);
  const Result<Value> document = text ? file::parse_json(*text, file) : Result<Value>{};
  std::string title = document ? file::member_text(*document, "name") : std::string{};
  return title.empty() ? file : title;
}

Checked<std::string> make(const std::string& folder, const std::string& as, std::string_view text) {
  const auto only = [](const Error& error) { return tl::make_unexpected(Errors{error}); };
  if (!is_bare(as))
    return only({ErrorKind::kRequest,
                 "found " + file::in_quotes(as) + "; a bare file name that ends in .sightfall.json is needed",
                 {"request", {}, "as"}});
  const std::string path = path_in(folder, as);
  std::error_code error;
  if (fs::symlink_status(path, error).type() != fs::file_type::not_found)
    return only({ErrorKind::kRequest,
                 "there is a file " + file::in_quotes(as) + " already; choose another name",
                 {"request", {}, "as"}});
  if (const auto written = file::write_atomically(path, text); !written) return only(written.error());
  return path;
}

}  // namespace

bool stands_in(const std::string& folder, const std::string& path) {
  std::error_code none, other;
  return fs::canonical(path, none).parent_path() == fs::canonical(folder, other) && !none && !other;
}

Value documents_in(const std::string& folder) {
  std::vector<fs::path> paths;
  std::error_code error;
  for (fs::directory_iterator at(folder, fs::directory_options::skip_permission_denied, error), end;
       !error && at != end; at.increment(error)) {
    if (!is_bare(at->path().filename().string()) || !stands_in(folder, at->path().string())) continue;
    paths.push_back(at->path());
    if (paths.size() == kMostListed) break;
  }
  std::sort(paths.begin(), paths.end());
  List list;
  for (const fs::path& path : paths)
    list.emplace_back(Object{{"file", path.filename().string()}, {"name", title_of(path)}});
  return list;
}

Result<std::string> document_in(const std::string& folder, const std::string& name) {
  if (!is_bare(name)) return refused(name, "a bare file name that ends in .sightfall.json is needed");
  std::string path = path_in(folder, name);
  if (!stands_in(folder, path)) return refused(name, "there is no such document in the folder");
  return path;
}

Checked<std::string> make_new(const std::string& folder, const std::string& as, const std::string& name) {
  const Value document =
      Object{{"sightfall", file::kVersion},
             {"name", name},
             {"site", Object{}},
             {"conditions", List{Object{{"name", "day"}, {"leaves", "on"}},
                                 Object{{"name", "dark night"}, {"leaves", "on"}, {"light", "dark night"}}}}};
  Checked<need::Project> project = file::read_project(document, as);
  if (!project) return tl::make_unexpected(std::move(project.error()));
  return make(folder, as, file::to_text(*project));
}

Checked<std::string> make_demo(const std::string& folder, const std::string& as) {
  const fs::path lamps = fs::path(folder) / "lamps";
  for (const auto& [file, text] : kLamps) {
    const std::string path = (lamps / file).string();
    const Result<std::string> there = file::read_whole(path, kLargestRead);
    if (there && *there == text) continue;
    std::error_code error;
    if (fs::symlink_status(path, error).type() != fs::file_type::not_found)
      return tl::make_unexpected(
          Errors{{ErrorKind::kRequest, "the demo needs this name for its own file; move yours away", {path, {}, {}}}});
    fs::create_directories(lamps, error);
    if (const auto written = file::write_atomically(path, text); !written)
      return tl::make_unexpected(Errors{written.error()});
  }
  return make(folder, as, embedded::demo_json);
}

}  // namespace sightfall::serve
