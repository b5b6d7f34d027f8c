// SPDX-License-Identifier: GPL-3.0-or-later
// What the cameras ask of what carries them, as JSON: the contract for scripts.
//   Schema   schema/loads_answer.schema.json
//   Checked  loads_answer_test.cpp; tests/case
#pragma once
#include <string>

#include "file/json.h"
#include "loads/loads.h"

namespace sightfall::file {

std::string answer_text(const need::Project& project, const loads::Loads& loads);

Value loads_value(const loads::Cabling& cabling);
Value loads_value(const loads::PowerLoads& power);
Value loads_value(const loads::NetworkLoads& network);
Value loads_value(const loads::StorageLoads& storage);
Value loads_value(const loads::Mounting& mounting);
Value loads_value(const need::Project& project, const loads::Overlook& overlook);

}  // namespace sightfall::file
