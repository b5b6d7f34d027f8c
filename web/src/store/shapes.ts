// SPDX-License-Identifier: GPL-3.0-or-later
// What the objects of the document look like on the plan, whatever their fields are called: corners, a line or a spot, and
// some of them a heading. Moving, reshaping and copying are done on these.
import type { Box, SitePoint } from "../base/plane";
import { box_of, moved, rectangle, rounded, rounded_point } from "../base/plane";
import type {
  Boundary,
  CableWay,
  Camera,
  Feed,
  ListName,
  ListTypes,
  Lamp,
  Mount,
  Neighbour,
  Place,
  ProjectDocument,
  Run,
  Solid,
  Veil,
} from "../wire/document";
import type { Ref } from "./changes";
import { member, members } from "./changes";

export interface Shape {
  readonly form: "outline" | "line" | "spot" | "tie";
  /** Corners of an outline, points of a line, the one place of a spot, the two things that a tie joins. */
  readonly points: readonly SitePoint[];
  /** What is cut out of an outline, such as courtyards. */
  readonly holes?: readonly (readonly SitePoint[])[];
  /** Outlines that a spot has of its own size (a vehicle, a tree's crown as `radius_m`). */
  readonly body?: readonly SitePoint[];
  readonly radius_m?: number;
  readonly heading_deg?: number;
}

export type DrawnList =
  | "site/solids"
  | "site/veils"
  | "site/mounts"
  | "site/lamps"
  | "site/places"
  | "site/neighbours"
  | "site/feeds"
  | "site/ways"
  | "site/runs"
  | "site/boundary"
  | "cameras";
export const kDrawnLists: readonly DrawnList[] = [
  "site/solids",
  "site/veils",
  "site/places",
  "site/neighbours",
  "site/lamps",
  "site/mounts",
  "cameras",
  "site/feeds",
  "site/ways",
  "site/runs",
  "site/boundary",
];
export type Drawn = Boundary | Solid | Veil | Place | Mount | Lamp | Neighbour | Feed | CableWay | Run | Camera;

export const kVehicle = { across_m: 1.8, along_m: 4.5 };

export function is_drawn(list: ListName): list is DrawnList {
  return (kDrawnLists as readonly ListName[]).includes(list);
}

export function drawn(document: ProjectDocument, ref: Ref): Drawn | null {
  return is_drawn(ref.list) ? (member(document, ref) as Drawn | null) : null;
}

/** Where what a run leads to is: a camera at its mount, or a feed. */
export function end_of_run(document: ProjectDocument, name: string): SitePoint | null {
  const feed = member(document, { list: "site/feeds", name });
  const camera = member(document, { list: "cameras", name });
  return feed?.at ?? (camera && member(document, { list: "site/mounts", name: camera.mount })?.at) ?? null;
}

/** Null for what has no place on the plan, such as a camera whose mount is gone. */
export function shape_of(document: ProjectDocument, object: Drawn): Shape | null {
  if ("outline" in object) {
    const holes = "holes" in object ? object.holes : undefined;
    return { form: "outline", points: object.outline, ...(holes && { holes }) };
  }
  if ("line" in object) return { form: "line", points: object.line };
  if ("sheet" in object) {
    const mount = member(document, { list: "site/mounts", name: object.mount });
    return mount && { form: "spot", points: [mount.at], heading_deg: object.heading_deg };
  }
  if ("cable" in object) {
    const from = end_of_run(document, object.from);
    const to = end_of_run(document, object.to);
    return from && to && { form: "tie", points: [from, to] };
  }
  if (!("at" in object)) return null;
  return { form: "spot", points: [object.at], ...spot_of(object) };
}

function spot_of(object: Exclude<Drawn, Camera | Run>): Partial<Shape> {
  if ("crown_radius_m" in object) return { radius_m: object.crown_radius_m };
  if ("facing_deg" in object) return { heading_deg: object.facing_deg };
  if ("kind" in object && (object.kind === "box" || object.kind === "vehicle")) {
    const heading_deg = object.heading_deg ?? 0;
    const across = object.across_m ?? kVehicle.across_m;
    const along = object.along_m ?? kVehicle.along_m;
    return { heading_deg, body: rectangle(object.at, heading_deg, across, along) };
  }
  return "heading_deg" in object && object.heading_deg !== undefined ? { heading_deg: object.heading_deg } : {};
}

/** Points are kept to this. */
export const kStep_m = 0.001;

export function with_points<Object extends Drawn>(object: Object, points: readonly SitePoint[]): Object {
  const kept = points.map((p) => rounded_point(p, kStep_m));
  if ("outline" in object) return { ...object, outline: kept };
  if ("line" in object) return { ...object, line: kept };
  return "at" in object ? { ...object, at: kept[0] ?? object.at } : object;
}

export function moved_by<Object extends Drawn>(object: Object, by: SitePoint): Object {
  const all = (points: readonly SitePoint[]): SitePoint[] => points.map((p) => rounded_point(moved(p, by), kStep_m));
  const holes = "holes" in object && object.holes ? { holes: object.holes.map(all) } : {};
  if ("outline" in object) return { ...object, outline: all(object.outline), ...holes };
  if ("line" in object) return { ...object, line: all(object.line) };
  return "at" in object ? { ...object, at: rounded_point(moved(object.at, by), kStep_m) } : object;
}

export function with_heading<Object extends Drawn>(object: Object, heading_deg: number): Object {
  const heading = rounded(heading_deg, 0.5) % 360;
  return "facing_deg" in object ? { ...object, facing_deg: heading } : { ...object, heading_deg: heading };
}

/** Whether it can be turned on the sheet. */
export function turns(list: DrawnList, object: Drawn): boolean {
  if (list === "cameras" || list === "site/neighbours" || list === "site/lamps") return true;
  return "kind" in object && (object.kind === "box" || object.kind === "vehicle");
}

export function all_points(document: ProjectDocument): SitePoint[] {
  const points: SitePoint[] = [];
  for (const list of kDrawnLists) {
    for (const object of members(document, list as keyof ListTypes) as readonly Drawn[]) {
      const shape = shape_of(document, object);
      if (shape) points.push(...(shape.body ?? shape.points));
    }
  }
  return points;
}

/** Null on an empty sheet. */
export function site_box(document: ProjectDocument): Box | null {
  const plan = document.site.plan;
  const points = all_points(document);
  if (plan) {
    const [x, y] = plan.north_west;
    points.push([x, y], [x + plan.columns * plan.metres_per_pixel, y - plan.rows * plan.metres_per_pixel]);
  }
  return box_of(points);
}
