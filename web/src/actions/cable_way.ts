// SPDX-License-Identifier: GPL-3.0-or-later
// A way for cables as it is drawn. The program takes none through a building that does not say so: one that lies in a
// building is taken as indoors, one that leads into or through it as a way that is there, and the page says which.
//   Checked  test/store/cables.test.ts
import type { SitePoint } from "../base/plane";
import { distance, distance_to_line, is_filled, segments } from "../base/plane";
import { members } from "../store/changes";
import type { CableWay, ProjectDocument } from "../wire/document";

const kLookEvery_m = 0.1;
const kMostLooks = 2000;
/** Along a wall a way may be drawn so far within the building (src/file/rules_carriers.cpp has the same). */
const kWithin_m = 0.3;

export interface Passed {
  readonly building: string;
  readonly flags: Pick<CableWay, "indoors" | "through_buildings">;
}

/** The first building that a line leads through; null where it keeps clear of all. */
export function passed(document: ProjectDocument, line: readonly SitePoint[]): Passed | null {
  for (const solid of members(document, "site/solids")) {
    if (solid.kind !== "building") continue;
    const holes = solid.holes ?? [];
    const rings = [solid.outline, ...holes];
    const inside = (p: SitePoint): boolean => is_filled(p, solid.outline, holes);
    const on_wall = (p: SitePoint): boolean => rings.some((ring) => distance_to_line(p, ring, true) <= kWithin_m);
    const looks = points_along(line);
    if (!looks.some((p) => inside(p) && !on_wall(p))) continue;
    const within = looks.every((p) => inside(p) || on_wall(p));
    return { building: solid.name, flags: within ? { indoors: true } : { through_buildings: true } };
  }
  return null;
}

function points_along(line: readonly SitePoint[]): SitePoint[] {
  return segments(line, false).flatMap(([a, b]) => {
    const steps = Math.min(kMostLooks, Math.max(1, Math.ceil(distance(a, b) / kLookEvery_m)));
    return Array.from({ length: steps + 1 }, (_, i): SitePoint => {
      const share = i / steps;
      return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    });
  });
}
