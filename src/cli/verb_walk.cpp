// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall walk SITE ROUTE --camera NAME --out DIR` and `sightfall walk --open-ground SHEET --out DIR`
#include <fmt/format.h>

#include <cstdio>

#include "cli/check_maps.h"
#include "cli/layout.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "cli/walk_project.h"
#include "draw/contact_sheet.h"
#include "file/walk_answer.h"
#include "need/words.h"
#include "video/encode.h"
#include "video/png.h"
#include "walk/film.h"

namespace sightfall::cli {
namespace {

using namespace units;

std::vector<std::string> figures_of(const walk::Mark& mark, need::Units units) {
  std::vector<std::string> lines{fmt::format("{:.1f} m ({:.0f} ft)", mark.distance.in(m), mark.distance.in(ft))};
  if (mark.density <= PixelDensity{0}) {
    lines.push_back(fmt::format("not made out: {}", detail::in_words(mark.limit)));
    return lines;
  }
  lines.push_back(fmt::format("{} in the picture", density_words(mark.density, units)));
  lines.push_back(fmt::format("{} delivered", density_words(mark.delivered, units)));
  lines.push_back(
      fmt::format("level: {}; limit: {}", mark.level.empty() ? "none" : mark.level, detail::in_words(mark.limit)));
  lines.push_back(fmt::format("1/{:.0f} s, gain {:.0f} dB, signal to noise {:.1f}", 1 / mark.shutter.si(), mark.gain,
                              mark.noise_ratio));
  lines.push_back(fmt::format("the subject stands at {:.0f} % of full scale", 100 * mark.brightness));
  if (mark.power > 0 && mark.power < 1)
    lines.push_back(fmt::format("infrared at {:.0f} % of its power", 100 * mark.power));
  return lines;
}

/// What a walk writes: pictures as they are done, the clips, then the sheet and the tables of those that are.
class WalkWriter {
 public:
  WalkWriter(const walk::WalkRequest& request, const walk::Walk& walk, PictureFolder& folder, bool pieces, bool clip)
      : request_{request}, walk_{walk}, folder_{folder}, pieces_{pieces}, clip_{clip} {}

  Result<void> write_pictures(const Progress& progress) {
    const walk::Film film{walk_, progress.part(0, kStillShare)};
    const double marks_end = clip_ ? kMarksShare : 1;
    const auto& marks = walk_.marks();
    for (size_t i = 0; i < marks.size() && !progress.stopped(); ++i) {
      const double done = static_cast<double>(i) / static_cast<double>(marks.size());
      progress.tell(kStillShare + done * (marks_end - kStillShare), fmt::format("mark {} of {}", i + 1, marks.size()));
      const Result<walk::Picture> picture = film.shown(marks[i]);
      if (!picture) return tl::make_unexpected(picture.error());
      if (auto written = keep(marks[i], *picture); !written) return written;
    }
    if (!clip_ || progress.stopped()) return {};
    return write_clips(film, progress.part(marks_end, 1));
  }

  Result<void> write_tables() {
    if (auto written = folder_.write("marks.json", file::answer_text(answer())); !written) return written;
    if (auto written = folder_.write("marks.csv", file::answer_table(answer())); !written) return written;
    const std::string title =
        fmt::format("{} on \"{}\", {}", request_.camera->name, request_.route->name, request_.condition->name);
    const std::string compression = walk::compression_in_words(request_);
    const auto sheet = draw::contact_sheet(
        title,
        fmt::format("Left the whole picture made smaller, right the {} at one point a pixel. Predicted, {}: {}",
                    request_.mover == walk::Mover::kWalker ? "face"
                    : request_.mover == walk::Mover::kCar  ? "plate"
                                                           : "target",
                    compression == "none" ? "before compression" : "through " + compression, kLimits),
        rows_);
    if (!sheet) return tl::make_unexpected(sheet.error());
    return folder_.write("contact-sheet.png", *sheet);
  }

  size_t done() const { return names_.size(); }
  bool whole() const { return names_.size() == walk_.marks().size() && (!clip_ || whole_clip_); }
  size_t frames() const { return clips_.empty() ? 0 : static_cast<size_t>(clips_.front().facts.frames); }
  file::WalkAnswer answer() const { return {&request_, &walk_.marks(), names_, clips_}; }

 private:
  static constexpr double kStillShare = 0.05, kMarksShare = 0.3;
  static constexpr const char* kLimits =
      "people, cars and plates are invented; surfaces are matt; colours stand for their material.";

  Result<void> write_png(const std::string& name, const walk::Picture& picture) {
    const auto png = video::png_of(picture);
    if (!png) return tl::make_unexpected(png.error());
    return folder_.write(name, {reinterpret_cast<const char*>(png->data()), png->size()});
  }

  Result<void> keep(const walk::Mark& mark, const walk::Picture& picture) {
    const std::string name = picture_name(names_.size() + 1, fmt::format("{:.1f} m", mark.distance.in(m)));
    if (auto written = write_png(name + ".png", picture); !written) return written;
    names_.push_back(name + ".png");
    draw::ContactRow row{
        &mark, draw::smaller(picture, draw::kSmallColumns), {}, figures_of(mark, request_.project->settings.units)};
    if (mark.middle)
      row.piece = walk::cut(picture, walk::piece_around(walk_.station().lens.projector, *mark.middle,
                                                        draw::kPieceColumns, draw::kPieceRows));
    if (pieces_ && row.piece.columns > 0)
      if (auto written = write_png(name + "-crop.png", row.piece); !written) return written;
    rows_.push_back(std::move(row));
    return {};
  }

