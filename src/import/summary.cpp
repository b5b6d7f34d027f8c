// SPDX-License-Identifier: GPL-3.0-or-later
// What an import did, in words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "import/footprints.h"
#include "import/map_frame.h"
#include "import/terrain.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

std::string count(size_t n, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string outlines(size_t n) { return count(n, "outline", "outlines"); }

/// The first few by name, the others by number.
std::string listed(const std::vector<Remark>& remarks) {
  constexpr size_t kMost = 5;
  std::string text;
  for (size_t i = 0; i < std::min(kMost, remarks.size()); ++i)
    text += fmt::format("{}{} ({})", i == 0 ? "" : ", ", remarks[i].name, remarks[i].text);
  return remarks.size() > kMost ? text + fmt::format(" and {} more", remarks.size() - kMost) : text;
}

void add_left_out(const FootprintImport& done, std::vector<std::string>& lines) {
  if (done.not_buildings > 0)
    lines.push_back("left out: " +
                    count(done.not_buildings, "area that is no building", "areas that are no buildings"));
  if (done.not_areas > 0)
    lines.push_back("left out: " + count(done.not_areas, "feature that is no area", "features that are no areas"));
  if (done.beyond > 0) lines.push_back("left out: " + outlines(done.beyond) + " too far from the site's origin");
  if (!done.dropped.empty())
    lines.push_back(
        fmt::format("left out: {} that cannot be used: {}", outlines(done.dropped.size()), listed(done.dropped)));
}

std::string anchor_line(const site::Anchor& anchor, const char* where) {
  const double turn = anchor.turn.in(deg);
  const std::string north = turn == 0 ? "along the site's y axis"
                                      : fmt::format("{:.4f} degrees {} of the site's y axis", std::abs(turn),
                                                    turn > 0 ? "clockwise" : "anticlockwise");
  return fmt::format(
      "the site had no anchor: its origin is now at {}, {}; z = 0 is {:g} m above the map's datum; true "
      "north is {}",
      place_text(anchor), where, anchor.height.in(m), north);
}

}  // namespace

std::vector<std::string> summary(const FootprintImport& done) {
  std::vector<std::string> lines;
  lines.push_back(fmt::format("{} of {} in \"{}\" ({}) became {}, {:.1f} m2 of ground", outlines(done.kept),
                              count(done.read, "feature", "features"), done.layer, done.format,
                              count(done.solids.size(), "building", "buildings"), done.area.in(m2)));
  lines.push_back(fmt::format("heights from {:.2f} m to {:.2f} m; {} took the height that was given",
                              done.lowest_height.in(m), done.highest_height.in(m),
                              done.height_given == 0 ? "none" : std::to_string(done.height_given)));
  if (!done.misread.empty())
    lines.push_back(fmt::format("not understood: {} {}", done.misread.size(), listed(done.misread)));
  if (!done.repaired.empty())
    lines.push_back(fmt::format("repaired: {}: {}", outlines(done.repaired.size()), listed(done.repaired)));
  add_left_out(done, lines);
  if (done.new_anchor) lines.push_back(anchor_line(done.anchor, "amid the outlines"));
  return lines;
}

std::vector<std::string> summary(const TerrainImport& done) {
  std::vector<std::string> lines;
  lines.push_back(fmt::format("a raster of {} x {} cells of {:.4g} m became a grid of {} x {} points, {:.4g} m apart",
                              done.raster_columns, done.raster_rows, done.raster_cell.in(m), done.terrain.columns,
                              done.terrain.rows, done.terrain.step.in(m)));
  lines.push_back(
      fmt::format("heights from {:.2f} m to {:.2f} m above the map's datum; the cells read hold {:.2f} m to "
                  "{:.2f} m",
                  done.lowest.in(m), done.highest.in(m), done.lowest_read.in(m), done.highest_read.in(m)));
  if (!done.unit_stated) lines.emplace_back("the file does not say what its heights are measured in: taken for metres");
  if (done.averaged > 1)
    lines.push_back(fmt::format("each height is the mean of {0} x {0} cells: crests come out lower", done.averaged));
  if (done.filled > 0)
    lines.push_back(count(done.filled, "point", "points") + " without a height took the one that was given");
  if (done.new_anchor) lines.push_back(anchor_line(done.anchor, "in the raster's middle"));
  return lines;
}

}  // namespace sightfall::import
