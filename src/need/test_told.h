// SPDX-License-Identifier: GPL-3.0-or-later
// An answer told to the last bit, for tests that hold two answers against each other, and a project with something of
// everything in it.
#pragma once
#include <sstream>

#include "need/check.h"
#include "need/test_project.h"

namespace sightfall::need {

/// The verdict on a project's first need, without a remedy.
inline Verdict verdict_of(const Project& project) {
  CheckOptions options;
  options.remedies = false;
  return check(project, options).verdicts.at(0);
}

inline std::string told(const Verdict& v) {
  std::ostringstream out;
  out << std::hexfloat << v.need << ' ' << in_words(v.answer) << ' ' << v.share.low << ' ' << v.share.nominal << ' '
      << v.share.high << ' ' << v.sampling_error << ' ' << v.required_share << ' ' << v.required.si() << ' '
      << detail::in_words(v.limit) << ' ' << v.settle << ' ' << v.samples << '\n';
  if (v.worst)
    out << "worst " << v.worst->at_site.x << ' ' << v.worst->at_site.y << ' ' << v.worst->at_site.z << ' '
        << v.worst->condition << ' ' << v.worst->camera << ' ' << v.worst->density.si() << ' '
        << v.worst->delivered.low.si() << ' ' << v.worst->delivered.nominal.si() << ' ' << v.worst->delivered.high.si()
        << ' ' << detail::in_words(v.worst->limit) << '\n';
  if (v.remedy) {
    out << "remedy " << v.remedy->mends << ' ' << v.remedy->camera << ' ' << v.remedy->text << ' '
        << v.remedy->share_after << ' ' << in_words(v.remedy->answer_after);
    for (const std::string& spoiled : v.remedy->spoils) out << " spoils " << spoiled;
    out << '\n';
  }
  for (const ConditionShare& c : v.conditions) out << c.condition << ' ' << c.share << '\n';
  return out.str();
}

inline std::string told(const CheckResult& result) {
  std::ostringstream out;
  out << std::hexfloat;
  for (const Verdict& v : result.verdicts) out << told(v);
  for (const Caution& c : result.cautions) out << c.about << ' ' << c.text << '\n';
  for (const Assumption& a : result.assumptions) out << a.what << ' ' << a.settle << '\n';
  for (const std::string& name : result.without_need) out << name << '\n';
  for (const Watch& w : result.watches) out << w.camera << " sees " << w.sees << '\n';
  for (const LeastSeenWay& way : result.least_seen) {
    out << way.place << ' ' << way.condition << ' ' << way.length.si() << ' ' << way.seen.si() << ' ' << way.most.si();
    for (const geom::PlanPoint p : way.way) out << ' ' << p.x << ',' << p.y;
    out << '\n';
  }
  out << result.stopped;
  return out.str();
}

/// Three cameras, walls, a mesh, two conditions, a dozen needs that are met, marginal and missed, a guarded place.
inline Project busy_project() {
  Project project = plain_project();
  detail::Typical& typical = project.settings.typical;
  typical.view_tolerance.value = {0.95, 1, 1.05};
  typical.contrast_face.value = {0.5, 0.8, 0.9};
  typical.shutter_slowest.value = {0.002, 0.005, 0.01};
  project.conditions = {{"summer", site::Leaves::kOn}, {"winter", site::Leaves::kOff}};
  project.site.boundary = rectangle(-25, -5, 25, 45);
  project.site.solids = {wall_of("shed", {{-8, 14}, {-2, 14}, {-2, 20}}, 3),
                         wall_of("low wall", {{4, 25}, {9, 25}}, 1.2)};
  project.site.veils = {mesh_of("hedge", {{-10, 28}, {10, 28}}, 2.5, 0.3, 0.8)};
  project.site.mounts.push_back(mount_at("north post", {5, 42}, 4));
  project.site.mounts.push_back(mount_at("east post", {24, 10}, 3.5));
  project.cameras.push_back(camera_on("north", "north post", 190, 12));
  project.cameras.push_back(camera_on("east", "east post", 280, 8));
  project.catalogue.push_back(plain_sheet("zoom"));
  project.catalogue.back().focal = {Length{5e-3}, Length{20e-3}};
  project.site.places = {zone_of("yard", rectangle(-6, 8, 6, 24)), zone_of("behind", rectangle(-6, 30, 6, 38)),
                         way_of("drive", site::PlaceKind::kRoute, {{-20, 12}, {0, 18}, {20, 40}}, 3),
                         way_of("fence", site::PlaceKind::kLine, {{-25, 40}, {25, 40}})};
  project.site.places.front().guarded = true;
  for (const char* place : {"yard", "behind", "drive", "fence"})
    for (const Subject subject : {Subject::kFace, Subject::kPerson, Subject::kPlate}) {
      Need need = need_of(subject, place, subject == Subject::kPerson ? "coarse" : "fine");
      need.name += " " + std::to_string(static_cast<int>(subject));
      if (subject == Subject::kPerson) need.speed.reset();
      if (std::string{place} == "drive" && subject == Subject::kPlate) need.once_a_passage = 3;
      project.needs.push_back(need);
    }
  return project;
}

}  // namespace sightfall::need
