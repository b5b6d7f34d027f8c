// SPDX-License-Identifier: GPL-3.0-or-later
// What the cameras ask of what carries them, as JSON: the contract for scripts.
//   Schema   schema/loads_answer.schema.json
//   Checked  loads_answer_test.cpp; tests/case
#pragma once
#include "file/json.h"
#include "loads/cabling.h"
#include "loads/mounting.h"
#include "loads/overlook.h"
#include "loads/power.h"
#include "need/project.h"

namespace sightfall::file {

Value loads_value(const loads::Cabling& cabling);                                  // loads_cable.cpp
Value loads_value(const need::Project& project, const loads::Overlook& overlook);  // loads_overlook.cpp
Value loads_value(const loads::Mounting& mounting);                                // loads_mount.cpp
Value loads_value(const loads::PowerLoads& power);                                 // loads_power.cpp

}  // namespace sightfall::file
