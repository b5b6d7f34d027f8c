// SPDX-License-Identifier: GPL-3.0-or-later
// Where the figures of contours stand: along their lines, upright, inside the sheet, none over another nor over a name.
//   Checked  test/view/sheet.test.ts
import type { SitePoint } from "../../base/plane";
import type { Units } from "../../base/units";
import type { PagePoint } from "../../base/window";
import { density_number, shown_density } from "../figures";
import { are_over, frame_of_words, type Frame } from "./frames";

export interface ContourLabel {
  readonly at: PagePoint;
  readonly turn_deg: number;
  readonly words: string;
  readonly required: boolean;
}
interface Contour {
  readonly density_px_per_m: number;
  readonly required: boolean;
  readonly lines: readonly (readonly SitePoint[])[];
}
/** The sheet, and what is written on it already. */
export interface Written {
  readonly width: number;
  readonly height: number;
  readonly page_from_site: (p: SitePoint) => PagePoint;
  readonly units: Units;
  readonly names: readonly Frame[];
}

const kEvery_px = 300;
const kRoom_px = 46;
/** How much farther along a line room is looked for. */
const kFarther_px = 12;

export function contour_labels(contours: readonly Contour[], sheet: Written): ContourLabel[] {
  const labels: ContourLabel[] = [];
  const wanted = [...contours].sort((a, b) => Number(b.required) - Number(a.required));
  for (const contour of wanted) {
    for (const line of contour.lines) labels.push(...along(line.map(sheet.page_from_site), contour, sheet, labels));
  }
  return labels;
}

function along(
  line: readonly PagePoint[],
  contour: Contour,
  sheet: Written,
  others: readonly ContourLabel[],
): ContourLabel[] {
  const put: ContourLabel[] = [];
  let walked = 0;
  let next = Math.min(kEvery_px / 2, length(line) / 2);
  if (length(line) < 70) return put;
  line.forEach((b, i) => {
    const a = line[i - 1];
    if (!a) return;
    const step = Math.hypot(b.x - a.x, b.y - a.y);
    while (step > 0 && walked + step >= next) {
      const share = (next - walked) / step;
      const at = { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
      const label = { at, turn_deg: upright(a, b), words: words_of(contour, sheet.units), required: contour.required };
      const room = has_room(label, sheet, [...others, ...put]);
      if (room) put.push(label);
      next += room ? kEvery_px : kFarther_px;
    }
    walked += step;
  });
  return put;
}

function has_room({ at, turn_deg, words }: ContourLabel, sheet: Written, others: readonly ContourLabel[]): boolean {
  if (at.x < 12 || at.y < 8 || at.x > sheet.width - 12 || at.y > sheet.height - 8) return false;
  const frame = frame_of_words(words, at.x, at.y, turn_deg);
  return (
    others.every((other) => Math.hypot(other.at.x - at.x, other.at.y - at.y) > kRoom_px) &&
    !sheet.names.some((name) => are_over(frame, name))
  );
}

function length(line: readonly PagePoint[]): number {
  return line.reduce(
    (sum, b, i) => sum + (line[i - 1] ? Math.hypot(b.x - line[i - 1]!.x, b.y - line[i - 1]!.y) : 0),
    0,
  );
}

function upright(a: PagePoint, b: PagePoint): number {
  const degrees = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  return degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;
}

/** The unit stands with the density that is asked for. */
function words_of({ density_px_per_m, required }: Contour, units: Units): string {
  return required ? shown_density(density_px_per_m, units) : density_number(density_px_per_m, units);
}
