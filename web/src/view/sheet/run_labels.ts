// SPDX-License-Identifier: GPL-3.0-or-later
// What is written at the cables that are drawn, beside their lines and clear of one another where there is room.
//   Checked  test/view/run_labels.test.ts
import type { SitePoint } from "../../base/plane";
import { distance, segments } from "../../base/plane";
import { text } from "../../base/text.svelte";
import { shown_number, type Units } from "../../base/units";
import type { LaidRun } from "../../wire/answers";
import { shown_distance, three_digits } from "../figures";
import { are_over, kLetter_px, kLine_px, type Frame } from "./frames";

/** Where along its line a label is tried: in the middle; cables of one feed share their beginning, mostly not their end. */
const kAlone = [0.5, 0.35, 0.65, 0.2, 0.8];
const kOfMany = [0.65, 0.5, 0.8, 0.35, 0.2];
/** Between a line and the words beside it. */
const kGap_px = 4;
/** Half the side of what stands at a line's end: a feed, a camera. */
const kEnd_px = 11;

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
  readonly words: string;
  readonly line: readonly SitePoint[];
}
/** A point of its line, and how far from there on the page the middle of its words lies. */
export interface Placed {
  readonly at: SitePoint;
  readonly right: number;
  readonly down: number;
}
/**
 * Beside its line, on the side and at the share of it where the fewest lines, ends and words before it are covered.
 * `others`: what else is written, from where the site's origin is on the page.
 */
export function beside_lines(labels: readonly RunLabel[], px_per_m: number, others: readonly Frame[] = []): Placed[] {
  const on_page = ([x, y]: SitePoint): SitePoint => [x * px_per_m, -y * px_per_m];
  const lines = labels.map(({ line }) => line.map(on_page));
  const pieces = lines.flatMap((line) => segments(line, false));
  const taken: Frame[] = [...others, ...lines.flatMap(ends_of)];
  return labels.map(({ words }, i) => {
    const tried = places_of(lines[i] ?? [], words.length * kLetter_px, labels.length === 1 ? kAlone : kOfMany);
    const covered = ({ frame }: Tried): number =>
      pieces.filter((piece) => is_crossed(frame, piece)).length +
      2 * taken.filter((other) => are_over(frame, other)).length;
    const best = tried.reduce((a, b) => (covered(b) < covered(a) ? b : a));
    taken.push(best.frame);
    const { frame, on } = best;
    return { at: [on[0] / px_per_m, -on[1] / px_per_m], right: frame.x - on[0], down: frame.y - on[1] };
  });
}

interface Tried {
  readonly on: SitePoint;
  readonly frame: Frame;
}

/** Over the line first, and to its right where it stands upright. */
function places_of(line: readonly SitePoint[], wide: number, shares: readonly number[]): [Tried, ...Tried[]] {
  const [half_wide, half_high] = [wide / 2, kLine_px / 2];
  const place = (share: number, side: number): Tried => {
    const on = along_line(line, share);
    const [nx, ny] = normal_at(line, share);
    const away = side * (Math.abs(nx) * half_wide + Math.abs(ny) * half_high + kGap_px);
    return { on, frame: { x: on[0] + nx * away, y: on[1] + ny * away, half_wide, half_high } };
  };
  const [first = 0.5, ...others] = shares;
  return [place(first, 1), place(first, -1), ...others.flatMap((share) => [place(share, 1), place(share, -1)])];
}

/** Square to the line there, upwards on the page. */
function normal_at(line: readonly SitePoint[], share: number): SitePoint {
  const before = along_line(line, Math.max(0, share - 0.01));
  const after = along_line(line, Math.min(1, share + 0.01));
  const long = distance(before, after);
  if (long === 0) return [0, -1];
  const [nx, ny]: SitePoint = [(after[1] - before[1]) / long, (before[0] - after[0]) / long];
  const up = ny < -1e-6 || (Math.abs(ny) <= 1e-6 && nx > 0);
  return up ? [nx, ny] : [-nx, -ny];
}

function ends_of(line: readonly SitePoint[]): Frame[] {
  const ends = [line[0], line.at(-1)].filter((end) => end !== undefined);
  return ends.map(([x, y]) => ({ x, y, half_wide: kEnd_px, half_high: kEnd_px }));
}

/** Whether a straight piece runs through it: what is left of the piece between its sides (after Liang and Barsky). */
function is_crossed({ x, y, half_wide, half_high }: Frame, [a, b]: readonly [SitePoint, SitePoint]): boolean {
  let [from, to] = [0, 1];
  for (const [start, step, low, high] of [
    [a[0], b[0] - a[0], x - half_wide, x + half_wide],
    [a[1], b[1] - a[1], y - half_high, y + half_high],
  ] as const) {
    if (step === 0 && (start <= low || start >= high)) return false;
    if (step === 0) continue;
    const ends = [(low - start) / step, (high - start) / step];
    from = Math.max(from, Math.min(...ends));
    to = Math.min(to, Math.max(...ends));
  }
  return from < to;
}
