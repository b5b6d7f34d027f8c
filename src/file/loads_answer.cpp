// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"

#include "file/loads_values.h"

namespace sightfall::file {

std::string answer_text(const need::Project& project, const loads::Loads& loads) {
  constexpr int kLoadsVersion = 1;
  return print_json(Object{{"sightfall_loads", kLoadsVersion},
                           {"project", project.name},
                           {"held", Value{loads::in_words(loads.held())}},
                           {"stopped", loads.stopped},
                           {"power", loads_value(loads.power)},
                           {"cable", loads_value(loads.cable)},
                           {"network", loads_value(loads.network)},
                           {"storage", loads_value(loads.storage)},
                           {"mount", loads_value(loads.mount)},
                           {"overlook", loads_value(project, loads.overlook)},
                           {"assumptions", assumptions_value(loads.assumptions)}});
}

}  // namespace sightfall::file
