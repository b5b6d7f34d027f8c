// SPDX-License-Identifier: GPL-3.0-or-later
#include "visible_polygon.h"

#include <CGAL/Arr_naive_point_location.h>
#include <CGAL/Arr_segment_traits_2.h>
#include <CGAL/Arrangement_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Triangular_expansion_visibility_2.h>

#include <boost/variant/get.hpp>
#include <vector>

namespace sightfall::outside {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Traits = CGAL::Arr_segment_traits_2<Kernel>;
using Arrangement = CGAL::Arrangement_2<Traits>;
using Visibility = CGAL::Triangular_expansion_visibility_2<Arrangement, CGAL::Tag_true>;

void add_ring(std::vector<Traits::Segment_2>& segments, const geom::Ring& ring) {
  for (size_t i = 0; i < ring.size(); ++i) {
    const geom::PlanPoint a = ring[i], b = ring[(i + 1) % ring.size()];
    segments.emplace_back(Kernel::Point_2{a.x, a.y}, Kernel::Point_2{b.x, b.y});
  }
}

}  // namespace

geom::Ring visible_polygon(const geom::Outline& outline, geom::PlanPoint eye) {
  std::vector<Traits::Segment_2> segments;
  add_ring(segments, outline.outer);
  for (const geom::Ring& hole : outline.holes) add_ring(segments, hole);
  Arrangement plan;
  CGAL::insert_non_intersecting_curves(plan, segments.begin(), segments.end());

  const Kernel::Point_2 from{eye.x, eye.y};
  const auto located = CGAL::Arr_naive_point_location<Arrangement>{plan}.locate(from);
  const auto* face = boost::get<Arrangement::Face_const_handle>(&located);
  if (face == nullptr) return {};
  Arrangement seen;
  const auto region = Visibility{plan}.compute_visibility(from, *face, seen);
  geom::Ring ring;
  auto edge = region->outer_ccb();
  const auto first = edge;
  do {
    const auto& corner = edge->source()->point();
    ring.push_back({CGAL::to_double(corner.x()), CGAL::to_double(corner.y())});
  } while (++edge != first);
  return ring;
}

}  // namespace sightfall::outside
