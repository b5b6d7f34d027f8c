// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/map_import.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <system_error>
#include <utility>

#include "file/atomic.h"
#include "file/edit_tree.h"
#include "file/version.h"
#include "file/words.h"
#include "serve/child.h"
#include "serve/events.h"
#include "serve/map_words.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::List;
using file::Object;
using file::Value;

constexpr size_t kLargestResult = size_t{64} << 20;
/// What an import alters.
constexpr std::string_view kAnchor = "site/anchor";
constexpr std::array<std::string_view, 3> kAltered{kAnchor, "site/terrain", "site/solids"};

// A sanitized program spreads over more addresses than any limit would leave.
#if defined(__SANITIZE_ADDRESS__)
constexpr size_t kMemory = 0;
#else
constexpr size_t kMemory = size_t{2} << 30;
#endif

/// A folder that goes with all that is in it.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::error_code none;
    std::string path = (fs::temp_directory_path(none) / "sightfall-import-XXXXXX").string();
    if (::mkdtemp(path.data()) != nullptr) path_ = path;
  }
  ~ScratchFolder() {
    std::error_code none;
    if (!path_.empty()) fs::remove_all(path_, none);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  const std::string& path() const { return path_; }  ///< empty: none could be made
  std::string of(const std::string& name) const { return (fs::path(path_) / name).string(); }
  bool put(const std::string& name, std::string_view bytes) const {
    std::ofstream file(of(name), std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    return file.flush().good();
  }

 private:
  std::string path_;
};

/// A document in which nothing stands, so that all things read keep their names of the map, and meet what is called
/// alike when the edit is made.
Value bare_document() {
  return Object{{"sightfall", file::kVersion},
                {"name", "import"},
                {"site", Object{}},
                {"conditions", List{Object{{"name", "day"}, {"leaves", "on"}}}}};
}

/// The same where the site lies, or where the page says that it does.
Value placed(Value document, const Snapshot& site, const MapRequest& request) {
  const Value* own = file::find_member(*site.document, kAnchor);
  if (!request.anchor.null())
    file::set_member(document, kAnchor, request.anchor);
  else if (own != nullptr)
    file::set_member(document, kAnchor, *own);
  return document;
}

tl::unexpected<Errors> only(const MapRequest& request, ErrorKind kind, std::string text, std::string field = {}) {
  return tl::make_unexpected(Errors{{kind, std::move(text), {request.sent, {}, std::move(field)}}});
}

Checked<ChildResult> run(const std::string& program, const ScratchFolder& folder, const MapRequest& request,
                         const Progress& progress) {
  std::vector<std::string> words{"import", request.kind == MapKind::kFootprints ? "footprints" : "terrain",
                                 request.file, std::string("--into=") + kMapDocument};
  words.insert(words.end(), request.options.begin(), request.options.end());
  const ChildLimits limits{kImportTime, kMemory};
  const ChildRoom room{folder.path(),
                       {"TMPDIR=" + folder.path(), "COLUMNS=1000", "SIGHTFALL_PROGRESS=1"},
                       [&](std::string_view said) { tell_map(said, progress); },
                       progress.stop};
  Result<ChildResult> result = run_child(program, words, "", limits, room);
  if (!result) return tl::make_unexpected(Errors{result.error()});
  if (result->stopped) return only(request, ErrorKind::kRequest, "stopped before its end; nothing was imported");
  if (result->too_slow)
    return only(
        request, ErrorKind::kTooLarge,
        fmt::format("takes longer to read than the {} s that are allowed: cut it down first", kImportTime.count()));
  if (result->status != 0) return tl::make_unexpected(map_errors(*result, request));
  return std::move(*result);
}

/// The document that the import leaves. What else lies in its place is not told: it could be anybody's.
Checked<Value> read_result(const ScratchFolder& folder, const MapRequest& request) {
  std::error_code none;
  const std::string path = folder.of(kMapDocument);
  if (fs::symlink_status(path, none).type() == fs::file_type::regular)
    if (const auto text = file::read_whole(path, kLargestResult))
      if (auto document = file::parse_json(*text, kMapDocument)) return std::move(*document);
  return only(request, ErrorKind::kSyntax, kMapFailure);
}

bool is_altered_by_imports(const file::Change& change) {
  const file::Place* place = file::place_of(change.at);
  return place != nullptr && std::find(kAltered.begin(), kAltered.end(), place->path) != kAltered.end();
}

Checked<file::Changes> changes_of(const Value& before, const Value& after, const MapRequest& request) {
  file::Changes changes = file::difference(before, after);
  std::erase_if(changes, [](const file::Change& change) { return !is_altered_by_imports(change); });
  if (changes.size() <= kMostImported && one_line(file::to_value(changes)).size() <= kLargestImport) return changes;
  return only(request, ErrorKind::kTooLarge,
              fmt::format("holds more than the workbench takes at once ({} buildings, {} MiB of heights or corners): "
                          "ask for a smaller distance or, of heights, a larger step",
                          kMostImported, kLargestImport >> 20),
              "within_m");
}

/// Takes out what stands in the document already, just so. How many these are, but for the place on the earth.
size_t leave_what_is_there(const Value& document, file::Changes& changes) {
  const auto made = file::apply_as_told(document, changes);
  if (made) return 0;
  std::set<std::vector<std::string>> there;
  for (const file::Conflict& conflict : made.error().conflicts)
    if (file::same(conflict.found, conflict.change.now)) there.insert(conflict.change.at);
  std::erase_if(changes, [&](const file::Change& change) { return there.contains(change.at); });
  return there.size() - there.count({"site", "anchor"});
}

}  // namespace

std::string own_program() { return fmt::format("/proc/{}/exe", ::getpid()); }

Checked<MapImport> import_map(const std::string& program, const Snapshot& site, const MapRequest& request,
                              std::string_view bytes, const Progress& progress) {
  if (bytes.empty()) return only(request, ErrorKind::kSyntax, "is empty");
  const Value before = bare_document();
  const Value given = placed(before, site, request);
  const ScratchFolder folder;
  if (folder.path().empty() || !folder.put(request.file, bytes) || !folder.put(kMapDocument, file::print_json(given)))
    return tl::make_unexpected(
        Errors{{ErrorKind::kWrite, "there is no room for a copy of it", {request.sent, {}, {}}}});
  const auto result = run(program, folder, request, progress);
  if (!result) return tl::make_unexpected(result.error());
  const auto after = read_result(folder, request);
  if (!after) return tl::make_unexpected(after.error());
  auto changes = changes_of(before, *after, request);
  if (!changes) return tl::make_unexpected(std::move(changes.error()));
  MapImport import{std::move(*changes), map_told(result->output)};
  if (const size_t left = leave_what_is_there(*site.document, import.changes); left > 0)
    import.told.push_back(fmt::format("on the site already, just so, and left as it is: {}", left));
  return import;
}

}  // namespace sightfall::serve
