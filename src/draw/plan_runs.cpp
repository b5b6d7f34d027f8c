// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "draw/shape.h"
#include "need/words.h"

namespace sightfall::draw {
namespace {

using geom::PlanPoint;

/// The corners of all lines, each once, by their numbers.
class Corners {
 public:
  size_t at(PlanPoint p) {
    const auto found = std::find_if(points_.begin(), points_.end(),
                                    [&](PlanPoint other) { return geom::norm(p - other) <= kInOneLine; });
    if (found != points_.end()) return static_cast<size_t>(found - points_.begin());
    points_.push_back(p);
    return points_.size() - 1;
  }

  PlanPoint operator[](size_t corner) const { return points_[corner]; }

  /// From one to the other, over those that lie between them; the first is left out.
  std::vector<size_t> over(size_t from, size_t to) const {
    const PlanPoint a = points_[from], b = points_[to], along = b - a;
    std::vector<std::pair<double, size_t>> between;
    for (size_t i = 0; i < points_.size(); ++i) {
      const double share = geom::dot(points_[i] - a, along) / geom::dot(along, along);
      if (i == from || i == to || share <= 0 || share >= 1) continue;
      if (geom::norm(points_[i] - a - share * along) <= kInOneLine) between.emplace_back(share, i);
    }
    std::sort(between.begin(), between.end());
    std::vector<size_t> path;
    path.reserve(between.size() + 1);
    for (const auto& [share, corner] : between) path.push_back(corner);
    path.push_back(to);
    return path;
  }

 private:
  std::vector<PlanPoint> points_;
};

using Path = std::vector<size_t>;
using Piece = std::pair<size_t, size_t>;

Piece piece_between(size_t a, size_t b) { return {std::min(a, b), std::max(a, b)}; }

std::vector<Path> paths_of(const std::vector<PlanCable>& cables, Corners& corners) {
  std::vector<Path> bare(cables.size()), parted(cables.size());
  for (size_t c = 0; c < cables.size(); ++c)
    for (const PlanPoint p : cables[c].line)
      if (const size_t corner = corners.at(p); bare[c].empty() || bare[c].back() != corner) bare[c].push_back(corner);
  for (size_t c = 0; c < cables.size(); ++c)
    for (size_t i = 0; i < bare[c].size(); ++i) {
      if (i == 0) {
        parted[c].push_back(bare[c][0]);
        continue;
      }
      const Path over = corners.over(bare[c][i - 1], bare[c][i]);
      parted[c].insert(parted[c].end(), over.begin(), over.end());
    }
  return parted;
}

const char* kind_word(site::WayKind kind) {
  switch (kind) {
    case site::WayKind::kWall:
      return "wall";
    case site::WayKind::kTrench:
      return "trench";
    case site::WayKind::kConduit:
      return "conduit";
    case site::WayKind::kTray:
      return "tray";
    case site::WayKind::kOverhead:
      return "overhead";
  }
  return "";
}

}  // namespace

std::vector<PlanStretch> stretches_of(const std::vector<PlanCable>& cables) {
  Corners corners;
  const std::vector<Path> paths = paths_of(cables, corners);
  std::map<Piece, std::vector<size_t>> lying;
  for (size_t c = 0; c < paths.size(); ++c)
    for (size_t i = 1; i < paths[c].size(); ++i)
      if (auto& on = lying[piece_between(paths[c][i - 1], paths[c][i])]; on.empty() || on.back() != c) on.push_back(c);
  std::vector<PlanStretch> stretches;
  std::set<Piece> drawn;
  for (size_t c = 0; c < paths.size(); ++c) {
    bool goes_on = false;  // whether the piece before is the last of the last stretch
    for (size_t i = 1; i < paths[c].size(); ++i) {
      const Piece piece = piece_between(paths[c][i - 1], paths[c][i]);
      const std::vector<size_t>& on = lying.at(piece);
      if (on.front() != c || !drawn.insert(piece).second) {
        goes_on = false;
        continue;
      }
      if (!goes_on || stretches.back().cables != on) stretches.push_back({{corners[paths[c][i - 1]]}, on});
      stretches.back().line.push_back(corners[paths[c][i]]);
      goes_on = true;
    }
  }
  return stretches;
}

std::string stretch_words(const std::vector<PlanCable>& cables, const PlanStretch& stretch) {
  constexpr size_t kOfALine = 6;
  std::string words;
  for (size_t i = 0; i < stretch.cables.size(); ++i) {
    if (i > 0) words += i % kOfALine == 0 ? '\n' : ' ';
    words += cables[stretch.cables[i]].name;
  }
  return words;
}

std::string way_words(const site::Way& way, need::Units units) {
  std::string words = way.name;
  if (const std::string kind = kind_word(way.kind); words.find(kind) == std::string::npos) words += ", " + kind;
  if (way.height > Length{}) return fmt::format("{}, {} up", words, need::measured_words(way.height, units));
  if (way.height < Length{}) return fmt::format("{}, {} deep", words, need::measured_words(-1.0 * way.height, units));
  return way.kind == site::WayKind::kTrench ? words + ", no depth entered" : words;
}

std::vector<const site::Way*> ways_taken(const site::Site& site, const std::vector<PlanCable>& cables) {
  std::vector<const site::Way*> ways;
  for (const site::Way& way : site.ways)
    if (std::any_of(cables.begin(), cables.end(), [&](const PlanCable& cable) {
          return std::find(cable.along.begin(), cable.along.end(), way.name) != cable.along.end();
        }))
      ways.push_back(&way);
  return ways;
}

}  // namespace sightfall::draw