  /// The walk under the rate that the stream states and free of it, or once where it states none. One that is stopped
  /// ends with the frames that it has.
  Result<void> write_clips(const walk::Film& film, const Progress& progress) {
    const camera::Stream* stream = walk::stream_of(request_);
    const bool capped = stream != nullptr && stream->rate;
    std::vector<file::WalkClip> clips{{capped ? "walk.mp4" : "walk-free.mp4", capped, {}}};
    if (capped) clips.push_back({"walk-free.mp4", false, {}});
    std::vector<video::Encoder> encoders;
    const camera::Projector& picture = walk_.station().lens.projector;
    for (const file::WalkClip& clip : clips) {
      auto encoder = video::Encoder::open(folder_.path_for(clip.file), picture.columns, picture.rows,
                                          walk::encoding_of(walk_, !clip.capped));
      if (!encoder) return tl::make_unexpected(encoder.error());
      encoders.push_back(std::move(*encoder));
    }
    const std::vector<walk::Mark> frames = walk_.frames();
    size_t done = 0;
    for (; done < frames.size() && !progress.stopped(); ++done) {
      progress.tell(static_cast<double>(done) / static_cast<double>(frames.size()),
                    fmt::format("frame {} of {}", done + 1, frames.size()));
      const walk::Picture frame = film.picture(frames[done]);
      for (video::Encoder& encoder : encoders)
        if (auto added = encoder.add(frame); !added) return added;
    }
    if (done == 0) return {};
    for (size_t i = 0; i < clips.size(); ++i) {
      auto facts = encoders[i].finish();
      if (!facts) return tl::make_unexpected(facts.error());
      clips[i].facts = std::move(*facts);
    }
    clips_ = std::move(clips);
    whole_clip_ = done == frames.size();
    return {};
  }

  const walk::WalkRequest& request_;
  const walk::Walk& walk_;
  PictureFolder& folder_;
  bool pieces_, clip_, whole_clip_ = false;
  std::vector<std::string> names_;
  std::vector<draw::ContactRow> rows_;
  std::vector<file::WalkClip> clips_;
};

std::string clip_words(const file::WalkClip& clip) {
  return fmt::format("{}: {}, {} frames in {:.1f} s, {:.3g} Mbit/s ({:.3g} at most in a second){}\n", clip.file,
                     video::name_of(clip.facts.codec), clip.facts.frames, clip.facts.duration.in(s),
                     clip.facts.mean.in(Mbit / s), clip.facts.peak.in(Mbit / s),
                     clip.capped ? ", under the stream's rate" : ", as many bits as the quality takes");
}

std::string walk_text(const walk::WalkRequest& request, const walk::Walk& walk,
                      const std::vector<file::WalkClip>& clips) {
  const std::string compression = walk::compression_in_words(request);
  std::string text =
      fmt::format("{} on \"{}\", {}\n{}.\n\n", request.camera->name, request.route->name, request.condition->name,
                  compression == "none" ? "Before compression" : "Through " + compression);
  std::vector<Row> rows{{"m", "ft", "px/m", "delivered px/m", "level", "limit"}};
  for (const walk::Mark& mark : walk.marks()) {
    const bool seen = mark.density > PixelDensity{0};
    const auto density = [&](PixelDensity d) { return fmt::format("{:.0f}", d.si()); };
    rows.push_back({fmt::format("{:.1f}", mark.distance.in(m)), fmt::format("{:.0f}", mark.distance.in(ft)),
                    seen ? density(mark.density) : "-",
                    seen ? fmt::format("{} ({} to {})", density(mark.delivered.nominal), density(mark.delivered.low),
                                       density(mark.delivered.high))
                         : "-",
                    mark.level.empty() ? "-" : mark.level, std::string(detail::in_words(mark.limit))});
  }
  text += table(rows, {0, 1, 2});
  if (clips.empty()) return text;
  text += "\n";
  for (const file::WalkClip& clip : clips) text += clip_words(clip);
  return text + wrapped(
                    "Rates are of our encoders, which stand in for the camera's: absolute rates differ from camera to "
                    "camera, how they change with light and noise does not.",
                    0);
}

}  // namespace

int run_walk(const Given& given) {
  const Checked<need::Project> project = walk_project(given);
  if (!project) return report(project.error());
  const Checked<walk::WalkRequest> request = walk_request(given, *project);
  if (!request) return report(request.error());
  PictureFolder folder(given.text("--out"));
  if (auto opened = folder.open(); !opened) return report(opened.error());
  const Result<walk::Walk> walk = walk::Walk::begin(*request);
  if (!walk) return report(walk.error());
  WalkWriter writer{*request, *walk, folder, given.has("--crop"), given.has("--clip")};
  Result<void> written;
  {
    const Watching watching;
    written = writer.write_pictures(watching.progress());
  }
  if (written) written = writer.write_tables();
  if (!written) return report(written.error());
  folder.keep();
  const std::string text =
      given.has("--json") ? file::answer_text(writer.answer()) : walk_text(*request, *walk, writer.answer().clips);
  std::fputs(text.c_str(), stdout);
  if (writer.whole()) return 0;
  std::fprintf(stderr, "stopped: %zu of %zu pictures and %zu frames were made\n", writer.done(), walk->marks().size(),
               writer.frames());
  return 1;
}

}  // namespace sightfall::cli
