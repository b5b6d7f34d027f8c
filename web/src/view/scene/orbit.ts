// SPDX-License-Identifier: GPL-3.0-or-later
// The eye of the scene on a sphere about what it looks at; turned by mouse, touch or keys. z is up.
//   Checked  test/view/orbit.test.ts

export interface Orbit {
  readonly target: readonly [number, number, number];
  readonly distance: number;
  /** Heading that the eye looks to, clockwise from north, and how far it looks down; degrees. */
  readonly heading: number;
  readonly down: number;
}

const kNearest = 1.5;
const kFarthest = 2000;

export function eye_of(orbit: Orbit): [number, number, number] {
  const heading = (orbit.heading * Math.PI) / 180;
  const down = (orbit.down * Math.PI) / 180;
  const level = orbit.distance * Math.cos(down);
  const [x, y, z] = orbit.target;
  return [x - level * Math.sin(heading), y - level * Math.cos(heading), z + orbit.distance * Math.sin(down)];
}

export function turned(orbit: Orbit, by_heading: number, by_down: number): Orbit {
  const down = Math.min(89, Math.max(-20, orbit.down + by_down));
  return { ...orbit, heading: (((orbit.heading + by_heading) % 360) + 360) % 360, down };
}

export function nearer(orbit: Orbit, factor: number): Orbit {
  return { ...orbit, distance: Math.min(kFarthest, Math.max(kNearest, orbit.distance * factor)) };
}

/** What it looks at, moved over the ground as far as the page was dragged. */
export function shifted(orbit: Orbit, right_px: number, up_px: number, height_px: number): Orbit {
  const scale = orbit.distance / Math.max(1, height_px);
  const heading = (orbit.heading * Math.PI) / 180;
  const right = -right_px * scale;
  const ahead = up_px * scale;
  const [x, y, z] = orbit.target;
  return {
    ...orbit,
    target: [
      x + right * Math.cos(heading) + ahead * Math.sin(heading),
      y - right * Math.sin(heading) + ahead * Math.cos(heading),
      z,
    ],
  };
}

export function by_key(key: string, orbit: Orbit): Orbit | null {
  const acts: Record<string, () => Orbit> = {
    ArrowLeft: () => turned(orbit, -10, 0),
    ArrowRight: () => turned(orbit, 10, 0),
    ArrowUp: () => turned(orbit, 0, 5),
    ArrowDown: () => turned(orbit, 0, -5),
    "+": () => nearer(orbit, 0.8),
    "-": () => nearer(orbit, 1.25),
  };
  return acts[key]?.() ?? null;
}

/** A view of a place and of the camera that sees it, from above and aside: neither hides the other. */
export function beside(eye: readonly number[], place: readonly [number, number, number]): Orbit {
  const [dx, dy] = [place[0] - (eye[0] ?? 0), place[1] - (eye[1] ?? 0)];
  const heading = ((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360;
  const apart = Math.hypot(dx, dy);
  const kTowardsCamera = 0.5;
  const target = [place[0] - kTowardsCamera * dx, place[1] - kTowardsCamera * dy, place[2]] as const;
  return { target, distance: Math.max(20, apart * 1.3), heading: (heading + 50) % 360, down: 30 };
}

/** A point of the plan, `metres` ahead of a camera: along the sum of its picture's corners. */
export function ahead_of(
  eye: readonly number[],
  corners: readonly (readonly number[])[],
  metres: number,
): [number, number] {
  const dx = corners.reduce((sum, corner) => sum + (corner[0] ?? 0), 0);
  const dy = corners.reduce((sum, corner) => sum + (corner[1] ?? 0), 0);
  const length = Math.hypot(dx, dy) || 1;
  return [(eye[0] ?? 0) + (dx / length) * metres, (eye[1] ?? 0) + (dy / length) * metres];
}
