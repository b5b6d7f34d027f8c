// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/walk_answer.h"

#include <fmt/format.h>

#include "file/answer_values.h"

namespace sightfall::file {
namespace {

using namespace units;

Value clip_value(const WalkClip& clip) {
  const video::StreamFacts& facts = clip.facts;
  const auto rate = [](DataRate r) { return rounded(r.in(kbit / s), 10); };
  return Object{{"file", clip.file},
                {"capped", clip.capped},
                {"codec", std::string(video::name_of(facts.codec))},
                {"pixels", List{facts.columns, facts.rows}},
                {"frames", facts.frames},
                {"frame_rate_hz", rounded(facts.frame_rate.in(Hz), 1000)},
                {"duration_s", rounded(facts.duration.in(s), 1000)},
                {"mean_kbps", rate(facts.mean)},
                {"peak_kbps", rate(facts.peak)}};
}

std::string picture_of(const WalkAnswer& answer, size_t i) {
  return i < answer.pictures.size() ? answer.pictures[i] : std::string{};
}

}  // namespace

Value figures_of(const walk::Mark& mark, const std::string& picture) {
  const bool seen = mark.density > PixelDensity{0};
  return Object{{"distance_m", metres(mark.distance)},
                {"along_route_m", metres(mark.gone)},
                {"at", point(geom::plan(mark.foot))},
                {"density_px_per_m", density(mark.density)},
                {"delivered_px_per_m", density_range(mark.delivered)},
                {"level", text_or_null(mark.level)},
                {"limit", limit_or_null(mark.limit)},
                {"noise_ratio", seen ? rounded(mark.noise_ratio, 100) : Value{}},
                {"brightness", seen ? rounded(mark.brightness, 1000) : Value{}},
                {"shutter_s", seen ? rounded(mark.shutter.si(), 1e7) : Value{}},
                {"gain_db", seen ? rounded(mark.gain, 10) : Value{}},
                {"infrared_power", seen ? rounded(mark.power, 1000) : Value{}},
                {"picture", text_or_null(picture)}};
}

std::string answer_text(const WalkAnswer& answer) {
  List marks;
  for (size_t i = 0; i < answer.marks->size(); ++i)
    marks.push_back(figures_of((*answer.marks)[i], picture_of(answer, i)));
  List clips;
  for (const WalkClip& clip : answer.clips) clips.push_back(clip_value(clip));
  return print_json(Object{{"sightfall_walk", 1},
                           {"camera", answer.request->camera->name},
                           {"route", answer.request->route->name},
                           {"condition", answer.request->condition->name},
                           {"compression", walk::compression_in_words(*answer.request)},
                           {"marks", std::move(marks)},
                           {"clips", std::move(clips)}});
}

std::string answer_table(const WalkAnswer& answer) {
  std::string text =
      "distance_m,distance_ft,density_px_per_m,delivered_px_per_m,delivered_low,delivered_high,level,limit,"
      "noise_ratio,shutter_s,gain_db,picture\n";
  for (size_t i = 0; i < answer.marks->size(); ++i) {
    const walk::Mark& mark = (*answer.marks)[i];
    text += fmt::format("{:.3f},{:.2f},{:.1f},{:.1f},{:.1f},{:.1f},{},{},{:.2f},{:.6f},{:.1f},{}\n",
                        mark.distance.in(m), mark.distance.in(ft), mark.density.in(kPixelPerMetre),
                        mark.delivered.nominal.in(kPixelPerMetre), mark.delivered.low.in(kPixelPerMetre),
                        mark.delivered.high.in(kPixelPerMetre), mark.level, detail::in_words(mark.limit),
                        mark.noise_ratio, mark.shutter.si(), mark.gain, picture_of(answer, i));
  }
  return text;
}

}  // namespace sightfall::file
