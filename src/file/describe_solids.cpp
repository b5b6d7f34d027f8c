// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "file/describe.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 5> kSolidKinds{"building", "wall", "box", "roof", "vehicle"};
constexpr std::array<std::string_view, 4> kVeilKinds{"mesh", "railing", "hedge", "tree"};

constexpr double kTallest = 1000;  // m
constexpr double kLeastSize = 0.01;

void describe_base(Form& form, site::Solid& solid, std::string_view meaning) {
  form.number({"base_m", kMetres, -12000, kOptional, 12000, meaning}, solid.base);
}

void describe_outline(Form& form, geom::Outline& outline) {
  form.points({"outline", kRequired, "corners, without repeating the first"}, 3, outline.outer);
  form.rings({"holes", kOptional, "outlines cut out of it, such as courtyards"}, outline.holes);
}

void describe_line(Form& form, std::vector<geom::PlanPoint>& line) {
  form.points({"line", kRequired, "points along its middle"}, 2, line);
}

void describe_standing(Form& form, site::Solid& solid) {
  form.point({"at", kRequired, "its centre on the plan"}, solid.at);
  form.number({"heading_deg", kDegrees, -360, 0, 360, "of its length, clockwise from the plan's north, its y axis"},
              solid.heading);
}

constexpr std::string_view kLowestUnder =
    "height of its foot in the site frame; the lowest ground under it when absent";

void describe_building(Form& form, site::Solid& solid) {
  describe_outline(form, solid.outline);
  describe_base(form, solid, kLowestUnder);
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its top above the base"}, solid.height);
  form.list({"openings", kOptional, "rectangles cut out of its outer walls"}, 0, 1000, solid.openings);
}

void describe_wall(Form& form, site::Solid& solid) {
  describe_line(form, solid.line);
  describe_base(form, solid, "height of its foot in the site frame; it follows the ground when absent");
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its top above the base"}, solid.height);
  form.number({"thickness_m", kMetres, 0, 0.1, 20, "through it"}, solid.thickness);
}

void describe_box(Form& form, site::Solid& solid) {
  describe_standing(form, solid);
  form.number({"across_m", kMetres, kLeastSize, kRequired, kTallest, "size across the heading"}, solid.size_across);
  form.number({"along_m", kMetres, kLeastSize, kRequired, kTallest, "size along the heading"}, solid.size_along);
  describe_base(form, solid, kLowestUnder);
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its top above the base"}, solid.height);
}

void describe_roof(Form& form, site::Solid& solid) {
  describe_outline(form, solid.outline);
  describe_base(form, solid, "height it is measured from, in the site frame; the lowest ground under it when absent");
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its underside above the base"}, solid.height);
  form.number({"thickness_m", kMetres, kLeastSize, 0.2, 20, "through it"}, solid.thickness);
  form.number({"overhang_m", kMetres, 0, 0, 50, "beyond its outline on every side"}, solid.overhang);
}

void describe_vehicle(Form& form, site::Solid& solid) {
  describe_standing(form, solid);
  form.number({"across_m", kMetres, 0.1, 1.8, 20, "size across the heading"}, solid.size_across);
  form.number({"along_m", kMetres, 0.1, 4.5, 50, "size along the heading"}, solid.size_along);
  form.number({"height_m", kMetres, 0.1, 1.5, 20, "of its top above the base"}, solid.height);
  describe_base(form, solid, kLowestUnder);
}

void describe_seasons(Form& form, site::Veil& veil) {
  form.number({"summer", "", 0, kRequired, 1, "fraction of the light passed straight through, leaves on"}, veil.summer);
  form.number({"winter", "", 0, kRequired, 1, "fraction of the light passed straight through, leaves off"},
              veil.winter);
}

void describe_fence(Form& form, site::Veil& veil) {
  describe_line(form, veil.line);
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its top above ground"}, veil.height);
  form.number({"passes", "", 0, kRequired, 1, "fraction of the light passed straight through"}, veil.summer);
  veil.winter = veil.summer;
}

void describe_hedge(Form& form, site::Veil& veil) {
  describe_line(form, veil.line);
  form.number({"height_m", kMetres, kLeastSize, kRequired, kTallest, "of its top above ground"}, veil.height);
  form.number({"thickness_m", kMetres, kLeastSize, 0.8, 100, "through it"}, veil.thickness);
  describe_seasons(form, veil);
}

void describe_tree(Form& form, site::Veil& veil) {
  form.point({"at", kRequired, "the trunk on the plan"}, veil.at);
  form.number({"crown_radius_m", kMetres, 0.05, kRequired, 50, "of its crown"}, veil.crown_radius);
  form.number({"crown_base_m", kMetres, 0, kRequired, 150, "of the crown's lower edge above ground"}, veil.crown_base);
  form.number({"height_m", kMetres, 0.1, kRequired, 150, "of the crown's top above ground"}, veil.height);
  describe_seasons(form, veil);
}

}  // namespace

void describe(Form& form, site::Solid& solid) {
  form.by_kind({"kind", kRequired, "what it is"}, kSolidKinds, solid.kind, [&] {
    form.name(solid.name);
    form.text(
        {"material", kOptional, "name of a material of data/materials.json; the usual one of its kind when absent"},
        solid.material);
    switch (solid.kind) {
      case site::SolidKind::kBuilding:
        return describe_building(form, solid);
      case site::SolidKind::kWall:
        return describe_wall(form, solid);
      case site::SolidKind::kBox:
        return describe_box(form, solid);
      case site::SolidKind::kRoof:
        return describe_roof(form, solid);
      case site::SolidKind::kVehicle:
        return describe_vehicle(form, solid);
    }
  });
}

void describe(Form& form, geom::Opening& opening) {
  form.whole({"edge", "", 0, kRequired, 1e6, "of the outline, 0 from its first point to its second"}, opening.edge);
  form.number({"from_m", "m", 0, kRequired, 1e5, "along the edge to its near side"}, opening.from);
  form.number({"width_m", "m", kLeastSize, kRequired, 1e5, "along the edge"}, opening.width);
  form.number({"sill_m", "m", 0, kRequired, kTallest, "of its lower side above the base"}, opening.sill);
  form.number({"height_m", "m", kLeastSize, kRequired, kTallest, "from its lower to its upper side"}, opening.height);
}

void describe(Form& form, site::Veil& veil) {
  form.by_kind({"kind", kRequired, "what it is"}, kVeilKinds, veil.kind, [&] {
    form.name(veil.name);
    switch (veil.kind) {
      case site::VeilKind::kMesh:
      case site::VeilKind::kRailing:
        return describe_fence(form, veil);
      case site::VeilKind::kHedge:
        return describe_hedge(form, veil);
      case site::VeilKind::kTree:
        return describe_tree(form, veil);
    }
  });
}

}  // namespace sightfall::file
