// SPDX-License-Identifier: GPL-3.0-or-later
// The demo's papers, and what of them takes how long, beside a check of its needs alone in the same run. Argument: how
// many times (3).
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "demo_site.h"
#include "loads/loads.h"
#include "need/check.h"
#include "need/lit_project.h"
#include "papers/job.h"
#include "papers/papers.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;
using bench::seconds_of;

double papers_seconds(const need::Project& project, bool pictures, bool mask_costs) {
  papers::Asked asked;
  asked.date = "2026-11-28";
  asked.pictures = pictures;
  asked.mask_costs = mask_costs;
  return seconds_of([&] {
    const auto job = papers::gathered(project, nullptr, asked);
    if (!job) std::abort();
    if (!papers::write_papers(*job, [](const std::string&, std::string_view) -> Result<void> { return {}; }))
      std::abort();
  });
}

double check_seconds(const need::Project& project, bool remedies) {
  return seconds_of([&] { need::check(project, {{}, {}, remedies, false}); });
}

/// The least of what was measured so far.
void keep(double& least, double seconds) { least = std::min(least, seconds); }

}  // namespace

int main(int argc, char** argv) {
  const need::Project demo = bench::demo_site();
  double check = 1e300, with_remedies = 1e300, all = 1e300, no_pictures = 1e300, no_costs = 1e300, plain = 1e300;
  // By turns, so that a change of the machine's speed meets all.
  for (int i = 0; i < (argc > 1 ? std::atoi(argv[1]) : 3); ++i) {
    keep(check, check_seconds(demo, false));
    keep(with_remedies, check_seconds(demo, true));
    keep(all, papers_seconds(demo, true, true));
    keep(no_pictures, papers_seconds(demo, false, true));
    keep(no_costs, papers_seconds(demo, true, false));
    keep(plain, papers_seconds(demo, false, false));
  }
  fmt::print("demo: {} cameras, {} needs\n", demo.cameras.size(), demo.needs.size());
  fmt::print("  a check of the needs alone, the reference: {:.2f} s\n", check);
  fmt::print("  papers: {:.2f} s, ratio {:.2f}\n", all, all / check);
  fmt::print(
      "  of that remedies {:.2f} s, ratio {:.2f}; pictures {:.2f} s, ratio {:.2f}; what masks cost {:.2f} s, ratio "
      "{:.2f}\n",
      with_remedies - check, (with_remedies - check) / check, all - no_pictures, (all - no_pictures) / check,
      all - no_costs, (all - no_costs) / check);
  const double rest = plain - with_remedies;
  fmt::print("  the rest (surroundings, loads, drawing): {:.2f} s, ratio {:.2f}\n", rest, rest / check);
  return 0;
}
