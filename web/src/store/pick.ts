// SPDX-License-Identifier: GPL-3.0-or-later
// What lies under a point of the sheet, nearest and smallest first.
import type { SitePoint } from "../base/plane";
import { box_of, distance, distance_to_line, is_filled, is_inside } from "../base/plane";
import type { ProjectDocument } from "../wire/document";
import type { Ref } from "./changes";
import { members } from "./changes";
import type { Drawn, Shape } from "./shapes";
import { kDrawnLists, shape_of } from "./shapes";

interface Found {
  readonly ref: Ref;
  readonly rank: number;
}

/** A camera is what is meant when a lamp hangs beside it. */
const kCameraFirst = 0.4;

/**
 * Cameras before their mounts, spots before lines, lines and edges before areas, small areas before large ones. Of the
 * runs only those that are drawn: `runs` has their lines by name.
 */
export function picked(
  document: ProjectDocument,
  p: SitePoint,
  reach_m: number,
  runs: ReadonlyMap<string, readonly SitePoint[]> = new Map(),
): Ref[] {
  const found: Found[] = [];
  for (const list of kDrawnLists) {
    for (const object of members(document, list) as readonly Drawn[]) {
      const shape = list === "site/runs" ? run_shape(runs.get(object.name)) : shape_of(document, object);
      const rank = shape ? rank_of(shape, p, reach_m, list === "site/boundary") : null;
      if (rank !== null)
        found.push({ ref: { list, name: object.name }, rank: rank - (list === "cameras" ? kCameraFirst : 0) });
    }
  }
  return found.sort((a, b) => a.rank - b.rank).map((each) => each.ref);
}

function run_shape(line: readonly SitePoint[] | undefined): Shape | null {
  return line ? { form: "tie", points: line } : null;
}

/** `bare`: of an outline the edges alone, since all that is empty lies within the boundary. */
function rank_of(shape: Shape, p: SitePoint, reach_m: number, bare: boolean): number | null {
  if (shape.form === "spot") return spot_rank(shape, p, reach_m);
  const holes = shape.holes ?? [];
  const away = Math.min(
    distance_to_line(p, shape.points, shape.form === "outline"),
    ...holes.map((hole) => distance_to_line(p, hole, true)),
  );
  if (away <= reach_m) return 1 + away / reach_m;
  const inside = shape.form === "outline" && is_filled(p, shape.points, holes);
  return inside && !bare ? 2 + area(shape.points) : null;
}

function spot_rank(shape: Shape, p: SitePoint, reach_m: number): number | null {
  const centre = shape.points[0];
  if (!centre) return null;
  const away = distance(p, centre);
  if (away <= 1.5 * reach_m) return away / (1.5 * reach_m);
  if (shape.radius_m && away <= shape.radius_m) return 2 + Math.PI * shape.radius_m ** 2;
  return shape.body && is_inside(p, shape.body) ? 2 + area(shape.body) : null;
}

function area(outline: readonly SitePoint[]): number {
  const box = box_of(outline);
  return box ? (box.east - box.west) * (box.north - box.south) : 0;
}

/** Everything that lies wholly within two corners. */
export function picked_within(document: ProjectDocument, a: SitePoint, b: SitePoint): Ref[] {
  const frame = box_of([a, b]);
  if (!frame) return [];
  const within = ([x, y]: SitePoint): boolean =>
    x >= frame.west && x <= frame.east && y >= frame.south && y <= frame.north;
  return kDrawnLists.flatMap((list) =>
    (members(document, list) as readonly Drawn[])
      .filter((object) => shape_of(document, object)?.points.every(within))
      .map((object): Ref => ({ list, name: object.name })),
  );
}
