// SPDX-License-Identifier: GPL-3.0-or-later
// The description of every object of the documents: one function an object, one call a field (form.h says how).
#pragma once
#include "card/seen.h"
#include "file/form.h"
#include "need/project.h"

namespace sightfall::file {

void describe(Form& form, need::Project& project);  // describe_project.cpp
void describe(Form& form, need::Need& need);
void describe(Form& form, camera::Camera& camera);

void describe(Form& form, site::Lamp& lamp);  // describe_light.cpp
void describe(Form& form, site::Condition& condition);

void describe(Form& form, need::Settings& settings);  // describe_settings.cpp
void describe(Form& form, detail::LevelTable& table);
void describe(Form& form, detail::Level& level);
void describe(Form& form, detail::Typical& typical);

Words subject_words();      ///< what a need can be about, in the order of need::Subject
Words named_light_words();  ///< lights with a name, in the order of site::NamedLight

void describe(Form& form, site::Site& site);  // describe_site.cpp
void describe(Form& form, site::Anchor& anchor);
void describe(Form& form, site::Plan& plan);
void describe(Form& form, site::Terrain& terrain);
void describe(Form& form, site::Mount& mount);
void describe(Form& form, site::Place& place);
void describe(Form& form, site::Window& window);

void describe(Form& form, site::Feed& feed);  // describe_carriers.cpp
void describe(Form& form, site::Disks& disks);
void describe(Form& form, site::Way& way);
void describe(Form& form, site::Run& run);
void describe(Form& form, site::Cable& cable);
void describe(Form& form, site::Fixing& fixing);
void describe(Form& form, site::Pole& pole);
void describe(Form& form, site::Wind& wind);
void describe(Form& form, camera::Mask& mask);
void describe(Form& form, camera::Recording& recording);
void describe(Form& form, need::Keeping& keeping);

void describe(Form& form, site::Solid& solid);  // describe_solids.cpp
void describe(Form& form, geom::Opening& opening);
void describe(Form& form, site::Veil& veil);

void describe(Form& form, camera::Sheet& sheet);  // describe_sheet.cpp
void describe(Form& form, camera::Infrared& infrared);
void describe(Form& form, camera::Stream& stream);
void describe(Form& form, camera::SensorFacts& sensor);
void describe(Form& form, camera::Estimate& estimate);
void describe(Form& form, camera::PowerDraw& power);

void describe(Form& form, card::Observation& seen);  // seen_file.cpp

void describe(Form& form, light::Material& material);  // standards.cpp
void describe(Form& form, detail::CodecTable::Rates& rates);
void describe(Form& form, detail::CodecTable::Surviving& one);

}  // namespace sightfall::file
