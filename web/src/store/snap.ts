// SPDX-License-Identifier: GPL-3.0-or-later
// Where a point is drawn when the hand is only near: on an end, along a right angle, on an edge, else on the grid.
import type { SitePoint } from "../base/plane";
import {
  along_heading,
  between,
  crosses,
  distance,
  heading_deg,
  nearest_on_segment,
  rounded_point,
  segments,
} from "../base/plane";
import type { ProjectDocument } from "../wire/document";
import { members } from "./changes";
import type { Drawn } from "./shapes";
import { kDrawnLists, shape_of } from "./shapes";

export type SnapKind = "end" | "edge" | "square" | "grid" | "none";
export interface Snapped {
  readonly at: SitePoint;
  readonly kind: SnapKind;
  /** The edge it lies on, in the order of its outline. */
  readonly edge?: readonly [SitePoint, SitePoint];
}
export interface Snapping {
  readonly ends: readonly SitePoint[];
  readonly edges: readonly (readonly [SitePoint, SitePoint])[];
}

export const kGrid_m = 0.5;

/** Ends and edges of all that is drawn, but for the objects that are being moved themselves. */
export function snapping_of(document: ProjectDocument, without: ReadonlySet<string> = new Set()): Snapping {
  const ends: SitePoint[] = [];
  const edges: [SitePoint, SitePoint][] = [];
  for (const list of kDrawnLists) {
    for (const object of members(document, list) as readonly Drawn[]) {
      const shape = without.has(`${list}/${object.name}`) ? null : shape_of(document, object);
      if (!shape || shape.form === "tie") continue;
      for (const points of [shape.body ?? shape.points, ...(shape.holes ?? [])]) {
        ends.push(...points);
        if (points.length > 1) edges.push(...segments(points, shape.form !== "line"));
      }
    }
  }
  return { ends, edges };
}

/** `before`: the points drawn so far, the last of which is where the new edge starts. */
export function snapped(p: SitePoint, to: Snapping, reach_m: number, before: readonly SitePoint[] = []): Snapped {
  const last = before.at(-1);
  if (last && distance(p, last) <= reach_m) return { at: last, kind: "end" };
  const end = nearest([...to.ends, ...before.slice(0, -1)], p, reach_m);
  if (end) return { at: end, kind: "end" };
  const edge = nearest_edge(p, to, 0.7 * reach_m);
  const square = squared(p, before, 0.7 * reach_m);
  if (edge && square) return { ...edge, at: crossing(edge, square, before) ?? edge.at };
  if (edge) return edge;
  if (square) return { at: square.at, kind: "square" };
  return { at: rounded_point(p, kGrid_m), kind: "grid" };
}

function nearest(points: readonly SitePoint[], p: SitePoint, reach_m: number): SitePoint | null {
  let best: SitePoint | null = null;
  for (const point of points) {
    if (distance(p, point) <= (best ? distance(p, best) : reach_m)) best = point;
  }
  return best;
}

function nearest_edge(p: SitePoint, to: Snapping, reach_m: number): Snapped | null {
  let best: Snapped | null = null;
  for (const [a, b] of to.edges) {
    const at = nearest_on_segment(p, a, b);
    const away = distance(p, at);
    if (away <= (best ? distance(p, best.at) : reach_m)) best = { at, kind: "edge", edge: [a, b] };
  }
  return best;
}

interface Square {
  readonly at: SitePoint;
  readonly heading: number;
}

/** Along or square to the edge before, or to the site's axes; its length to the grid. */
function squared(p: SitePoint, before: readonly SitePoint[], reach_m: number): Square | null {
  const from = before.at(-1);
  if (!from) return null;
  const previous = before.at(-2);
  const base = previous ? heading_deg(previous, from) : 0;
  for (const first of [base, 0]) {
    for (const heading of [first, first + 90, first + 180, first + 270]) {
      const ahead = along_heading([0, 0], heading, 1);
      const [dx, dy] = between(from, p);
      const along = dx * ahead[0] + dy * ahead[1];
      const exact = along_heading(from, heading, along);
      if (along > 0 && distance(p, exact) <= reach_m) {
        const length = Math.max(kGrid_m, Math.round(along / kGrid_m) * kGrid_m);
        return { at: along_heading(from, heading, length), heading };
      }
    }
  }
  return null;
}

/** Where the squared direction meets the edge. */
function crossing(edge: Snapped, square: Square, before: readonly SitePoint[]): SitePoint | null {
  const from = before.at(-1);
  if (!edge.edge || !from) return null;
  const [a, b] = edge.edge;
  const [ex, ey] = between(a, b);
  const [dx, dy] = along_heading([0, 0], square.heading, 1);
  const across = dx * ey - dy * ex;
  if (Math.abs(across) < 1e-6) return null;
  const along = ((a[0] - from[0]) * ey - (a[1] - from[1]) * ex) / across;
  const at: SitePoint = [from[0] + dx * along, from[1] + dy * along];
  return distance(at, nearest_on_segment(at, a, b)) < 1e-6 ? at : null;
}

const kStandOff_m = 0.15;

/** A bracket on a wall holds its camera clear of it, on the side that the hand is on. */
export function stood_off(snap: Snapped, hand: SitePoint): SitePoint {
  if (!snap.edge) return snap.at;
  const away = distance(snap.at, hand);
  const along = heading_deg(snap.edge[0], snap.edge[1]);
  const [dx, dy] = along_heading([0, 0], along + 90, 1);
  const side = away < 1e-9 || (hand[0] - snap.at[0]) * dx + (hand[1] - snap.at[1]) * dy >= 0 ? 1 : -1;
  return rounded_point([snap.at[0] + side * dx * kStandOff_m, snap.at[1] + side * dy * kStandOff_m], 0.01);
}

/**
 * What hangs on a wall and looks through it was put on the wrong side of it, by a hand that was only near: the place on the
 * side that it looks to. As it is where a mount is there already.
 */
export function on_the_side_of(to: SitePoint, at: SitePoint, document: ProjectDocument): SitePoint {
  if (members(document, "site/mounts").some((mount) => distance(mount.at, at) < 0.02)) return at;
  for (const solid of members(document, "site/solids")) {
    if (!("outline" in solid || "line" in solid) || solid.kind === "roof") continue;
    const edges = "outline" in solid ? segments(solid.outline, true) : segments(solid.line, false);
    for (const [a, b] of edges) {
      const foot = nearest_on_segment(at, a, b);
      const hangs = Math.abs(distance(at, foot) - kStandOff_m) < 0.02;
      if (hangs && crosses(at, to, a, b)) return rounded_point([2 * foot[0] - at[0], 2 * foot[1] - at[1]], 0.01);
    }
  }
  return at;
}
