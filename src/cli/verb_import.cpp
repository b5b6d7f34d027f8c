// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall import footprints FILE --into SITE` and `sightfall import terrain FILE --into SITE`
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <iterator>

#include "cli/confine.h"
#include "cli/layout.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/project.h"
#include "import/footprints.h"
#include "import/terrain.h"

namespace sightfall::cli {
namespace {

using namespace units;

std::optional<Length> metres(const Given& given, std::string_view option) {
  const auto number = given.number(option);
  return number ? std::optional{*number * m} : std::nullopt;
}

/// A site with nothing on it yet, named after its file.
need::Project empty_project(const std::string& path) {
  need::Project project;
  project.name = std::filesystem::path(path).stem().stem().string();
  project.conditions = {{"summer day", site::Leaves::kOn}, {"winter day", site::Leaves::kOff}};
  project.settings.typical = file::default_typical();
  project.settings.levels = file::standard_level_tables().front();
  return project;
}

Checked<need::Project> open_or_begin(const std::string& path) {
  return std::filesystem::exists(path) ? file::load_project(path) : empty_project(path);
}

/// From here on the map's library comes to the map's folder, the site's and the one for scratch files alone.
Result<void> confine_to(const std::string& map, const std::string& site) {
  std::error_code none;
  Reach reach{folders_of(map), folders_of(site)};
  reach.write.push_back(std::filesystem::temp_directory_path(none).string());
  return confine(reach);
}

int save(const std::string& path, const need::Project& project, const std::vector<std::string>& told) {
  if (auto saved = file::save_project(path, project); !saved) return report(saved.error());
  std::string text;
  for (const std::string& line : told) text += wrapped(line, 0);
  std::fputs((text + "saved " + path + "\n").c_str(), stdout);
  return 0;
}

}  // namespace

int run_import_footprints(const Given& given) {
  const std::string& path = given.text("--into");
  Checked<need::Project> project = open_or_begin(path);
  if (!project) return report(project.error());
  if (const auto confined = confine_to(given.text("FILE"), path); !confined) return report(confined.error());
  import::FootprintOptions options;
  options.height = metres(given, "--height");
  options.height_field = given.text_or("--height-field", "");
  options.base_field = given.text_or("--base-field", "");
  options.layer = given.text_or("--layer", "");
  options.crs = given.text_or("--crs", "");
  options.most_distance = metres(given, "--within");
  for (const site::Solid& solid : project->site.solids) options.taken_names.push_back(solid.name);
  auto done = [&] {
    const Watching watching;
    return import::import_footprints(given.text("FILE"), project->site.anchor, options, watching.progress());
  }();
  if (!done) return report(done.error());
  const std::vector<std::string> told = import::summary(*done);
  project->site.anchor = done->anchor;
  std::move(done->solids.begin(), done->solids.end(), std::back_inserter(project->site.solids));
  return save(path, *project, told);
}

int run_import_terrain(const Given& given) {
  const std::string& path = given.text("--into");
  Checked<need::Project> project = open_or_begin(path);
  if (!project) return report(project.error());
  if (const auto confined = confine_to(given.text("FILE"), path); !confined) return report(confined.error());
  const import::TerrainOptions options{metres(given, "--step"), metres(given, "--within"), metres(given, "--fill"),
                                       given.text_or("--crs", "")};
  auto done = [&] {
    const Watching watching;
    return import::import_terrain(given.text("FILE"), project->site.anchor, options, watching.progress());
  }();
  if (!done) return report(done.error());
  const std::vector<std::string> told = import::summary(*done);
  project->site.anchor = done->anchor;
  project->site.terrain = std::move(done->terrain);
  return save(path, *project, told);
}

}  // namespace sightfall::cli
