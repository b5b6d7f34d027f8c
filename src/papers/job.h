// SPDX-License-Identifier: GPL-3.0-or-later
// Everything that papers tell, worked out once: verdicts, loads, and of each camera its aim, its range card and what it
// will show by day and by night.
//   Pure     reads no file, clock or global: dates are given
//   Checked  papers_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "card/card.h"
#include "draw/document.h"
#include "loads/loads.h"
#include "need/aim.h"
#include "need/check.h"
#include "papers/addresses.h"
#include "site/scene.h"
#include "video/picture.h"

namespace sightfall::papers {

/// What the papers are asked for.
struct Asked {
  std::string date;  ///< ISO 8601, such as `2026-11-27`; empty: a line to write it on
  std::string by;    ///< who hands over; empty: a line
  draw::PaperSize paper = draw::PaperSize::kA4;
  Network network{0xC0A83200, 24};  ///< 192.168.50.0/24
  bool pictures = true;             ///< of what each camera will show
  bool mask_costs = true;           ///< of what masks cost the needs, which takes as long as a check for each
};

/// A predicted picture, made small.
struct Shown {
  bool night = false;
  std::string condition;
  video::Picture picture;
  geom::PlanPoint at;  ///< where somebody stands
  std::string need;    ///< at whose worst place in the condition; empty: in the middle of the picture
};

struct CameraPart {
  int number = 1;  ///< on the plan and in every list
  const camera::Camera* camera = nullptr;
  const camera::Sheet* sheet = nullptr;
  const site::Mount* mount = nullptr;
  need::Aim aim;
  card::CardRequest request;
  card::RangeCard card;
  std::vector<Shown> shown;
};

/// Two sites side by side are two of these.
struct Verdicts {
  const need::Project* project = nullptr;
  need::CheckResult check;
  loads::Loads loads;
  std::vector<loads::Ask> asks;  ///< the loads as lines
};

/// The projects must outlive it.
struct Job {
  Asked asked;
  Verdicts here;
  std::optional<Verdicts> other;  ///< the option beside it
  std::vector<CameraPart> cameras;
  std::vector<Address> addresses;
  std::vector<std::string> without_shape;  ///< texts with letters that no typeface here has
  bool stopped = false;

  const need::Project& project() const { return *here.project; }
};

/// Where somebody stands for a camera's picture by day or by night, and in which condition: at the worst place of the
/// first need that is asked then and that this camera shows there, one that is at its worst then before others; else in
/// the middle of its picture. `which` of the cameras; `scene`: to find that middle.
Shown place_to_show(const Verdicts& here, size_t which, const site::Scene& scene, bool night);

/// Of a device on the cameras' network; empty for what has none.
std::string address_of(const Job& job, const std::string& device);

/// Works all of it out. `other`: an option to set beside it, or null. Errors: a network too small for the devices.
Result<Job> gathered(const need::Project& project, const need::Project* other, const Asked& asked,
                     const Progress& progress = {});

}  // namespace sightfall::papers
