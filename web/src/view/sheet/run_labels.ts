// SPDX-License-Identifier: GPL-3.0-or-later
// What is written at the cables that are drawn: beside the end where they part, one under the other where they do not.
//   Checked  test/view/run_labels.test.ts
import type { SitePoint } from "../../base/plane";
import { distance, segments } from "../../base/plane";
import { text } from "../../base/text.svelte";
import { shown_number, type Units } from "../../base/units";
import type { LaidRun } from "../../wire/answers";
import { shown_distance, three_digits } from "../figures";

/** Cables of one feed share their beginning, and mostly not what comes after. One alone has its label in the middle. */
const kAlone = 0.5;
const kOfMany = 0.65;
const kLetter_px = 6.2;
const kLine_px = 13;

/** Where the label of one of so many lines lies. */
export function label_place(points: readonly SitePoint[], lines: number): SitePoint {
  return along_line(points, lines === 1 ? kAlone : kOfMany);
}

/** The point at that share of a line's length. */
export function along_line(points: readonly SitePoint[], share: number): SitePoint {
  const pieces = segments(points, false);
  let left = share * pieces.reduce((sum, [a, b]) => sum + distance(a, b), 0);
  for (const [a, b] of pieces) {
    const length = distance(a, b);
    if (left <= length) {
      const t = length === 0 ? 0 : left / length;
      return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    }
    left -= length;
  }
  return points.at(-1) ?? [0, 0];
}

/** 41.3 to 52 m */
export function length_in_words(run: LaidRun, units: Units): string {
  const { low, high } = run.length_m;
  if (low === high) return shown_distance(high, units);
  return text("sheet.run.length", {
    low: three_digits(shown_number(low, units, "m")),
    high: shown_distance(high, units),
  });
}

/** Empty where it is within what its kind may be, or its kind has no longest length. */
export function too_long_in_words(run: LaidRun, units: Units): string {
  const { capacity_m, held } = run.reach;
  if (capacity_m === null || (held !== "missed" && held !== "marginal")) return "";
  return text(`sheet.run.${held}`, { most: shown_distance(capacity_m, units) });
}

export interface RunLabel {
  readonly name: string;
  readonly at: SitePoint;
  readonly words: string;
}

/** How far down the page each is moved so that none lies over one before it, px. */
export function apart(labels: readonly RunLabel[], px_per_m: number): number[] {
  const put: { readonly x: number; readonly y: number; readonly wide: number }[] = [];
  return labels.map(({ at, words }) => {
    const x = at[0] * px_per_m;
    const wide = words.length * kLetter_px;
    let y = -at[1] * px_per_m;
    const over = (): boolean =>
      put.some((one) => Math.abs(one.y - y) < kLine_px && Math.abs(one.x - x) < (one.wide + wide) / 2);
    let down = 0;
    for (; over(); y += kLine_px) down += kLine_px;
    put.push({ x, y, wide });
    return down;
  });
}
