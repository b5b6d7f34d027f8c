// SPDX-License-Identifier: GPL-3.0-or-later
// The map of the whole demo as the workbench asks for it while a camera is dragged: coarse, then fine, in each
// condition, beside a check of one need.
#include <fmt/format.h>

#include "demo_site.h"
#include "file/json.h"
#include "need/check.h"
#include "serve/answers.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;

double seconds_of_map(const need::Project& project, const std::string& condition, int cells) {
  return bench::best_of(5, [&] {
    const bench::Stopwatch watch;
    const auto answer = serve::map_answer(project, file::Object{{"condition", condition}, {"cells", cells}});
    if (!answer) fmt::print("{}\n", to_line(answer.error().front()));
    return watch.seconds();
  });
}

}  // namespace

int main() {
  const need::Project project = bench::demo_site();
  const double need = bench::best_of(5, [&] {
    const bench::Stopwatch watch;
    need::check(project, {{project.needs.front().name}, {}, false});
    return watch.seconds();
  });
  fmt::print("a check of one need, the reference: {:.0f} ms\n", 1e3 * need);
  constexpr int kCoarse = 4000, kFine = 40000;
  for (const site::Condition& condition : project.conditions) {
    const double coarse = seconds_of_map(project, condition.name, kCoarse),
                 fine = seconds_of_map(project, condition.name, kFine);
    fmt::print("{}: coarse map {:.0f} ms ({:.2f} of the reference), fine {:.0f} ms ({:.2f})\n", condition.name,
               1e3 * coarse, coarse / need, 1e3 * fine, fine / need);
  }
}
