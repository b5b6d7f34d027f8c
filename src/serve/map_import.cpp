// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/map_import.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <system_error>
#include <utility>

#include "file/atomic.h"
#include "file/edit_tree.h"
#include "file/utf8.h"
#include "file/version.h"
#include "file/words.h"
#include "serve/child.h"
#include "serve/events.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::List;
using file::Object;
using file::Value;

constexpr const char* kDocument = "site.sightfall.json";
constexpr size_t kLargestResult = size_t{64} << 20;
constexpr const char* kFailure =
    "reading it ended in a failure: it is damaged, or asks for more memory than is allowed";
constexpr std::string_view kProgressMark = "\033[K";
/// Errors that ask for an option without naming it, and its field.
constexpr std::array<std::pair<std::string_view, const char*>, 3> kToldByWords{
    {{"map projection", "crs"}, {"no layer \"", "layer"}, {"more than one layer", "layer"}}};
/// What an import alters.
constexpr std::array<std::string_view, 3> kAltered{"site/anchor", "site/terrain", "site/solids"};

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

/// What the import needs of a document: where it lies, and the names that are taken.
Value reduced(const Value& document) {
  Value result = Object{{"sightfall", file::kVersion},
                        {"name", "import"},
                        {"site", Object{}},
                        {"conditions", List{Object{{"name", "day"}, {"leaves", "on"}}}}};
  for (const std::string_view path : kAltered)
    if (const Value* member = file::find_member(document, path)) file::set_member(result, path, *member);
  return result;
}

tl::unexpected<Errors> only(const MapRequest& request, ErrorKind kind, std::string text, std::string field = {}) {
  return tl::make_unexpected(Errors{{kind, std::move(text), {request.sent, {}, std::move(field)}}});
}

