// SPDX-License-Identifier: GPL-3.0-or-later
// One picture of the demo by night, 3840 x 2160, stage by stage, beside the ray library alone for the same rays in the
// same run; a preview; frames of a clip beside the encoder alone on the same frames.
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <cmath>
#include <thread>

#include "bare_picture.h"
#include "demo_site.h"
#include "detail/sensor.h"
#include "detail/signal.h"
#include "need/frame.h"
#include "need/view.h"
#include "stopwatch.h"
#include "video/encode.h"
#include "video/png.h"
#include "walk/blur.h"
#include "walk/marks.h"
#include "walk/preview.h"
#include "walk/shoot.h"

namespace {

using namespace sightfall;

constexpr int kRuns = 3;
constexpr const char *kCamera = "gate faces", *kCondition = "dark night", *kRoute = "walk in at the gate";

/// A camera in its condition, and a walker on a route before it.
struct Set {
  need::Project project;
  const site::Condition* condition = nullptr;
  need::Station station;
  std::vector<walk::Mark> marks;

  walk::Visitor visitor(const walk::Mark& mark) const {
    return {walk::placed(walk::walker(std::fmod(mark.gone / walk::kStrideLength, 1.0)), mark.foot, mark.forward), ""};
  }
  walk::Shot shot(const need::Lighting& lighting, const need::Station& by, const walk::Mark& mark) const {
    need::Need need;
    need.facing = need::Facing::kCamera;
    const std::vector<need::Sample> samples{{mark.foot + geom::Vec3{0, 0, 1.6}, mark.forward, 0, 0}};
    auto view = need::view_of(by, lighting, need, samples, need::light_on(lighting, samples)).front();
    if (view.gate != detail::Limit::kNone)  // not made out, yet drawn
      view.seen.depth = (by.pose.camera_from_site * (mark.foot - by.pose.eye_site)).z;
    return {&by,       detail::nominal(need::subject_inputs(by, need, project.settings.typical)),
            view.seen, {1, 0},
            1,         static_cast<uint64_t>(std::lround(mark.gone.in(units::mm)))};
  }
};

/// Seconds of each step, the least of the runs.
struct Steps {
  double background = 1e300, subject = 1e300, blur = 1e300, noise = 1e300, tone = 1e300;
  double all() const { return background + subject + blur + noise + tone; }
};

template <class Work>
auto timed(double& least, Work work) {
  const bench::Stopwatch watch;
  auto result = work();
  least = std::min(least, watch.seconds());
  return result;
}

/// `background` gives what stands still at a power.
template <class Still>
walk::Picture picture(const walk::Stage& stage, const walk::Shot& shot, Still background, Steps& steps) {
  const need::Station& station = *shot.station;
  const detail::Exposed exposed = detail::exposed(station.constants, shot.seen, shot.values);
  const auto still = timed(steps.background, [&] { return background(exposed.power); });
  const int margin = walk::reach_of(detail::blur_of(station.constants, shot.seen, shot.values, exposed), 1);
  const auto cut = timed(steps.subject, [&] { return walk::cast_subject(stage, station, exposed.power, margin); });
  const auto exposure = timed(steps.blur, [&] { return walk::expose_picture(still, cut, shot); });
  const auto electrons = timed(steps.noise, [&] { return walk::electrons(exposure, shot); });
  return timed(steps.tone, [&] { return walk::developed(electrons, exposure, station.monochrome); });
}

void tell_picture(const Set& set, int threads) {
  Steps steps;
  double png = 1e300, bare_seconds = 1e300;
  bench::BareTimes bare;
  size_t bytes = 0;
  const walk::Mark& mark = set.marks[set.marks.size() / 2];
  // Reference and subject by turns, so that a change of the machine's speed meets both.
  for (int i = 0; i < kRuns; ++i) {
    const walk::Stage stage{set.project, *set.condition, set.station, set.visitor(mark)};
    const walk::Shot shot = set.shot(stage.lighting(), set.station, mark);
    const walk::Picture taken = picture(
        stage, shot, [&](double power) { return walk::cast_background(stage, set.station, power, {}); }, steps);
    bytes = timed(png, [&] { return video::png_of({taken.columns, taken.rows, taken.rgb})->size(); });
    bare = bench::bare_picture(set.project.site, stage, set.station);
    bare_seconds = std::min(bare_seconds, (bare.primary + bare.shadows) / threads);
  }
  fmt::print("picture {} x {}, camera \"{}\", {}, on {} threads\n", set.station.lens.projector.columns,
             set.station.lens.projector.rows, kCamera, kCondition, threads);
  fmt::print("  what stands {:.3f} s, the walker {:.3f}, blur {:.3f}, noise {:.3f}, tone curve {:.3f}: {:.2f} s\n",
             steps.background, steps.subject, steps.blur, steps.noise, steps.tone, steps.all());
  fmt::print("  as PNG {:.3f} s, {:.1f} MB\n", png, static_cast<double>(bytes) * 1e-6);
  fmt::print("  bare rays of what stands: {:.1f} million from the lens {:.3f} s, {:.1f} million to lights {:.3f} s\n",
             bare.primary_rays * 1e-6, bare.primary / threads, bare.shadow_rays * 1e-6, bare.shadows / threads);
  fmt::print("  ratio of casting to bare rays {:.1f}; with blur, noise and tone curve {:.1f}\n",
             (steps.background + steps.subject) / bare_seconds, steps.all() / bare_seconds);
}

void tell_preview(const Set& set) {
  const walk::Mark& mark = set.marks[set.marks.size() / 2];
  const need::Station& whole = set.station;
  const site::Scene scene{set.project.site, set.condition->leaves};
  std::vector<need::Station> stations;
  for (const camera::Camera& camera : set.project.cameras) stations.push_back(need::station_of(set.project, camera));
  const need::Lighting lighting = need::with_cameras({set.project, scene, *set.condition}, stations);
  const need::Station small =
      need::in_condition(walk::preview_of(stations[static_cast<size_t>(whole.number)]), lighting);
  const walk::Stage empty{set.project, *set.condition, small, {}};
  Steps steps;
  const double seconds = bench::best_of(2 * kRuns, [&] {
    const bench::Stopwatch watch;
    const walk::Stage stage{empty, set.visitor(mark)};
    const walk::Shot shot = set.shot(stage.lighting(), small, mark);
    picture(
        stage, shot, [&](double power) { return walk::cast_background(stage, small, power, {}); }, steps);
    return watch.seconds();
  });
  fmt::print("preview {} x {}: {:.0f} ms, a ratio of {:.2f} to 100 ms\n", small.lens.projector.columns,
             small.lens.projector.rows, 1e3 * seconds, seconds / 0.1);
}

void tell_clip(const Set& set) {
  const walk::Stage empty{set.project, *set.condition, set.station, {}};
  const bench::Stopwatch casting;
  const walk::StillCast still{empty, set.station};
  const double once = casting.seconds();
  Steps steps;
  std::vector<video::Picture> frames;
  const bench::Stopwatch watch;
  double tiles = 0;
  for (const walk::Mark& mark : set.marks) {
    const walk::Stage stage{empty, set.visitor(mark)};
    const walk::Shot shot = set.shot(stage.lighting(), set.station, mark);
    auto taken = picture(
        stage, shot, [&](double power) { return still.background(stage, power); }, steps);
    tiles += still.tiles_shaded(stage);
    frames.push_back({taken.columns, taken.rows, std::move(taken.rgb)});
  }
  const double seconds = watch.seconds(), count = static_cast<double>(frames.size());
  const bench::Stopwatch encoding;
  const auto encoded = video::encode(frames, video::EncodeSettings{});
  const double encoder = encoding.seconds();
  if (!encoded) return fmt::print(stderr, "{}\n", to_line(encoded.error()));
  fmt::print("clip: what stands is cast once in {:.2f} s, {:.0f} % of its tiles again in a frame\n", once,
             100 * tiles / count / still.tile_count());
  fmt::print("  at best: what stands {:.3f} s, the walker {:.3f}, blur {:.3f}, noise {:.3f}, tone curve {:.3f}\n",
             steps.background, steps.subject, steps.blur, steps.noise, steps.tone);
  fmt::print("  {:.2f} frames a second; the encoder alone (H.264, one thread) {:.2f}; ratio {:.2f}\n", count / seconds,
             count / encoder, encoder / seconds);
}

}  // namespace

int main() {
  constexpr int kThreads = 2;
  const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, kThreads};
  Set set;
  set.project = bench::demo_site();
  set.condition = need::find_named(set.project.conditions, kCondition);
  const auto walk = walk::Walk::begin({&set.project, set.condition, need::find_named(set.project.cameras, kCamera),
                                       need::find_named(set.project.site.places, kRoute)});
  if (!walk) {
    fmt::print(stderr, "{}\n", to_line(walk.error()));
    return 2;
  }
  set.station = walk->station();
  set.marks = walk->marks();
  tell_picture(set, kThreads);
  tell_preview(set);
  tell_clip(set);
  fmt::print("  peak memory {:.0f} MiB\n", bench::peak_memory_mib());
  return 0;
}
