// SPDX-License-Identifier: GPL-3.0-or-later
// The section on paper: distance s along the camera's axis and height z in the site, at one scale both ways.
//   Checked  test/view/section.test.ts

export type PlanePoint = readonly [number, number];
export interface SectionPerson {
  readonly distance_m: number;
  readonly ground_z_m: number;
  readonly seen: boolean;
  readonly delivered_px_per_m: { readonly low: number; readonly nominal: number; readonly high: number };
  readonly level: string | null;
  readonly limit: string | null;
}
export interface SectionAnswer {
  readonly camera?: string;
  readonly condition?: string;
  readonly from: PlanePoint;
  readonly heading_deg: number;
  readonly reach_m?: number;
  readonly ground: readonly PlanePoint[];
  readonly cuts: readonly {
    readonly name: string;
    readonly kind: string;
    readonly lines: readonly (readonly PlanePoint[])[];
  }[];
  readonly eye: PlanePoint;
  readonly upper: readonly PlanePoint[];
  readonly lower: readonly PlanePoint[];
  readonly dead_m: number | null;
  readonly sharp_m: readonly [number | null, number | null] | null;
  readonly persons: readonly SectionPerson[];
  readonly infrared: readonly (readonly [number, number])[];
}

export interface Frame {
  readonly left: number;
  readonly foot: number;
  readonly px_per_m: number;
  readonly lowest_m: number;
}

export function reach_of(section: SectionAnswer): number {
  return section.reach_m ?? section.ground.at(-1)?.[0] ?? 1;
}

/** From the lowest ground to a little over what stands highest. */
export function heights_of(section: SectionAnswer): readonly [number, number] {
  const drawn = [...section.ground, ...section.cuts.flatMap((cut) => cut.lines.flat()), section.eye];
  const heights = drawn.map((point) => point[1]);
  const people = section.persons.map((person) => person.ground_z_m + kPerson_m);
  return [Math.min(...heights), Math.max(...heights, ...people) + kHeadroom_m];
}

const kHeadroom_m = 1.2;

/** How tall the figure is that gives the eye a scale. */
export const kPerson_m = 1.75;

export interface Paper {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly above: number;
  readonly below: number;
}

export function frame_of(section: SectionAnswer, paper: Paper): Frame {
  const [lowest, highest] = heights_of(section);
  const across = (paper.width - paper.left - paper.right) / Math.max(0.1, reach_of(section));
  const up = (paper.height - paper.above - paper.below) / Math.max(0.1, highest - lowest);
  return { left: paper.left, foot: paper.height - paper.below, px_per_m: Math.min(across, up), lowest_m: lowest };
}

export function on_paper(frame: Frame, [s, z]: PlanePoint): { x: number; y: number } {
  return { x: frame.left + s * frame.px_per_m, y: frame.foot - (z - frame.lowest_m) * frame.px_per_m };
}

export function in_plane(frame: Frame, x: number, y: number): PlanePoint {
  return [(x - frame.left) / frame.px_per_m, frame.lowest_m + (frame.foot - y) / frame.px_per_m];
}

export function path(frame: Frame, line: readonly PlanePoint[], closed = false): string {
  const points = line.map((point, i) => {
    const { x, y } = on_paper(frame, point);
    return `${i === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
  });
  return points.join("") + (closed ? "Z" : "");
}

/** Tilt below the horizon that looks from the eye to a point of the plane. */
export function tilt_towards(eye: PlanePoint, to: PlanePoint): number {
  const tilt = (Math.atan2(eye[1] - to[1], Math.max(0.01, to[0] - eye[0])) * 180) / Math.PI;
  return Math.round(Math.min(90, Math.max(-90, tilt)) * 2) / 2;
}

/** A point of the camera's axis, `metres` along the ground from it. */
export function on_axis(eye: PlanePoint, tilt_deg: number, metres: number): PlanePoint {
  return [eye[0] + metres, eye[1] - metres * Math.tan((tilt_deg * Math.PI) / 180)];
}

/** Height of the mount over its ground when the eye is put at z: to the decimetre, never below the ground. */
export function height_at(section: SectionAnswer, z: number): number {
  return Math.max(0.1, Math.round((z - (section.ground[0]?.[1] ?? 0)) * 10) / 10);
}

/** The ground under the mount, as far as it is nearer than the picture's lower edge. */
export function dead_ground(section: SectionAnswer): PlanePoint[] {
  const dead = Math.min(section.dead_m ?? reach_of(section), reach_of(section));
  const kept = section.ground.filter(([s]) => s <= dead);
  const after = section.ground.find(([s]) => s > dead);
  const before = kept.at(-1);
  if (!after || !before || before[0] === dead) return kept;
  const share = (dead - before[0]) / (after[0] - before[0]);
  return [...kept, [dead, before[1] + share * (after[1] - before[1])]];
}
