// SPDX-License-Identifier: GPL-3.0-or-later
// The range card's axes: distance and delivered detail, both by logarithm, and bands between low and high.
//   Checked  test/view/axes.test.ts
import type { Range } from "../../wire/answers";

export interface Axis {
  readonly least: number;
  readonly most: number;
  readonly from: number;
  readonly to: number;
}

/** Where a value stands; below the least it stands at the end, so that 0 has a place. */
export function at(axis: Axis, value: number): number {
  const kept = Math.min(axis.most, Math.max(axis.least, value));
  const share = Math.log(kept / axis.least) / Math.log(axis.most / axis.least);
  return axis.from + share * (axis.to - axis.from);
}

export function value_at(axis: Axis, position: number): number {
  const share = (position - axis.from) / (axis.to - axis.from);
  return axis.least * (axis.most / axis.least) ** share;
}

/** 1, 2 and 5 times powers of ten between the ends. */
export function ticks(least: number, most: number): number[] {
  const found: number[] = [];
  for (let power = Math.floor(Math.log10(least)); 10 ** power <= most; ++power)
    for (const leading of [1, 2, 5]) {
      const tick = Number((leading * 10 ** power).toPrecision(6));
      if (tick >= least * 0.999 && tick <= most * 1.001) found.push(tick);
    }
  return found;
}

/** The round value (1, 2, 5 x 10^n) at or beyond a value, for the ends of an axis. */
export function round_beyond(value: number, up: boolean): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const steps = [1, 2, 5, 10].map((leading) => leading * power);
  const found = up ? steps.find((step) => step >= value * 0.9999) : steps.findLast((step) => step <= value * 1.0001);
  return Number((found ?? value).toPrecision(6));
}

export interface CurvePoint {
  readonly distance_m: number;
  readonly day: Range;
  readonly night: Range;
}

/** Stretches of the curve where something is delivered at the high end: what is drawn without a break. */
export function runs(curve: readonly CurvePoint[], time: "day" | "night", end: keyof Range): CurvePoint[][] {
  const found: CurvePoint[][] = [];
  let open = false;
  for (const point of curve) {
    const seen = point[time][end] > 0;
    if (seen && !open) found.push([]);
    if (seen) found.at(-1)?.push(point);
    open = seen;
  }
  return found;
}

function line(points: readonly CurvePoint[], x: Axis, y: Axis, value: (point: CurvePoint) => number): string {
  return points
    .map((point, i) => `${i === 0 ? "M" : "L"}${at(x, point.distance_m).toFixed(1)} ${at(y, value(point)).toFixed(1)}`)
    .join("");
}

export function curve_path(curve: readonly CurvePoint[], time: "day" | "night", x: Axis, y: Axis): string {
  return runs(curve, time, "nominal")
    .map((run) => line(run, x, y, (point) => point[time].nominal))
    .join("");
}

/** The area between low and high; where low is nothing it reaches down to the axis. */
export function band_path(curve: readonly CurvePoint[], time: "day" | "night", x: Axis, y: Axis): string {
  return runs(curve, time, "high")
    .map((run) => {
      const over = line(run, x, y, (point) => point[time].high);
      const back = line([...run].reverse(), x, y, (point) => point[time].low);
      return `${over}L${back.slice(1)}Z`;
    })
    .join("");
}

/** The metres that a claim speaks of, such as 40 in "40 m", for its mark on the axis; null when it speaks of none. */
export function claimed_distance_m(stated: string): number | null {
  const found = /(?:^|\s)(\d+(?:\.\d+)?) m(?![\w/])/.exec(stated);
  return found ? Number(found[1]) : null;
}
