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
#include "cli/words.h"
#include "file/walk_answer.h"
#include "papers/contact_sheet.h"
#include "walk/marks.h"

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
  if (mark.power < 1) lines.push_back(fmt::format("infrared at {:.0f} % of its power", 100 * mark.power));
  return lines;
}

/// What a walk writes: pictures as they are done, then the sheet and the tables of those that are.
class WalkWriter {
 public:
  WalkWriter(const walk::WalkRequest& request, const walk::Walk& walk, PictureFolder& folder, bool pieces)
      : request_{request}, walk_{walk}, folder_{folder}, pieces_{pieces} {}

  Result<void> write_pictures(const Progress& progress) {
    const auto& marks = walk_.marks();
    for (size_t i = 0; i < marks.size() && !progress.stopped(); ++i) {
      Progress part = progress;
      part.tell = [&](double share, std::string_view what) {
        progress.tell((static_cast<double>(i) + share) / static_cast<double>(marks.size()),
                      fmt::format("mark {} of {}: {}", i + 1, marks.size(), what));
      };
      const walk::Picture picture = walk_.picture(marks[i], part);
      if (picture.columns == 0) break;
      if (auto written = keep(marks[i], picture); !written) return written;
    }
    return {};
  }

  Result<void> write_tables() {
    const file::WalkAnswer answer{&request_, &walk_.marks(), names_};
    if (auto written = folder_.write("marks.json", file::answer_text(answer)); !written) return written;
    if (auto written = folder_.write("marks.csv", file::answer_table(answer)); !written) return written;
    const std::string title =
        fmt::format("{} on \"{}\", {}", request_.camera->name, request_.route->name, request_.condition->name);
    const auto sheet = papers::contact_sheet(
        title,
        fmt::format("Left the whole picture made smaller, right the {} at one point a pixel. Predicted, before "
                    "compression: {}",
                    request_.mover == walk::Mover::kWalker ? "face"
                    : request_.mover == walk::Mover::kCar  ? "plate"
                                                           : "target",
                    kLimits),
        rows_);
    if (!sheet) return tl::make_unexpected(sheet.error());
    return folder_.write("contact-sheet.png", *sheet);
  }

  size_t done() const { return names_.size(); }
  file::WalkAnswer answer() const { return {&request_, &walk_.marks(), names_}; }

 private:
  static constexpr const char* kLimits =
      "people, cars and plates are invented; surfaces are matt; colours stand for their material; the sensor's mosaic "
      "is left out.";

  Result<void> keep(const walk::Mark& mark, const walk::Picture& picture) {
    const std::string name = picture_name(names_.size() + 1, fmt::format("{:.1f} m", mark.distance.in(m))) + ".png";
    const auto png = papers::picture_png(picture);
    if (!png) return tl::make_unexpected(png.error());
    if (auto written = folder_.write(name, *png); !written) return written;
    names_.push_back(name);
    papers::ContactRow row{
        &mark, papers::smaller(picture, papers::kSmallColumns), {}, figures_of(mark, request_.project->settings.units)};
    if (mark.middle)
      row.piece = walk::cut(picture, walk::piece_around(walk_.station().lens.projector, *mark.middle,
                                                        papers::kPieceColumns, papers::kPieceRows));
    if (pieces_ && row.piece.columns > 0) {
      const auto piece = papers::picture_png(row.piece);
      if (!piece) return tl::make_unexpected(piece.error());
      if (auto written = folder_.write(name.substr(0, name.size() - 4) + "-crop.png", *piece); !written) return written;
    }
    rows_.push_back(std::move(row));
    return {};
  }

  const walk::WalkRequest& request_;
  const walk::Walk& walk_;
  PictureFolder& folder_;
  bool pieces_;
  std::vector<std::string> names_;
  std::vector<papers::ContactRow> rows_;
};

std::string walk_text(const walk::WalkRequest& request, const walk::Walk& walk) {
  std::string text = fmt::format("{} on \"{}\", {}\nBefore compression.\n\n", request.camera->name, request.route->name,
                                 request.condition->name);
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
  return text + table(rows, {0, 1, 2});
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
  WalkWriter writer{*request, *walk, folder, given.has("--crop")};
  Result<void> written;
  {
    const Watching watching;
    written = writer.write_pictures(watching.progress());
  }
  if (written) written = writer.write_tables();
  if (!written) return report(written.error());
  folder.keep();
  const std::string text = given.has("--json") ? file::answer_text(writer.answer()) : walk_text(*request, *walk);
  std::fputs(text.c_str(), stdout);
  if (writer.done() == walk->marks().size()) return 0;
  std::fprintf(stderr, "stopped: %zu of %zu pictures were made\n", writer.done(), walk->marks().size());
  return 1;
}

}  // namespace sightfall::cli
