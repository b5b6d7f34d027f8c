// SPDX-License-Identifier: GPL-3.0-or-later
// The plan picture of a need: the site in ink, delivered detail as labelled contours over one quiet tone, and hatching
// where the need is missed.
//   In/Out   a project, its detail map and the verdict -> an SVG and a PNG file's bytes, from one drawing
//   Checked  plan_map_test.cpp: the same bytes each time, words present, none over another, contours where they belong
#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "need/check.h"
#include "need/map.h"
#include "need/project.h"

namespace sightfall::draw {

/// What is drawn. The project and the map must outlive the call. Contours are drawn at the densities of the project's
/// levels, or at 1, 2, 5, 10 ... when it has none.
struct PlanMap {
  const need::Project* project = nullptr;
  const need::DetailMap* map = nullptr;
  const need::Verdict* verdict = nullptr;  ///< null: a place without a need
  PixelDensity required;                   ///< the need's level; zero without a need
  std::vector<std::string> burning;        ///< lamps of the site that burn in the map's condition, by name
  std::string title, subtitle;
};

/// The files' bytes. The PNG is kPictureWidth pixels wide.
struct PlanPictures {
  std::string svg, png;
};

inline constexpr int kPictureWidth = 1600;

Result<PlanPictures> draw_plan_map(const PlanMap& plan);

}  // namespace sightfall::draw
