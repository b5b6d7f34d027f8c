// SPDX-License-Identifier: GPL-3.0-or-later
// Where a print lies: beside the place that it is of, inside the sheet and clear of its legend, moved as far as it was
// dragged.
//   Checked  test/view/wipe.test.ts
import type { PagePoint } from "../../base/window";

interface Size {
  readonly width: number;
  readonly height: number;
}
const kBeside_px = 28;
const kEdge_px = 8;
const kFolded_px = 48;

/** What of the sheet the legend has on its left, or above where it is folded. */
export function beside_legend(covered: number): PagePoint {
  return covered > 0 ? { x: covered, y: 0 } : { x: 0, y: kFolded_px };
}

/** `taken`: at the sheet's left and upper edge, by its legend. */
export function lies_at(place: PagePoint, moved: PagePoint, print: Size, sheet: Size, taken: PagePoint): PagePoint {
  const right = place.x + kBeside_px;
  const fits_right = right + print.width <= sheet.width - kEdge_px;
  const x = (fits_right ? right : place.x - kBeside_px - print.width) + moved.x;
  const y = place.y - print.height / 2 + moved.y;
  return { x: within(x, print.width, taken.x, sheet.width), y: within(y, print.height, taken.y, sheet.height) };
}

function within(start: number, size: number, taken: number, all: number): number {
  return Math.max(taken + kEdge_px, Math.min(all - size - kEdge_px, start));
}

/** The point of the print's edge from which a line leads to its place. */
export function leads_from(corner: PagePoint, print: Size, place: PagePoint): PagePoint {
  return {
    x: Math.min(corner.x + print.width, Math.max(corner.x, place.x)),
    y: Math.min(corner.y + print.height, Math.max(corner.y, place.y)),
  };
}

export function moved_by_key(key: string, moved: PagePoint): PagePoint | null {
  const kStep_px = 24;
  const steps: Record<string, PagePoint> = {
    ArrowLeft: { x: -kStep_px, y: 0 },
    ArrowRight: { x: kStep_px, y: 0 },
    ArrowUp: { x: 0, y: -kStep_px },
    ArrowDown: { x: 0, y: kStep_px },
  };
  const step = steps[key];
  return step ? { x: moved.x + step.x, y: moved.y + step.y } : null;
}
