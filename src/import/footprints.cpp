// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/footprints.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>

#include "import/gdal_quiet.h"
#include "import/height_text.h"
#include "import/map_frame.h"
#include "import/outline_parts.h"
#include "import/outline_place.h"
#include "import/vector_file.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

/// What one import works with.
struct Work {
  const FootprintOptions& options;
  const MapFrame& frame;
  FootprintImport& done;
  std::set<std::string> names;
  size_t without_height = 0;
  Length nearest_beyond{std::numeric_limits<double>::infinity()};
};

std::string unique_name(Work& work, const std::string& wanted) {
  std::string name = wanted;
  for (int i = 2; !work.names.insert(name).second; ++i) name = fmt::format("{} ({})", wanted, i);
  return name;
}

Length height_of(const RawOutline& raw, Work& work) {
  const std::optional<Length> stated = raw.height ? height_of_text(*raw.height) : std::nullopt;
  if (raw.height && !stated) work.done.misread.push_back({raw.name, "height \"" + *raw.height + "\""});
  if (stated) return *stated;
  ++(work.options.height ? work.done.height_given : work.without_height);
  return work.options.height.value_or(Length{});
}

std::optional<Length> base_of(const RawOutline& raw, Work& work) {
  if (!raw.base) return std::nullopt;
  const std::optional<Length> stated = length_of_text(*raw.base);
  if (stated) return *stated - work.done.anchor.height;
  work.done.misread.push_back({raw.name, "base \"" + *raw.base + "\""});
  return std::nullopt;
}

void add_solids(const RawOutline& raw, std::vector<geom::Outline> outlines, Work& work) {
  const Length height = height_of(raw, work);
  const std::optional<Length> base = base_of(raw, work);
  FootprintImport& done = work.done;
  done.lowest_height = done.kept == 0 ? height : std::min(done.lowest_height, height);
  done.highest_height = std::max(done.highest_height, height);
  ++done.kept;
  for (size_t i = 0; i < outlines.size(); ++i) {
    site::Solid solid;
    solid.name = unique_name(work, outlines.size() == 1 ? raw.name : fmt::format("{} part {}", raw.name, i + 1));
    solid.height = height;
    solid.base = base;
    done.area = done.area + geom::area(outlines[i]);
    solid.outline = std::move(outlines[i]);
    done.solids.push_back(std::move(solid));
  }
}

void place(RawOutline raw, Work& work) {
  if (const std::optional<std::string> why_not = move_to_site(raw, work.frame)) {
    work.done.dropped.push_back({raw.name, *why_not});
    return;
  }
  const Length away = nearest(raw.parts);
  if (away > work.options.most_distance.value_or(kMostReach)) {
    ++work.done.beyond;
    work.nearest_beyond = std::min(work.nearest_beyond, away);
    return;
  }
  Joined whole = joined(std::move(raw.parts));
  if (!whole.dropped.empty()) {
    work.done.dropped.push_back({raw.name, whole.dropped});
    return;
  }
  if (!whole.repaired.empty()) work.done.repaired.push_back({raw.name, whole.repaired});
  add_solids(raw, std::move(whole.outlines), work);
}

/// Why nothing at all was kept.
Error nothing_kept(const Work& work) {
  const FootprintImport& done = work.done;
  const size_t outlines = done.beyond + done.dropped.size();
  if (done.beyond == 0)
    return {ErrorKind::kGeometry,
            fmt::format("none of its {} outlines can be used; {}: {}", outlines, done.dropped[0].name,
                        done.dropped[0].text),
            {}};
  return {
      ErrorKind::kRequest,
      fmt::format("none of its {} outlines lies within {:.0f} m of the site's origin at {}; the nearest is {:.0f} m "
                  "away",
                  outlines, work.options.most_distance.value_or(kMostReach).in(m), place_text(done.anchor),
                  work.nearest_beyond.in(m)),
      {}};
}

/// What makes the whole import fail once every outline has been looked at.
std::optional<Error> outcome(const Work& work) {
  const FootprintImport& done = work.done;
  if (done.kept == 0) return nothing_kept(work);
  if (work.without_height == 0) return std::nullopt;
  std::string misread;
  if (!done.misread.empty()) misread = fmt::format(" (such as {}: {})", done.misread[0].name, done.misread[0].text);
  return Error{ErrorKind::kField,
               fmt::format("{} of {} outlines state no height{}: give --height METRES for those", work.without_height,
                           done.kept, misread),
               {}};
}

std::optional<Error> request_error(const FootprintOptions& options) {
  if (options.height && !(*options.height > 0 * m && *options.height <= kMostHeight))
    return Error{
        ErrorKind::kRequest,
        fmt::format("a height of {} m; allowed is above 0, up to {} m", options.height->in(m), kMostHeight.in(m)),
        {}};
  return distance_error(options.most_distance);
}

std::vector<geom::PlanPoint> first_corners(const std::vector<RawOutline>& outlines) {
  std::vector<geom::PlanPoint> points;
  for (const RawOutline& raw : outlines)
    if (!raw.parts.front().outer.empty()) points.push_back(raw.parts.front().outer.front());
  return points;
}

FootprintImport begun(const VectorFile& source, const site::Anchor& anchor, bool new_anchor) {
  FootprintImport done;
  done.format = source.format;
  done.layer = source.layer;
  done.read = source.features;
  done.not_areas = source.not_areas;
  done.not_buildings = source.not_buildings;
  done.anchor = anchor;
  done.new_anchor = new_anchor;
  return done;
}

Result<FootprintImport> import_from(VectorFile source, const std::optional<site::Anchor>& anchor,
                                    const FootprintOptions& options, const Progress& progress) {
  if (source.outlines.empty())
    return failure(ErrorKind::kField, fmt::format("none of its {} features is a building's outline", source.features));
  const Result<site::Anchor> at = anchor_for(anchor, source.crs, first_corners(source.outlines));
  if (!at) return tl::make_unexpected(at.error());
  const Result<MapFrame> frame = MapFrame::between(source.crs, *at);
  if (!frame) return tl::make_unexpected(frame.error());
  FootprintImport done = begun(source, *at, !anchor);
  Work work{options, *frame, done, {options.taken_names.begin(), options.taken_names.end()}};
  for (size_t i = 0; i < source.outlines.size(); ++i) {
    if (progress.stopped()) return failure(ErrorKind::kRequest, kStopped);
    progress.tell(0.5 + 0.5 * static_cast<double>(i) / static_cast<double>(source.outlines.size()), "placing outlines");
    place(std::move(source.outlines[i]), work);
  }
  if (const std::optional<Error> error = outcome(work)) return tl::make_unexpected(*error);
  return done;
}

}  // namespace

Result<FootprintImport> import_footprints(const std::string& file, const std::optional<site::Anchor>& anchor,
                                          const FootprintOptions& options, const Progress& progress) {
  if (const std::optional<Error> error = request_error(options)) return tl::make_unexpected(*error);
  const Progress reading = progress.part(0, 0.5);
  return guarded(file, [&] {
    return read_outlines(file, options, reading).and_then([&](VectorFile source) {
      return import_from(std::move(source), anchor, options, progress);
    });
  });
}

}  // namespace sightfall::import
