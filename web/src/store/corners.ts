// SPDX-License-Identifier: GPL-3.0-or-later
// Corners of an outline and points of a line, put in and taken away. A building's openings stay where they are in its
// walls, though these are counted by the corners.
import type { SitePoint } from "../base/plane";
import { between, distance, middle, moved } from "../base/plane";
import type { Opening } from "../wire/document";
import type { Drawn, Shape } from "./shapes";
import { with_points } from "./shapes";

/** A shape whose corners can be put in and taken away. */
export function has_corners(shape: Shape | null): shape is Shape {
  return shape?.form === "outline" || shape?.form === "line";
}

/** Whether it stays what it is with a corner less. */
export function can_lose_corner(shape: Shape): boolean {
  return has_corners(shape) && shape.points.length > (shape.form === "outline" ? 3 : 2);
}

/** Where a corner behind the `index`th would come: half way to the next, or beyond the end of a line. */
export function next_corner(shape: Shape, index: number): SitePoint | null {
  const { points } = shape;
  const at = points[index];
  const next = points[index + 1] ?? (shape.form === "outline" ? points[0] : undefined);
  if (!at) return null;
  if (next) return middle(at, next);
  const before = points[index - 1];
  return before ? moved(at, between(before, middle(before, at))) : null;
}

/** With `at` as its corner number `index`; those from there on follow. */
export function with_corner<Object extends Drawn>(object: Object, shape: Shape, index: number, at: SitePoint): Object {
  const { points } = shape;
  const put = with_points(object, [...points.slice(0, index), at, ...points.slice(index)]);
  const split = index - 1;
  const reach = points[split] ? distance(points[split], at) : 0;
  return with_openings(put, (opening) => {
    if (opening.edge > split) return { ...opening, edge: opening.edge + 1 };
    const beyond = opening.edge === split && opening.from_m + opening.width_m / 2 > reach;
    return beyond ? { ...opening, edge: index, from_m: Math.max(0, opening.from_m - reach) } : opening;
  });
}

export function without_corner<Object extends Drawn>(object: Object, shape: Shape, index: number): Object {
  const { points } = shape;
  const left = points.filter((_, i) => i !== index);
  const before = (index + points.length - 1) % points.length;
  const [a, b] = [points[before], points[index]];
  const joined = a && b ? distance(a, b) : 0;
  const edge_now = index === 0 ? left.length - 1 : before;
  return with_openings(with_points(object, left), (opening) => {
    if (opening.edge === index) return { ...opening, edge: edge_now, from_m: opening.from_m + joined };
    if (opening.edge === before) return { ...opening, edge: edge_now };
    return opening.edge > index ? { ...opening, edge: opening.edge - 1 } : opening;
  });
}

function with_openings<Object extends Drawn>(object: Object, put: (opening: Opening) => Opening): Object {
  return "openings" in object && object.openings ? { ...object, openings: object.openings.map(put) } : object;
}
