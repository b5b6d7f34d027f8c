// SPDX-License-Identifier: GPL-3.0-or-later
// What can be drawn: for each tool the form that the hand gives it and the object that comes of it. Sizes that nobody has
// given yet are common practice, no published source; the form beside the drawing asks for the real ones.
import { distance, heading_deg, rounded } from "../base/plane";
import type { SitePoint } from "../base/plane";
import { rounded_point } from "../base/plane";
import { schema_words, text } from "../base/text.svelte";
import type { Change } from "../wire/answers";
import type { Camera, ListTypes, Mount, ProjectDocument } from "../wire/document";
import type { Ref } from "../store/changes";
import { free_name, member, members, path_of, put_in } from "../store/changes";
import { untold_way } from "../store/drawn_way";
import { stocked } from "../store/stock.svelte";
import type { DrawnList } from "../store/shapes";
import { cut_hole } from "./hole";

/** aimed: a place and a second point that it looks to. */
export type ToolForm = "outline" | "line" | "spot" | "aimed";
export interface Made {
  readonly changes: readonly Change[];
  readonly ref: Ref | null;
  /** For the history, where it is no new object. */
  readonly words?: string;
  /** A way for cables, of which the program is asked. */
  readonly draws_way?: true;
}
export interface Tool {
  readonly name: string;
  readonly key: string;
  readonly form: ToolForm;
  readonly on_wall?: boolean;
  readonly make: (document: ProjectDocument, points: readonly SitePoint[]) => Made | null;
}

type List = Exclude<DrawnList, "cameras" | "site/runs">;
const spot = (points: readonly SitePoint[]): SitePoint => points[0] ?? [0, 0];
const aim = (points: readonly SitePoint[]): number => {
  const [from, to] = points;
  return from && to ? rounded(heading_deg(from, to), 0.5) % 360 : 0;
};

type Unnamed<Object> = Object extends unknown ? Omit<Object, "name"> : never;

function named<L extends List>(document: ProjectDocument, list: L, tool: string, object: Unnamed<ListTypes[L]>): Made {
  return called(document, list, text(`tools.${tool}.called`), object);
}

function called<L extends List>(
  document: ProjectDocument,
  list: L,
  wanted: string,
  object: Unnamed<ListTypes[L]>,
): Made {
  const name = free_name(document, list, wanted);
  const { kind, ...rest } = { kind: undefined, ...object };
  const now = { ...(kind && { kind }), name, ...rest } as unknown as ListTypes[L];
  return { changes: [put_in(list, now)], ref: { list, name } };
}

function oblong(points: readonly SitePoint[]): {
  at: SitePoint;
  heading_deg: number;
  across_m: number;
  along_m: number;
} {
  const [a = [0, 0], b = a, , d = b] = points;
  const opposite = points[2] ?? b;
  const at: SitePoint = [rounded((a[0] + opposite[0]) / 2, 0.01), rounded((a[1] + opposite[1]) / 2, 0.01)];
  const size = (m: number): number => Math.max(0.1, rounded(m, 0.01));
  return {
    at,
    heading_deg: rounded(heading_deg(a, d), 0.5) % 180,
    across_m: size(distance(a, b)),
    along_m: size(distance(a, d)),
  };
}

