// SPDX-License-Identifier: GPL-3.0-or-later
// The loads of a thousand cameras, by themselves and beside a check that has lit the town already, and those of the
// demo with what masks cost, each beside a check in the same run. Argument: cameras of the town (1000).
#include <fmt/format.h>

#include <cstdlib>

#include "demo_site.h"
#include "loaded_town.h"
#include "loads/loads.h"
#include "need/check.h"
#include "need/lit_project.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;
using bench::seconds_of;

/// Reference and subjects by turns, so that a change of the machine's speed meets all.
void compare(const std::string& name, const need::Project& project, bool mask_costs, int runs) {
  need::CheckOptions plain;
  plain.remedies = plain.surroundings = false;
  const loads::LoadsOptions options{{}, true, mask_costs};
  double check = 1e300, alone = 1e300, beside = 1e300;
  for (int i = 0; i < runs; ++i) {
    check = std::min(check, seconds_of([&] { need::check(project, plain); }));
    alone = std::min(alone, seconds_of([&] { loads::loads(project, options); }));
    const need::LitProject lit{project};
    need::check(lit, plain);
    beside = std::min(beside, seconds_of([&] { loads::loads(lit, options); }));
  }
  fmt::print("{}: {} cameras, {} needs, {} runs\n", name, project.cameras.size(), project.needs.size(),
             project.site.runs.size());
  fmt::print("  a check of the needs alone, the reference: {:.2f} s\n", check);
  fmt::print("  loads{}: {:.2f} s, ratio {:.2f}; beside that check: {:.2f} s more, ratio {:.2f}\n",
             mask_costs ? " with what masks cost" : "", alone, alone / check, beside, beside / check);
}

}  // namespace

int main(int argc, char** argv) {
  const need::Project demo = bench::demo_site();
  compare("demo", demo, true, 3);
  compare("made town", bench::loaded_town(argc > 1 ? std::atoi(argv[1]) : 1000), false, 1);
  fmt::print("  peak memory {:.0f} MiB\n", bench::peak_memory_mib());
  return 0;
}
