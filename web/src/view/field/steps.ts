// SPDX-License-Identifier: GPL-3.0-or-later
// What a person on a ladder needs of a camera: which mount, how high, which way, and how far from two things that can
// be found on the site. Lengths are those of the drawing.
//   Checked  test/view/field.test.ts
import { distance, heading_deg, type SitePoint } from "../../base/plane";
import { text } from "../../base/text.svelte";
import { members } from "../../store/changes";
import type { Building, Camera, Mount, ProjectDocument, Wall } from "../../wire/document";

export interface NamedPoint {
  readonly name: string;
  readonly at: SitePoint;
}
export interface MountStep {
  readonly camera: Camera;
  readonly mount: Mount;
  /** The two nearest things that a tape can be held to, not in one line with the mount when it can be helped. */
  readonly from: readonly { readonly name: string; readonly metres: number }[];
  readonly compass: string;
}

const kCompass = ["north", "north_east", "east", "south_east", "south", "south_west", "west", "north_west"] as const;

export function compass(heading: number): string {
  const eighth = Math.round((((heading % 360) + 360) % 360) / 45) % 8;
  return text(`views.field.compass.${kCompass[eighth] ?? "north"}`);
}

/** Corners of buildings and walls, told by the side on which they lie; lamps only where there are no two corners. */
export function named_points(document: ProjectDocument): NamedPoint[] {
  const found: NamedPoint[] = [];
  for (const solid of members(document, "site/solids"))
    if (solid.kind === "building" || solid.kind === "wall") found.push(...corners_of(solid.name, ring_of(solid)));
  if (found.length < 2)
    for (const lamp of members(document, "site/lamps")) found.push({ name: lamp.name, at: lamp.at });
  return found;
}

function ring_of(solid: Building | Wall): readonly SitePoint[] {
  return solid.kind === "building" ? solid.outline : solid.line;
}

function corners_of(name: string, ring: readonly SitePoint[]): NamedPoint[] {
  const middle: SitePoint = [mean(ring.map((p) => p[0])), mean(ring.map((p) => p[1]))];
  return ring.map((at) => ({
    name: text("views.field.corner", { side: compass(heading_deg(middle, at)), name }),
    at,
  }));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The nearest point, and the next one that is not the same and not in line with it. */
export function two_nearest(at: SitePoint, points: readonly NamedPoint[]): { name: string; metres: number }[] {
  const kTooNear_m = 0.3;
  const kInLine_deg = 20;
  const near = points
    .map((point) => ({ ...point, metres: distance(at, point.at) }))
    .filter((point) => point.metres >= kTooNear_m)
    .sort((a, b) => a.metres - b.metres);
  const first = near[0];
  if (!first) return [];
  const first_heading = heading_deg(at, first.at);
  const across = (point: NamedPoint): boolean => {
    const turn = Math.abs(heading_deg(at, point.at) - first_heading) % 180;
    return Math.min(turn, 180 - turn) > kInLine_deg;
  };
  const second = near.slice(1).find(across) ?? near[1];
  return [first, ...(second ? [second] : [])].map(({ name, metres }) => ({ name, metres }));
}

export function mount_steps(document: ProjectDocument): MountStep[] {
  const points = named_points(document);
  const mounts = members(document, "site/mounts");
  return members(document, "cameras").flatMap((camera) => {
    const mount = mounts.find((each) => each.name === camera.mount);
    if (!mount) return [];
    return [{ camera, mount, from: two_nearest(mount.at, points), compass: compass(camera.heading_deg) }];
  });
}
