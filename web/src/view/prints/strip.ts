// SPDX-License-Identifier: GPL-3.0-or-later
// Marks along a way, at which a strip of prints is taken.
//   Checked  test/view/wipe.test.ts
import { distance, segments, type SitePoint } from "../../base/plane";

export interface WayMark {
  readonly along_m: number;
  readonly at: SitePoint;
}

export function length_of(line: readonly SitePoint[]): number {
  return segments(line, false).reduce((sum, [a, b]) => sum + distance(a, b), 0);
}

export function point_along(line: readonly SitePoint[], along_m: number): SitePoint {
  let left = along_m;
  let end: SitePoint = line[0] ?? [0, 0];
  for (const [a, b] of segments(line, false)) {
    const length = distance(a, b);
    if (left <= length && length > 0) {
      const share = left / length;
      return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    }
    left -= length;
    end = b;
  }
  return end;
}

const kSteps = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

/** Every 0.5, 1, 2, 5 ... m (or ft), the start and the end among them, about `most` in all. */
export function marks_along(line: readonly SitePoint[], most: number, unit_m = 1): WayMark[] {
  const length = length_of(line);
  const step = kSteps.map((one) => one * unit_m).find((one) => length / one <= most - 1) ?? length;
  const found: WayMark[] = [];
  for (let along = 0; along < length - step / 4; along += step)
    found.push({ along_m: along, at: point_along(line, along) });
  found.push({ along_m: length, at: point_along(line, length) });
  return found;
}
