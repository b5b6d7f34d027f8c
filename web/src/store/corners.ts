// SPDX-License-Identifier: GPL-3.0-or-later
// Corners of an outline, of the holes in it and points of a line, put in and taken away. A building's openings stay where
// they are in its walls, though these are counted by the corners.
//   Checked  test/store/corners.test.ts, test/store/holes.test.ts
import type { SitePoint } from "../base/plane";
import { between, distance, middle, moved, rounded_point } from "../base/plane";
import type { Building, Opening, Roof, Zone } from "../wire/document";
import type { Drawn, Shape } from "./shapes";
import { kStep_m, with_points } from "./shapes";

/** ring 0: the outline or line itself; 1 and up: its holes in their order. */
export interface Corner {
  readonly ring: number;
  readonly index: number;
}
export type Holed = Building | Roof | Zone;

export function same_corner(a: Corner | null, b: Corner | null): boolean {
  return a?.ring === b?.ring && a?.index === b?.index;
}

/** A shape whose corners can be put in and taken away. */
export function has_corners(shape: Shape | null): shape is Shape {
  return shape?.form === "outline" || shape?.form === "line";
}

export function rings_of(shape: Shape): readonly (readonly SitePoint[])[] {
  return [shape.points, ...(shape.holes ?? [])];
}
export function ring_of(shape: Shape, ring: number): readonly SitePoint[] {
  return rings_of(shape)[ring] ?? [];
}
export function corner_at(shape: Shape, corner: Corner): SitePoint | null {
  return ring_of(shape, corner.ring)[corner.index] ?? null;
}

/** The one after it, ring by ring and round again; the first when none is in hand. */
export function corner_after(shape: Shape, corner: Corner | null): Corner {
  const all = rings_of(shape).flatMap((points, ring) => points.map((_, index): Corner => ({ ring, index })));
  const at = all.findIndex((each) => same_corner(each, corner));
  return all[(at + 1) % all.length] ?? { ring: 0, index: 0 };
}

export function with_ring<Object extends Drawn>(object: Object, ring: number, points: readonly SitePoint[]): Object {
  if (ring === 0) return with_points(object, points);
  if (!may_have_holes(object)) return object;
  const kept = points.map((p) => rounded_point(p, kStep_m));
  return { ...object, holes: (object.holes ?? []).map((hole, i) => (i === ring - 1 ? kept : hole)) };
}

export function with_corner_moved<Object extends Drawn>(
  object: Object,
  shape: Shape,
  corner: Corner,
  to: (p: SitePoint) => SitePoint,
): Object {
  const points = ring_of(shape, corner.ring);
  return with_ring(
    object,
    corner.ring,
    points.map((p, i) => (i === corner.index ? to(p) : p)),
  );
}

/** Whether its outline or line stays what it is with a corner less. */
export function can_lose_corner(shape: Shape, ring = 0): boolean {
  return has_corners(shape) && ring_of(shape, ring).length > (shape.form === "outline" ? 3 : 2);
}

/** Where a corner behind this one would come: half way to the next, or beyond the end of a line. */
export function next_corner(shape: Shape, { ring, index }: Corner): SitePoint | null {
  const points = ring_of(shape, ring);
  const at = points[index];
  const next = points[index + 1] ?? (shape.form === "outline" ? points[0] : undefined);
  if (!at) return null;
  if (next) return middle(at, next);
  const before = points[index - 1];
  return before ? moved(at, between(before, middle(before, at))) : null;
}

/** With `at` as this corner; those from there on follow. */
export function with_corner<Object extends Drawn>(object: Object, shape: Shape, corner: Corner, at: SitePoint): Object {
  const { ring, index } = corner;
  const points = ring_of(shape, ring);
  const put = with_ring(object, ring, [...points.slice(0, index), at, ...points.slice(index)]);
  if (ring > 0) return put;
  const split = index - 1;
  const reach = points[split] ? distance(points[split], at) : 0;
  return with_openings(put, (opening) => {
    if (opening.edge > split) return { ...opening, edge: opening.edge + 1 };
    const beyond = opening.edge === split && opening.from_m + opening.width_m / 2 > reach;
    return beyond ? { ...opening, edge: index, from_m: Math.max(0, opening.from_m - reach) } : opening;
  });
}

export function without_corner<Object extends Drawn>(object: Object, shape: Shape, { ring, index }: Corner): Object {
  const points = ring_of(shape, ring);
  const left = points.filter((_, i) => i !== index);
  if (ring > 0) return with_ring(object, ring, left);
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

/** Buildings have courtyards, roofs and zones holes. */
export function may_have_holes(object: Drawn): object is Holed {
  return "kind" in object && (object.kind === "building" || object.kind === "roof" || object.kind === "zone");
}

export function with_hole(object: Holed, points: readonly SitePoint[]): Holed {
  return { ...object, holes: [...(object.holes ?? []), points.map((p) => rounded_point(p, kStep_m))] };
}

/** The last hole takes its field along. */
export function without_hole<Object extends Drawn>(object: Object, ring: number): Object {
  if (!may_have_holes(object)) return object;
  const { holes = [], ...solid } = object;
  const left = holes.filter((_, i) => i !== ring - 1);
  return (left.length > 0 ? { ...solid, holes: left } : solid) as Object;
}
