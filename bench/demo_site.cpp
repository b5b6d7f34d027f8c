// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo_site.h"

#include <fmt/format.h>

#include <cstdlib>
#include <utility>

#include "file/project.h"

namespace sightfall::bench {

need::Project demo_site() {
  auto demo = file::load_project(SIGHTFALL_SOURCE_DIR "/demo/alder_lane.sightfall.json");
  if (!demo) {
    fmt::print(stderr, "{}\n", to_line(demo.error().front()));
    std::exit(2);
  }
  return std::move(*demo);
}

}  // namespace sightfall::bench
