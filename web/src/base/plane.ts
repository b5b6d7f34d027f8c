// SPDX-License-Identifier: GPL-3.0-or-later
// Points on the plan. x runs east and y north, in metres; headings are degrees clockwise from north, as in the document.
// This is the geometry of drawing alone: nothing here says what a camera sees.

export type SitePoint = readonly [number, number];
export interface Box {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

export function distance(a: SitePoint, b: SitePoint): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

export function moved(p: SitePoint, by: SitePoint): SitePoint {
  return [p[0] + by[0], p[1] + by[1]];
}

export function between(a: SitePoint, b: SitePoint): SitePoint {
  return [b[0] - a[0], b[1] - a[1]];
}

export function middle(a: SitePoint, b: SitePoint): SitePoint {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Heading from a to b, 0 up to but not 360. */
export function heading_deg(a: SitePoint, b: SitePoint): number {
  const heading = (Math.atan2(b[0] - a[0], b[1] - a[1]) * 180) / Math.PI;
  return (heading + 360) % 360;
}

export function along_heading(from: SitePoint, heading: number, metres: number): SitePoint {
  const angle = (heading * Math.PI) / 180;
  return [from[0] + Math.sin(angle) * metres, from[1] + Math.cos(angle) * metres];
}

/** p turned clockwise about `centre`. */
export function turned(p: SitePoint, centre: SitePoint, degrees: number): SitePoint {
  const angle = (degrees * Math.PI) / 180;
  const [x, y] = between(centre, p);
  return [centre[0] + x * Math.cos(angle) + y * Math.sin(angle), centre[1] - x * Math.sin(angle) + y * Math.cos(angle)];
}

export function nearest_on_segment(p: SitePoint, a: SitePoint, b: SitePoint): SitePoint {
  const [dx, dy] = between(a, b);
  const length_squared = dx * dx + dy * dy;
  if (length_squared === 0) return a;
  const share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length_squared;
  const t = Math.min(1, Math.max(0, share));
  return [a[0] + t * dx, a[1] + t * dy];
}

export function segments(points: readonly SitePoint[], closed: boolean): [SitePoint, SitePoint][] {
  const pairs: [SitePoint, SitePoint][] = [];
  points.forEach((point, i) => {
    const next = points[i + 1] ?? (closed ? points[0] : undefined);
    if (next) pairs.push([point, next]);
  });
  return pairs;
}

export function distance_to_line(p: SitePoint, points: readonly SitePoint[], closed: boolean): number {
  let least = points[0] ? distance(p, points[0]) : Infinity;
  for (const [a, b] of segments(points, closed)) least = Math.min(least, distance(p, nearest_on_segment(p, a, b)));
  return least;
}

export function is_inside(p: SitePoint, outline: readonly SitePoint[]): boolean {
  let inside = false;
  for (const [a, b] of segments(outline, true)) {
    const level = a[1] > p[1] !== b[1] > p[1];
    if (level && p[0] < a[0] + ((p[1] - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}

/** In an outline and in none of its holes. */
export function is_filled(
  p: SitePoint,
  outline: readonly SitePoint[],
  holes: readonly (readonly SitePoint[])[],
): boolean {
  return is_inside(p, outline) && !holes.some((hole) => is_inside(p, hole));
}

function side_of(p: SitePoint, a: SitePoint, b: SitePoint): number {
  return Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
}

/** Whether the way from p to q leads over that from a to b; what only touches it does not. */
export function crosses(p: SitePoint, q: SitePoint, a: SitePoint, b: SitePoint): boolean {
  return side_of(p, a, b) * side_of(q, a, b) < 0 && side_of(a, p, q) * side_of(b, p, q) < 0;
}

export function box_of(points: readonly SitePoint[]): Box | null {
  if (points.length === 0) return null;
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return {
    west: xs.reduce((a, b) => Math.min(a, b)),
    south: ys.reduce((a, b) => Math.min(a, b)),
    east: xs.reduce((a, b) => Math.max(a, b)),
    north: ys.reduce((a, b) => Math.max(a, b)),
  };
}

/** Of an outline that does not cross itself. */
export function area_of(outline: readonly SitePoint[]): number {
  const twice = segments(outline, true).reduce((sum, [a, b]) => sum + a[0] * b[1] - b[0] * a[1], 0);
  return Math.abs(twice) / 2;
}

export function centre_of(box: Box): SitePoint {
  return [(box.west + box.east) / 2, (box.south + box.north) / 2];
}

const kRoomSteps = 24;

/**
 * Where in an outline, and in none of its holes, there is most room for something `wide` times as wide as it is high: the
 * middle of its box where that has the room, else the best of a grid over it, nearest the middle.
 */
export function roomiest(outline: readonly SitePoint[], holes: readonly (readonly SitePoint[])[], wide = 1): SitePoint {
  const box = box_of(outline);
  if (!box) return [0, 0];
  const squeezed = ([x, y]: SitePoint): SitePoint => [x / wide, y];
  const rings = [outline, ...holes].map((ring) => ring.map(squeezed));
  const room = (p: SitePoint): number =>
    is_filled(p, outline, holes) ? Math.min(...rings.map((ring) => distance_to_line(squeezed(p), ring, true))) : -1;
  const centre = centre_of(box);
  const [across, along] = [box.east - box.west, box.north - box.south];
  if (room(centre) >= 0.45 * Math.min(across / wide, along)) return centre;
  const worth = (p: SitePoint): number => room(p) - 1e-3 * distance(p, centre);
  let best = { at: centre, worth: worth(centre) };
  for (let i = 1; i < kRoomSteps; i++) {
    for (let j = 1; j < kRoomSteps; j++) {
      const at: SitePoint = [box.west + (across * i) / kRoomSteps, box.south + (along * j) / kRoomSteps];
      const here = worth(at);
      if (here > best.worth) best = { at, worth: here };
    }
  }
  return best.at;
}

/** Corners of a rectangle that lies along a heading, as boxes and vehicles are told. */
export function rectangle(at: SitePoint, heading: number, across_m: number, along_m: number): SitePoint[] {
  const corners: SitePoint[] = [
    [at[0] - across_m / 2, at[1] - along_m / 2],
    [at[0] + across_m / 2, at[1] - along_m / 2],
    [at[0] + across_m / 2, at[1] + along_m / 2],
    [at[0] - across_m / 2, at[1] + along_m / 2],
  ];
  return corners.map((corner) => turned(corner, at, heading));
}

/** Rounded to a whole number of steps: what is kept in the document should be readable. */
export function rounded(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(6));
}

export function rounded_point(p: SitePoint, step: number): SitePoint {
  return [rounded(p[0], step), rounded(p[1], step)];
}
