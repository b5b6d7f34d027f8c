// SPDX-License-Identifier: GPL-3.0-or-later
// The plans of `check --maps DIR`: one picture a need or place without one, as SVG and PNG.
//   Promise  a run that fails leaves behind nothing that it wrote; one that is stopped leaves whole pictures
//   Checked  check_maps_test.cpp; tests/case
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::cli {

/// The folder of the pictures of one run. What was written is removed again at the end unless it is kept.
class PictureFolder {
 public:
  explicit PictureFolder(std::string folder) : folder_{std::move(folder)} {}
  ~PictureFolder();
  PictureFolder(const PictureFolder&) = delete;
  PictureFolder& operator=(const PictureFolder&) = delete;

  /// Makes the folder where there is none, so that one that cannot be used is told before the work.
  Result<void> open();
  Result<void> write(const std::string& name, std::string_view bytes);
  /// The path of a file that somebody else writes here, as long as it stands in the end.
  std::string path_for(const std::string& name);
  void keep();

 private:
  std::string folder_;
  std::vector<std::string> paths_;    // that were written
  std::vector<std::string> folders_;  // that were made, the inner ones first
};

/// A need's or place's name as a file's: letters and digits, the rest a dash; numbered, so that two never meet.
std::string picture_name(size_t number, const std::string& name);

/// How many plans were drawn, and how many there are; fewer when it was stopped.
struct MapCount {
  size_t drawn = 0, all = 0;
};

/// Draws the plan of each verdict's need and of each place that no need names.
Result<MapCount> draw_maps(const need::Project& project, const need::CheckResult& result, PictureFolder& folder,
                           const Progress& progress);

}  // namespace sightfall::cli
