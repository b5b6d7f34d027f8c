// SPDX-License-Identifier: GPL-3.0-or-later
// A small yard by night for tests of the picture: a lamp and a wall whose shadow falls on textured ground, a fence of
// mesh, a second camera's infrared, the camera's own, and whoever visits.
#pragma once
#include <string>
#include <vector>

#include "need/test_project.h"
#include "walk/stage.h"

namespace sightfall::walk {

struct Yard {
  need::Project project = need::plain_project();
  site::Condition condition;
  need::Station station;

  explicit Yard(int columns = 320, int rows = 240) {
    using namespace units;
    project.settings.materials.all = {
        {"skin", {{0.4, 0.6, 0.5}}, "test"},     {"clothing", {{0.2, 0.3, 0.3}}, "test"},
        {"concrete", {{0.3, 0.3, 0.3}}, "test"}, {"brick", {{0.25, 0.4, 0.4}}, "test"},
        {"mesh", {{0.3, 0.3, 0.3}}, "test"},     {"plate sheeting", {{0.5, 0.5, 0.5}}, "test"}};
    project.settings.materials.ground = "concrete";
    project.settings.materials.mesh = "mesh";
    project.catalogue.front().columns = columns;
    project.catalogue.front().rows = rows;
    project.catalogue.front().active_width = 8 * mm;
    camera::Infrared infrared;
    infrared.reach = 20 * m;
    project.catalogue.front().infrared = infrared;
    project.site.mounts = {need::mount_at("post", {0, 0}, 3), need::mount_at("other", {9, 12}, 3)};
    project.cameras = {need::camera_on("eye", "post", 0, 12), need::camera_on("over there", "other", 250, 20)};
    project.cameras[1].mount = "other";
    project.site.boundary = {{-40, -40}, {40, -40}, {40, 60}, {-40, 60}};
    project.site.solids = {need::wall_of("wall", {{-1, 9}, {3, 10}}, 1.5)};
    project.site.solids.front().material = "brick";
    project.site.solids.front().thickness = 0.3 * m;
    project.site.veils = {need::mesh_of("fence", {{-6, 7}, {-2, 8}}, 2, 0.7, 0.7)};
    condition.name = "night";
    condition.light = site::NamedLight::kDarkNight;
    site::Lamp lamp;
    lamp.name = "lamp";
    lamp.at = {2, 13};
    lamp.height = 4 * m;
    lamp.tilt = 80 * deg;
    lamp.heading = 180 * deg;
    lamp.lumens = 900 * lm;
    lamp.beam = 100 * deg;
    lamp.burns = site::Burns::kAlways;
    project.site.lamps = {lamp};
    station = need::in_condition(need::station_of(project, project.cameras.front()),
                                 need::lit_scene(project, condition).lighting);
  }

  /// A walker with a plate's pattern nowhere; the ground's height is 0.
  static Visitor walker_at(double x, double y) { return {placed(walker(0.2), {x, y, 0}, {0, -1}), ""}; }
  static Visitor car_at(double x, double y) { return {placed(car(), {x, y, 0}, {0, -1}), "1A2B3C"}; }
};

}  // namespace sightfall::walk
