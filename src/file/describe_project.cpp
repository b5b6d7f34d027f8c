// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "file/describe.h"
#include "file/version.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 5> kSubjects{"face", "person", "plate", "vehicle", "object"};
constexpr std::array<std::string_view, 3> kFacings{"camera", "travel", "heading"};
constexpr std::array<std::string_view, 3> kInfraredUses{"automatic", "on", "off"};
constexpr std::array<std::string_view, 3> kPictureModes{"automatic", "colour", "monochrome"};

/// The heading belongs to one way of facing only: with it it must be there, without it it must not.
void describe_facing(Form& form, need::Need& need) {
  form.choice({"facing", "camera", "which way the subject faces: to the camera, as it travels, or a fixed heading"},
              kFacings, need.facing);
  std::optional<Angle> heading;
  if (need.facing == need::Facing::kHeading) heading = need.facing_heading;
  form.number(
      {"facing_deg", kDegrees, -360, kOptional, 360,
       "heading it faces, clockwise from the plan's north, its y axis; needed with, and only with, facing \"heading\""},
      heading);
  if (need.facing == need::Facing::kHeading && !heading)
    form.fault("facing_deg", "missing; facing \"heading\" needs a number from -360 to 360 deg");
  if (need.facing != need::Facing::kHeading && heading)
    form.fault("facing_deg", "allowed only with facing \"heading\"");
  need.facing_heading = heading.value_or(Angle{});
}

}  // namespace

Words subject_words() { return kSubjects; }

void describe(Form& form, need::Project& project) {
  int version = kVersion;
  form.whole({"sightfall", "", kVersion, kRequired, kVersion, "version of the document's format"}, version);
  form.text({"name", kRequired, "what the project is called"}, project.name);
  form.lines({"about", kOptional, "in a few words"}, project.about);
  form.object({"site", kRequired, "the ground, what stands on it, where cameras can be fixed"}, project.site);
  form.list({"conditions", kRequired, "moments in which needs are judged"}, 1, 1000, project.conditions);
  form.list({"needs", kOptional, "what must be made out where"}, 0, kLongestList, project.needs);
  form.list({"cameras", kOptional, "sheets at mounts, aimed and set"}, 0, kLongestList, project.cameras);
  form.list({"catalogue", kOptional, "the sheets that cameras name, and others that may be tried"}, 0, kLongestList,
            project.catalogue);
  form.object({"keeping", kOptional, "how long what was recorded is kept"}, project.keeping,
              project.keeping.wanted || project.keeping.most);
  form.object({"settings", kOptional, "level table, units shown, assumptions"}, project.settings);
}

void describe(Form& form, need::Need& need) {
  form.name(need.name);
  form.choice({"subject", kRequired, "what is to be made out"}, kSubjects, need.subject);
  form.text({"place", kRequired, "name of a place of the site"}, need.place);
  form.text({"level", kRequired,
             "name of a level of the document's table, which is one of data/levels.json where it states none"},
            need.level);
  form.names({"conditions", kOptional, "names of conditions; all when absent"}, need.conditions);
  form.number({"share", "", 0.01, 0.95, 1, "of samples, or of passages, that must reach the level"}, need.share);
  form.whole({"once_a_passage", "", 1, kOptional, 1000,
              "least frames at the level each time something passes along the route; routes only"},
             need.once_a_passage);
  describe_facing(form, need);
  form.number({"height_m", kMetres, 0, kOptional, 20, "of the subject's middle above ground; its own when absent"},
              need.height);
  form.number({"speed_m_s", kMetresPerSecond, 0, kOptional, 100, "the route's, or the subject's own, when absent"},
              need.speed);
  form.number({"shutter_s", kSeconds, 1e-7, kOptional, 60, "the longest exposure; the camera's when absent"},
              need.shutter);
  form.number({"detector_height_px", kPixels, 1, kOptional, 10000,
               "least height of the subject in the picture, for a detector"},
              need.detector_height);
  form.flag({"colour", false, "whether colour must be told"}, need.colour);
}

void describe(Form& form, camera::Camera& camera) {
  form.name(camera.name);
  form.text({"sheet", kRequired, "name of a sheet of the catalogue"}, camera.sheet);
  form.text({"mount", kRequired, "name of a mount of the site"}, camera.mount);
  form.number({"heading_deg", kDegrees, -360, kRequired, 360, "clockwise from the plan's north, its y axis"},
              camera.heading);
  form.number({"tilt_deg", kDegrees, -90, 0, 90, "below the horizon"}, camera.tilt);
  form.number({"roll_deg", kDegrees, -180, 0, 180, "clockwise, seen along the view"}, camera.roll);
  form.number(
      {"focal_mm", kMillimetres, 0.1, kOptional, 5000, "within the sheet's range; the sheet's shortest when absent"},
      camera.focal);
  form.number({"focus_m", kMetres, 0.01, kOptional, 1e5, "distance set; estimated when absent"}, camera.focus);
  form.number({"shutter_s", kSeconds, 1e-7, kOptional, 60, "within the sheet's limits; automatic when absent"},
              camera.shutter);
  form.number({"slowest_shutter_s", kSeconds, 1e-7, kOptional, 60,
               "that automatic exposure goes to, within the sheet's limits; the usual one when absent"},
              camera.slowest_shutter);
  form.number({"largest_gain_db", "dB", 0, kOptional, 100,
               "that automatic exposure goes to; the sheet's, else the usual one, when absent"},
              camera.largest_gain);
  form.number({"f_number", "", 0.5, kOptional, 64, "of an adjustable iris; open when absent"}, camera.f_number);
  form.number({"frame_rate", "Hz", 0.01, kOptional, 10000, "the sheet's highest when absent"}, camera.frame_rate);
  form.object({"stream", kOptional, "how it sends its pictures; the sheet's when absent"}, camera.stream);
  form.choice({"infrared", "automatic", "when its own infrared burns: with the filter out, always, never"},
              kInfraredUses, camera.infrared);
  form.choice({"picture", "automatic", "colour by day and monochrome by night, or one of them always"}, kPictureModes,
              camera.picture);
  form.list({"masks", kOptional, "parts of the picture that are blacked out"}, 0, 100, camera.masks);
  form.object({"recording", kOptional, "when what it shows is kept; always when absent"}, camera.recording,
              camera.recording != camera::Recording{});
}

}  // namespace sightfall::file
