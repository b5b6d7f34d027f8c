// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/photometry.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <unordered_set>

#include "file/atomic.h"
#include "file/words.h"
#include "light/lamp_file.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;

bool stays_inside(const fs::path& name) {
  return name.is_relative() && std::find(name.begin(), name.end(), "..") == name.end();
}

bool is_below(const fs::path& folder, const fs::path& path) {
  return std::mismatch(folder.begin(), folder.end(), path.begin(), path.end()).first == folder.end();
}

Result<std::string> read_below(const fs::path& folder, const std::string& name) {
  const std::string path = (folder / name).string();
  std::error_code not_there;
  const fs::path home = fs::canonical(folder, not_there);
  const fs::path real = fs::canonical(path, not_there);
  if (!not_there && !is_below(home, real))
    return failure(ErrorKind::kMissingFile, "leads out of the document's folder", {path, {}, {}});
  return read_whole(path, light::kLargestLampFile);
}

/// Reads the files of one document.
class LampReader {
 public:
  LampReader(const LampFiles& files, Report& report) : files_{files}, report_{report} {}

  void read(const std::string& name, const Spot& spot, std::vector<need::Photometry>& all) {
    if (!stays_inside(name))
      return add(ErrorKind::kField, spot,
                 "found " + in_quotes(name) +
                     "; allowed is a file in the document's folder or below it: no \"..\", no path from the root");
    if (!seen_.insert(name).second) return;
    if (!files_)
      return add(ErrorKind::kMissingFile, spot,
                 "found " + in_quotes(name) + "; this document is read without a folder in which the file could be");
    const Result<std::string> text = files_(name);
    if (!text) return add(text.error().kind, spot, to_line(text.error()));
    taken_ += text->size();
    if (taken_ > kMostLampText)
      return add(ErrorKind::kTooLarge, spot,
                 fmt::format("makes the photometric files {} bytes long; together at most {} are allowed", taken_,
                             kMostLampText));
    const Result<light::LampFile> lamp = light::parse_lamp(*text, name);
    if (!lamp) return add(lamp.error().kind, spot, to_line(lamp.error()));
    all.push_back({name, lamp->candela});
  }

 private:
  void add(ErrorKind kind, const Spot& spot, std::string text) { report_.add(kind, spot, std::move(text)); }

  const LampFiles& files_;
  Report& report_;
  std::unordered_set<std::string> seen_;
  size_t taken_ = 0;
};

}  // namespace

LampFiles lamp_files_beside(const std::string& document_path) {
  fs::path folder = fs::path(document_path).parent_path();
  if (folder.empty()) folder = ".";
  return [folder](const std::string& name) { return read_below(folder, name); };
}

void read_photometry(need::Project& project, const LampFiles& lamp_files, Report& report) {
  LampReader reader(lamp_files, report);
  for (size_t i = 0; i < project.site.lamps.size(); ++i) {
    const site::Lamp& lamp = project.site.lamps[i];
    const Spot spot = item_spot("site.lamps", i, lamp.name).at("photometry");
    if (!lamp.photometry.empty() && report.clean(spot.path, spot.field))
      reader.read(lamp.photometry, spot, project.photometry);
  }
}

}  // namespace sightfall::file
