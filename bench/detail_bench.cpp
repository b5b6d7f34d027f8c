// SPDX-License-Identifier: GPL-3.0-or-later
// Nanoseconds of delivered detail per visible sample, and of its range and limit, beside the mere evaluation of one
// contrast transfer at one frequency in the same run.
#include <fmt/format.h>

#include <vector>

#include "detail/delivered.h"
#include "detail/transfer.h"
#include "file/project.h"
#include "made_town.h"
#include "need/frame.h"
#include "need/sweep.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;

constexpr int kRuns = 5;

template <class Work>
double nanoseconds(size_t count, Work work) {
  return 1e9 / static_cast<double>(count) * bench::best_of(kRuns, [&] {
           const bench::Stopwatch watch;
           work();
           return watch.seconds();
         });
}

}  // namespace

int main() {
  const need::Project town = bench::made_town(20);
  const site::Scene scene{town.site, site::Leaves::kOn};
  const need::SweepPoints points{bench::street_points(town, 100000)};
  const need::Lighting lighting{town, scene, {}};
  const need::Station station = need::in_condition(need::station_of(town, town.cameras.front()), lighting);
  std::vector<need::SweepHit> hits;
  need::sweep(station, scene, points, need::faintest(town.settings.levels), hits);
  std::vector<detail::Seen> seen;
  for (const need::SweepHit& hit : hits) {
    detail::Seen one{static_cast<double>(hit.density), static_cast<double>(hit.depth),
                     0.5 * static_cast<double>(hit.density), static_cast<double>(hit.passed)};
    one.others = station.constants.metering.mean();
    one.cover = 0.01;
    seen.push_back(one);
  }
  const detail::RangedValues ranged{need::subject_inputs(station, need::Need{}, town.settings.typical)};
  const detail::Values& values = ranged.nominal();
  std::vector<double> out(seen.size());
  double sum = 0;
  const double reference = nanoseconds(seen.size(), [&] {
    for (const detail::Seen& one : seen)
      sum += detail::gaussian_transfer(0.55, one.depth) * detail::diffraction_transfer(0.9, one.passed * 0.3) *
             detail::disc_transfer(one.depth * 0.01, 0.3) * detail::sinc_transfer(1, 0.3);
  });
  const double nominal = nanoseconds(seen.size(), [&] { detail::delivered(station.constants, seen, values, out); });
  const double range = nanoseconds(seen.size(), [&] {
    for (const detail::Seen& one : seen) sum += detail::delivered_range(station.constants, one, ranged).value.low;
  });
  const double limit = nanoseconds(seen.size(), [&] {
    for (const detail::Seen& one : seen) sum += static_cast<double>(detail::limit_of(station.constants, one, values));
  });
  fmt::print("delivered detail: {} visible samples (sum {:.3g})\n", seen.size(), sum);
  fmt::print("  one transfer at one frequency: {:.0f} ns\n", reference);
  fmt::print("  delivered detail: {:.0f} ns a sample, ratio to one transfer {:.1f}\n", nominal, nominal / reference);
  fmt::print("  with its 90 % range: {:.0f} ns; its limit: {:.0f} ns\n", range, limit);
  return 0;
}
