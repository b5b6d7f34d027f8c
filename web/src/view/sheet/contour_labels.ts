// SPDX-License-Identifier: GPL-3.0-or-later
// Where the figures of contours stand: along their lines, upright, inside the sheet, none over another.
import { number_shown } from "../../base/numbers";
import type { SitePoint } from "../../base/plane";
import type { PagePoint } from "../../base/window";

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
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly page_from_site: (p: SitePoint) => PagePoint;
}

const kEvery_px = 300;
const kRoom_px = 46;

export function contour_labels(contours: readonly Contour[], frame: Frame): ContourLabel[] {
  const labels: ContourLabel[] = [];
  const wanted = [...contours].sort((a, b) => Number(b.required) - Number(a.required));
  for (const contour of wanted) {
    for (const line of contour.lines) labels.push(...along(line.map(frame.page_from_site), contour, frame, labels));
  }
  return labels;
}

function along(
  line: readonly PagePoint[],
  contour: Contour,
  frame: Frame,
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
      const label = { at, turn_deg: upright(a, b), words: words_of(contour), required: contour.required };
      if (has_room(at, frame, [...others, ...put])) put.push(label);
      next += kEvery_px;
    }
    walked += step;
  });
  return put;
}

function has_room(at: PagePoint, frame: Frame, others: readonly ContourLabel[]): boolean {
  if (at.x < 12 || at.y < 8 || at.x > frame.width - 12 || at.y > frame.height - 8) return false;
  return others.every((other) => Math.hypot(other.at.x - at.x, other.at.y - at.y) > kRoom_px);
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

function words_of(contour: Contour): string {
  return number_shown(Number(contour.density_px_per_m.toPrecision(3)));
}