export const kTools: readonly Tool[] = [
  {
    name: "building",
    key: "b",
    form: "outline",
    make: (document, outline) => named(document, "site/solids", "building", { kind: "building", outline, height_m: 4 }),
  },
  {
    name: "wall",
    key: "w",
    form: "line",
    make: (document, line) =>
      named(document, "site/solids", "wall", { kind: "wall", line, height_m: 2, thickness_m: 0.25 }),
  },
  {
    name: "roof",
    key: "Shift+b",
    form: "outline",
    make: (document, outline) => named(document, "site/solids", "roof", { kind: "roof", outline, height_m: 3 }),
  },
  { name: "hole", key: "Shift+u", form: "outline", make: cut_hole },
  {
    name: "box",
    key: "x",
    form: "outline",
    make: (document, points) => named(document, "site/solids", "box", { kind: "box", ...oblong(points), height_m: 1 }),
  },
  {
    name: "vehicle",
    key: "v",
    form: "aimed",
    make: (document, points) =>
      named(document, "site/solids", "vehicle", { kind: "vehicle", at: spot(points), heading_deg: aim(points) }),
  },
  {
    name: "fence",
    key: "f",
    form: "line",
    make: (document, line) => named(document, "site/veils", "fence", { kind: "mesh", line, height_m: 2, passes: 0.75 }),
  },
  {
    name: "railing",
    key: "Shift+f",
    form: "line",
    make: (document, line) =>
      named(document, "site/veils", "railing", { kind: "railing", line, height_m: 1.5, passes: 0.7 }),
  },
  {
    name: "hedge",
    key: "h",
    form: "line",
    make: (document, line) =>
      named(document, "site/veils", "hedge", { kind: "hedge", line, height_m: 1.8, summer: 0.03, winter: 0.5 }),
  },
  {
    name: "tree",
    key: "t",
    form: "spot",
    make: (document, points) =>
      named(document, "site/veils", "tree", {
        kind: "tree",
        at: spot(points),
        crown_radius_m: 2.5,
        crown_base_m: 2,
        height_m: 7,
        summer: 0.1,
        winter: 0.65,
      }),
  },
  {
    name: "lamp",
    key: "l",
    form: "aimed",
    on_wall: true,
    make: (document, points) =>
      named(document, "site/lamps", "lamp", {
        at: spot(points),
        height_m: 4,
        heading_deg: aim(points),
        tilt_deg: 60,
        lumens: 3000,
      }),
  },
  { name: "camera", key: "c", form: "aimed", on_wall: true, make: camera },
  {
    name: "mount",
    key: "m",
    form: "spot",
    on_wall: true,
    make: (document, points) => named(document, "site/mounts", "mount", { at: spot(points), height_m: 3 }),
  },
  {
    name: "route",
    key: "r",
    form: "line",
    make: (document, line) =>
      named(document, "site/places", "route", { kind: "route", line, width_m: 1.2, speed_m_s: 1.4 }),
  },
  {
    name: "zone",
    key: "z",
    form: "outline",
    make: (document, outline) => named(document, "site/places", "zone", { kind: "zone", outline }),
  },
  {
    name: "line",
    key: "Shift+l",
    form: "line",
    make: (document, line) => named(document, "site/places", "line", { kind: "line", line }),
  },
  {
    name: "window",
    key: "n",
    form: "aimed",
    on_wall: true,
    make: (document, points) =>
      named(document, "site/neighbours", "window", { at: spot(points), height_m: 1.5, facing_deg: aim(points) }),
  },
  {
    name: "feed",
    key: "q",
    form: "spot",
    make: (document, points) =>
      called(document, "site/feeds", schema_words("words", "switch") ?? "switch", {
        kind: "switch",
        at: spot(points),
        ports: 8,
        powered: 8,
      }),
  },
  {
    name: "cable_way",
    key: "Shift+c",
    form: "line",
    make: (document, line) => ({
      ...named(document, "site/ways", "cable_way", untold_way(line)),
      draws_way: true,
    }),
  },
  {
    name: "boundary",
    key: "Shift+o",
    form: "outline",
    make: (document, now) => ({
      changes: [{ at: ["site", "boundary"], was: document.site.boundary ?? null, now }],
      ref: { list: "site/boundary", name: text("tools.boundary.called") },
    }),
  },
];

export function tool_named(name: string | null): Tool | null {
  return kTools.find((tool) => tool.name === name) ?? null;
}

export function least_points(form: ToolForm): number {
  return form === "outline" ? 3 : form === "spot" ? 1 : 2;
}

/** Aimed where the second point is: the tilt leads the middle of the picture to a metre above the ground there. */
function camera(document: ProjectDocument, points: readonly SitePoint[]): Made | null {
  const sheet = usual_sheet(document);
  const [at, to] = points;
  if (!sheet || !at || !to) return null;
  const there = members(document, "site/mounts").find((mount) => distance(mount.at, at) < 0.02);
  const mount: Mount = there ?? {
    name: free_name(document, "site/mounts", text("tools.mount.called")),
    at: rounded_point(at, 0.01),
    height_m: 3,
  };
  const tilt_deg = Math.round((Math.atan2(mount.height_m - 1, Math.max(1, distance(at, to))) * 180) / Math.PI);
  const name = free_name(document, "cameras", text("tools.camera.called"));
  const now: Camera = { name, sheet: sheet.name, mount: mount.name, heading_deg: aim(points), tilt_deg };
  const ref: Ref = { list: "cameras", name };
  const own = member(document, { list: "catalogue", name: sheet.name });
  return {
    changes: [
      ...(there ? [] : [put_in("site/mounts", mount)]),
      ...(own ? [] : [put_in("catalogue", sheet)]),
      { at: path_of(ref), was: null, now },
    ],
    ref,
  };
}

/** The one that was used last, else the first there is. */
function usual_sheet(document: ProjectDocument): ListTypes["catalogue"] | null {
  const last = members(document, "cameras").at(-1)?.sheet;
  return stocked.sheets.find((sheet) => sheet.name === last) ?? stocked.sheets[0] ?? null;
}
