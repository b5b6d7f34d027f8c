// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check_maps.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cctype>
#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "draw/plan_map.h"
#include "file/atomic.h"
#include "need/lighting.h"
#include "need/map.h"

namespace sightfall::cli {
namespace {

/// One plan to draw: of a verdict's need, or of a place that no need names.
struct Plan {
  const need::Verdict* verdict = nullptr;
  std::string name, place, condition;
};

std::vector<Plan> plans_of(const need::Project& project, const need::CheckResult& result) {
  std::vector<Plan> plans;
  for (const need::Verdict& verdict : result.verdicts)
    plans.push_back({&verdict, verdict.need, need::find_named(project.needs, verdict.need)->place,
                     verdict.worst ? verdict.worst->condition : verdict.conditions.front().condition});
  // Whoever asked for one need does not want every other place.
  if (result.verdicts.size() < project.needs.size()) return plans;
  for (const std::string& place : result.without_need)
    plans.push_back({nullptr, place, place, project.conditions.front().name});
  return plans;
}

std::vector<std::string> burning(const need::Project& project, const std::string& condition_name) {
  std::vector<std::string> names;
  if (project.site.lamps.empty()) return names;
  const site::Condition& condition = need::the_named(project.conditions, condition_name);
  const site::Scene scene{project.site, condition.leaves};
  const need::Lighting lighting{project, scene, condition};
  for (const need::BurningLamp& one : lighting.lamps()) names.push_back(one.lamp->name);
  return names;
}

Result<draw::PlanPictures> draw(const need::Project& project, const Plan& plan, const need::DetailMap& map) {
  const PixelDensity required = plan.verdict != nullptr ? plan.verdict->required : PixelDensity{};
  return draw::draw_plan_map({&project, &map, plan.verdict, required, burning(project, map.condition), plan.name,
                              fmt::format("{} - {}", project.name, map.condition)});
}

}  // namespace

PictureFolder::~PictureFolder() {
  std::error_code none;
  for (const std::string& path : paths_) std::filesystem::remove(path, none);
  for (const std::string& folder : folders_) std::filesystem::remove(folder, none);
}

Result<void> PictureFolder::open() {
  namespace fs = std::filesystem;
  const Where where{folder_, "", ""};
  std::error_code code;
  if (fs::exists(folder_, code) && !fs::is_directory(folder_, code))
    return failure(ErrorKind::kWrite, "found a file; allowed is a folder, or a name that is free", where);
  fs::path missing = fs::path(folder_).lexically_normal();
  if (!missing.has_filename()) missing = missing.parent_path();  // `plans/`
  for (; !missing.empty() && !fs::exists(missing, code); missing = missing.parent_path())
    folders_.push_back(missing.string());
  fs::create_directories(folder_, code);
  if (code) return failure(ErrorKind::kWrite, "cannot make the folder: " + code.message(), where);
  if (::access(folder_.c_str(), W_OK | X_OK) != 0)
    return failure(ErrorKind::kWrite,
                   std::string("cannot write in the folder: ") + std::generic_category().message(errno), where);
  return {};
}

Result<void> PictureFolder::write(const std::string& name, std::string_view bytes) {
  const std::string path = folder_ + "/" + name;
  if (auto written = file::write_atomically(path, bytes); !written) return written;
  paths_.push_back(path);
  return {};
}

std::string PictureFolder::path_for(const std::string& name) {
  paths_.push_back(folder_ + "/" + name);
  return paths_.back();
}

void PictureFolder::keep() {
  paths_.clear();
  folders_.clear();
}

std::string picture_name(size_t number, const std::string& name) {
  std::string slug;
  for (const char c : name)
    if (std::isalnum(static_cast<unsigned char>(c)) != 0)
      slug += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    else if (!slug.empty() && slug.back() != '-')
      slug += '-';
  constexpr size_t kLongest = 80;
  slug.resize(std::min(slug.size(), kLongest));
  while (!slug.empty() && slug.back() == '-') slug.pop_back();
  return fmt::format("{:02d}-{}", number, slug.empty() ? "plan" : slug);
}

Result<MapCount> draw_maps(const need::Project& project, const need::CheckResult& result, PictureFolder& folder,
                           const Progress& progress) {
  constexpr int kCells = 60000;
  const std::vector<Plan> plans = plans_of(project, result);
  for (size_t i = 0; i < plans.size(); ++i) {
    progress.tell(static_cast<double>(i) / static_cast<double>(plans.size()), "drawing plans");
    const need::DetailMap map = need::detail_map(project, plans[i].place, plans[i].condition, kCells, progress);
    if (progress.stopped()) return MapCount{i, plans.size()};  // the map may have gaps
    const auto pictures = draw(project, plans[i], map);
    if (!pictures) return tl::make_unexpected(pictures.error());
    const std::string name = picture_name(i + 1, plans[i].name);
    for (const auto& [ending, bytes] : {std::pair{".svg", &pictures->svg}, std::pair{".png", &pictures->png}})
      if (auto written = folder.write(name + ending, *bytes); !written) return tl::make_unexpected(written.error());
  }
  return MapCount{plans.size(), plans.size()};
}

}  // namespace sightfall::cli
