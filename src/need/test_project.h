// SPDX-License-Identifier: GPL-3.0-or-later
// Small projects for tests, with figures that give answers by pencil. The camera `eye` hangs at a face's height at the
// origin and looks north. Its picture has kScale pixels to a tangent of one, 0.5 to either side and 0.375 up and down;
// its lens is sharper than the reference and nothing is uncertain, so that what it delivers is the density itself:
// kScale / distance on its axis, from 5 m on.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "need/frame.h"
#include "need/lighting.h"
#include "need/project.h"
#include "need/view.h"

namespace sightfall::need {

inline constexpr double kScale = 2000;  // px

inline detail::TypicalValue exactly(double value, const std::string& meaning) {
  return {Ranged<double>::exact(value), "1", meaning, "test", "settle the " + meaning};
}

inline detail::Typical plain_typical() {
  detail::Typical t;
  t.contrast_threshold = exactly(0.2, "threshold");
  for (auto* contrast :
       {&t.contrast_face, &t.contrast_person, &t.contrast_plate, &t.contrast_vehicle, &t.contrast_object})
    *contrast = exactly(1, "contrast");
  t.glare = exactly(0, "glare");
  t.veil_luminance = exactly(1, "luminance of the veil");
  t.lens_blur_economy = exactly(2, "blur of an economy lens");
  t.lens_blur_standard = exactly(0.5, "blur of a standard lens");
  t.lens_blur_precise = exactly(0.1, "blur of a precise lens");
  t.view_tolerance = exactly(1, "angle of view");
  t.format_tolerance = exactly(1, "format");
  t.f_number_tolerance = exactly(1, "f-number");
  t.f_number_unknown = exactly(1.6, "f-number when none is given");
  t.focus_setting = exactly(1, "focus");
  t.smallest_iris = exactly(8, "smallest iris");
  t.readout = exactly(20, "readout");
  t.shutter_slowest = exactly(0.005, "shutter");
  t.speed_walker = exactly(1.4, "walking speed");
  t.speed_vehicle = exactly(2.8, "driving speed");
  t.face_yaw = exactly(45, "yaw");
  t.face_pitch = exactly(30, "pitch");
  t.plate_angle = exactly(60, "plate angle");
  t.height_face = exactly(0.24, "height of a face");
  t.height_person = exactly(1.7, "height of a person");
  t.height_plate = exactly(0.08, "height of a character");
  t.height_vehicle = exactly(1.5, "height of a vehicle");
  t.height_object = exactly(0.5, "height of an object");
  // Light without noise or clipping, so that by day nothing but geometry and optics counts.
  for (auto* contrast : {&t.contrast_face_near, &t.contrast_person_near, &t.contrast_plate_near,
                         &t.contrast_vehicle_near, &t.contrast_object_near})
    *contrast = exactly(1, "contrast in near infrared");
  t.reflectance_factor = exactly(1, "reflectance");
  t.plate_retro = exactly(70, "sheeting");
  t.plate_retro_half = exactly(0.5, "sheeting's angle");
  t.noise_threshold = exactly(4, "noise threshold");
  t.efficiency = exactly(0.6, "efficiency");
  t.near_850 = exactly(0.35, "response at 850 nm");
  t.near_940 = exactly(0.17, "response at 940 nm");
  t.lens_transmission = exactly(0.8, "transmission");
  t.read_noise = exactly(2.5, "read noise");
  t.full_well = exactly(1e5, "full well");
  t.dark_current = exactly(10, "dark current");
  t.largest_gain = exactly(0, "gain");
  t.exposure_target = exactly(0.18, "target of the exposure");
  t.night_switch = exactly(3, "light of the switch");
  t.day_switch = exactly(2, "light of the switch back");
  t.frames_low = exactly(2, "frames averaged");
  t.frames_high = exactly(4, "frames averaged");
  t.smear_low = exactly(0.5, "smear");
  t.smear_high = exactly(1, "smear");
  t.dynamic_ratio = exactly(16, "ratio of exposures");
  t.infrared_efficiency = exactly(0.35, "infrared efficiency");
  t.infrared_share = exactly(0.5, "infrared share");
  t.infrared_draw = exactly(5, "infrared draw");
  t.infrared_beam = exactly(0.9, "infrared beam");
  t.infrared_offset = exactly(0.04, "infrared offset");
  t.adaptive_clip = exactly(0.02, "clipped share");
  t.scatter_angle = exactly(18, "scatter angle");
  t.flare = exactly(3, "flare");
  t.headlight = exactly(2000, "headlight");
  t.glass_return = exactly(0.003, "glass");
  t.stream_step = exactly(1, "step");
  t.stream_quality = exactly(28, "quality");
  t.pole_sway = exactly(1, "sway of a pole");
  t.pole_frequency = exactly(1, "frequency of a pole");
  t.sway_frequency = exactly(1.5, "frequency of a mount");
  t.flicker_led = exactly(0.2, "flicker");
  t.flicker_halogen = exactly(0.1, "flicker");
  t.flicker_sodium = exactly(0.8, "flicker");
  return t;
}

inline camera::Sheet plain_sheet(const std::string& name = "plain") {
  using namespace units;
  camera::Sheet sheet;
  sheet.name = name;
  sheet.columns = 2000;
  sheet.rows = 1500;
  sheet.focal = {5 * mm, 5 * mm};
  sheet.active_width = 5 * mm;
  sheet.f_number = camera::Ends<double>{2, 2};
  sheet.lens_class = camera::LensClass::kPrecise;
  sheet.frame_rates = {10, 20};
  return sheet;
}

inline site::Mount mount_at(const std::string& name, geom::PlanPoint at, double height_m) {
  site::Mount mount;
  mount.name = name;
  mount.at = at;
  mount.height = Length{height_m};
  return mount;
}

inline camera::Camera camera_on(const std::string& name, const std::string& mount, double heading_deg = 0,
                                double tilt_deg = 0) {
  camera::Camera camera;
  camera.name = name;
  camera.sheet = "plain";
  camera.mount = mount;
  camera.heading = heading_deg * units::deg;
  camera.tilt = tilt_deg * units::deg;
  camera.focus = Length{20};
  return camera;
}

inline site::Place zone_of(const std::string& name, geom::Ring ring) {
  site::Place place;
  place.name = name;
  place.outline = {std::move(ring), {}};
  return place;
}

inline geom::Ring rectangle(double west, double south, double east, double north) {
  return {{west, south}, {east, south}, {east, north}, {west, north}};
}

inline site::Place way_of(const std::string& name, site::PlaceKind kind, std::vector<geom::PlanPoint> line,
                          double width_m = 0) {
  site::Place place;
  place.name = name;
  place.kind = kind;
  place.line = std::move(line);
  place.width = Length{width_m};
  return place;
}

inline site::Solid wall_of(const std::string& name, std::vector<geom::PlanPoint> line, double height_m) {
  site::Solid wall;
  wall.name = name;
  wall.kind = site::SolidKind::kWall;
  wall.line = std::move(line);
  wall.height = Length{height_m};
  return wall;
}

inline site::Veil mesh_of(const std::string& name, std::vector<geom::PlanPoint> line, double height_m, double summer,
                          double winter) {
  site::Veil veil;
  veil.name = name;
  veil.line = std::move(line);
  veil.height = Length{height_m};
  veil.summer = summer;
  veil.winter = winter;
  return veil;
}

/// A need of something that stands still.
inline Need need_of(Subject subject, const std::string& place, const std::string& level) {
  Need need;
  need.name = "see " + place;
  need.subject = subject;
  need.place = place;
  need.level = level;
  need.speed = Speed{0};
  return need;
}

inline Project plain_project() {
  Project project;
  project.name = "test";
  project.site.mounts = {mount_at("post", {0, 0}, 1.6)};
  project.cameras = {camera_on("eye", "post")};
  project.catalogue = {plain_sheet()};
  project.conditions = {{"day", site::Leaves::kOn}};
  project.settings.typical = plain_typical();
  project.settings.levels = {"test", "test", {{"coarse", PixelDensity{25}}, {"fine", PixelDensity{100}}}};
  return project;
}

/// The project with one place and one need of it.
inline Project project_with(site::Place place, Need need) {
  Project project = plain_project();
  project.site.places = {std::move(place)};
  project.needs = {std::move(need)};
  return project;
}

/// A project in one condition with what its light is worked out on. The project must outlive it.
class Lit {
 public:
  explicit Lit(const Project& project, const site::Condition& condition = {})
      : scene_{project.site, condition.leaves}, lighting_{project, scene_, condition} {}
  Lit(const Lit&) = delete;
  Lit& operator=(const Lit&) = delete;

  const site::Scene& scene() const { return scene_; }
  const Lighting& lighting() const { return lighting_; }
  std::vector<SampleView> views(const Station& station, const Need& need, const std::vector<Sample>& samples) const {
    return view_of(in_condition(station, lighting_), lighting_, need, samples, light_on(lighting_, samples));
  }

 private:
  site::Scene scene_;
  Lighting lighting_;
};

}  // namespace sightfall::need