/// A line of another program as text: no control characters, nothing that is no UTF-8, not endless.
std::string clean(std::string_view line) {
  constexpr size_t kLongest = 600;
  std::string text;
  while (!line.empty() && text.size() < kLongest) {
    const size_t length = file::character_length(line);
    const std::string_view character = line.substr(0, std::max<size_t>(1, length));
    text += length == 0 || file::is_control(character) ? "?" : character;
    line.remove_prefix(character.size());
  }
  return text;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    if (end > 0) lines.push_back(clean(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

/// What an error of the command line begins with, which the wire tells apart; nothing where a line goes on with the one
/// before.
std::optional<size_t> beginning_of(const std::string& line, const MapRequest& request) {
  for (const std::string& prefix : {request.file + ": ", kDocument + std::string(": "), std::string("command line: ")})
    if (line.starts_with(prefix)) return prefix.size();
  return std::nullopt;
}

/// The error as the command line said it, in the words of the wire: fields in place of options.
Error error_of(std::string line, const MapRequest& request) {
  Error error{ErrorKind::kSyntax, {}, {request.sent, {}, {}}};
  for (const MapOption& one : map_options()) {
    const std::string before = one.option + ": ", within = one.option + " METRES";
    if (line.starts_with(before)) {
      line.erase(0, before.size());
      error.where.field = one.field;
    } else if (const size_t at = line.find(within); at != std::string::npos) {
      line.replace(at, within.size(), one.field);
      if (error.where.field.empty()) error.where.field = one.field;
    }
  }
  for (const auto& [words, field] : kToldByWords)
    if (error.where.field.empty() && line.find(words) != std::string::npos) error.where.field = field;
  error.text = std::move(line);
  return error;
}

/// What is said after the last word of progress.
std::string_view said_at_the_end(std::string_view words) {
  const size_t mark = words.rfind(kProgressMark);
  return mark == std::string_view::npos ? words : words.substr(mark + kProgressMark.size());
}

Errors errors_of(const ChildResult& result, const MapRequest& request) {
  constexpr int kBadInput = 2;
  Errors errors;
  std::vector<std::string> told;
  if (result.status == kBadInput)
    for (const std::string& line : lines_of(said_at_the_end(result.words))) {
      if (line.ends_with(" errors; nothing was done")) continue;
      const auto beginning = beginning_of(line, request);
      if (beginning || told.empty())
        told.push_back(line.substr(beginning.value_or(0)));
      else
        told.back() += " " + line;
    }
  for (std::string& text : told) errors.push_back(error_of(std::move(text), request));
  if (errors.empty()) errors.push_back({ErrorKind::kSyntax, kFailure, {request.sent, {}, {}}});
  return errors;
}

/// Passes on ` 40 %  reading outlines`.
void tell(std::string_view words, const Progress& progress) {
  words = said_at_the_end(words);
  words.remove_prefix(std::min(words.find_first_not_of(' '), words.size()));
  int hundredths = 0;
  const auto [end, fault] = std::from_chars(words.data(), words.data() + words.size(), hundredths);
  const std::string_view rest = words.substr(static_cast<size_t>(end - words.data()));
  constexpr std::string_view kBetween = " %  ";
  if (fault == std::errc{} && rest.starts_with(kBetween))
    progress.tell(hundredths / 100.0, clean(rest.substr(kBetween.size())));
}

Checked<ChildResult> run(const std::string& program, const ScratchFolder& folder, const MapRequest& request,
                         const Progress& progress) {
  std::vector<std::string> words{"import", request.kind == MapKind::kFootprints ? "footprints" : "terrain",
                                 request.file, std::string("--into=") + kDocument};
  words.insert(words.end(), request.options.begin(), request.options.end());
  const ChildLimits limits{kImportTime, kMemory};
  const ChildRoom room{folder.path(),
                       {"TMPDIR=" + folder.path(), "COLUMNS=1000", "SIGHTFALL_PROGRESS=1"},
                       [&](std::string_view said) { tell(said, progress); },
                       progress.stop};
  Result<ChildResult> result = run_child(program, words, "", limits, room);
  if (!result) return tl::make_unexpected(Errors{result.error()});
  if (result->stopped) return only(request, ErrorKind::kRequest, "stopped before its end; nothing was imported");
  if (result->too_slow)
    return only(
        request, ErrorKind::kTooLarge,
        fmt::format("takes longer to read than the {} s that are allowed: cut it down first", kImportTime.count()));
  if (result->status != 0) return tl::make_unexpected(errors_of(*result, request));
  return std::move(*result);
}

/// The document that the import leaves. What else lies in its place is not told: it could be anybody's.
Checked<Value> read_result(const ScratchFolder& folder, const MapRequest& request) {
  std::error_code none;
  const std::string path = folder.of(kDocument);
  if (fs::symlink_status(path, none).type() == fs::file_type::regular)
    if (const auto text = file::read_whole(path, kLargestResult))
      if (auto document = file::parse_json(*text, kDocument)) return std::move(*document);
  return only(request, ErrorKind::kSyntax, kFailure);
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

std::vector<std::string> told_by(const std::string& output) {
  std::vector<std::string> lines = lines_of(output);
  if (!lines.empty() && lines.back().starts_with("saved ")) lines.pop_back();
  return lines;
}

}  // namespace

std::string own_program() { return fmt::format("/proc/{}/exe", ::getpid()); }

Checked<MapImport> import_map(const std::string& program, const Snapshot& site, const MapRequest& request,
                              std::string_view bytes, const Progress& progress) {
  if (bytes.empty()) return only(request, ErrorKind::kSyntax, "is empty");
  const Value before = reduced(*site.document);
  Value given = before;
  if (!request.anchor.null()) {
    if (site.project->site.anchor)
      return refused(ErrorKind::kRequest, "latitude_deg", "found one, but the site has an anchor already");
    file::set_member(given, "site/anchor", request.anchor);
  }
  const ScratchFolder folder;
  if (folder.path().empty() || !folder.put(request.file, bytes) || !folder.put(kDocument, file::print_json(given)))
    return tl::make_unexpected(
        Errors{{ErrorKind::kWrite, "there is no room for a copy of it", {request.sent, {}, {}}}});
  const auto result = run(program, folder, request, progress);
  if (!result) return tl::make_unexpected(result.error());
  const auto after = read_result(folder, request);
  if (!after) return tl::make_unexpected(after.error());
  auto changes = changes_of(before, *after, request);
  if (!changes) return tl::make_unexpected(std::move(changes.error()));
  return MapImport{std::move(*changes), told_by(result->output)};
}

}  // namespace sightfall::serve
