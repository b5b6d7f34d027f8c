// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { beside_legend, leads_from, lies_at, moved_by_key } from "../../src/view/prints/place";
import { length_of, marks_along, point_along } from "../../src/view/prints/strip";
import { clip_of, share_at, share_by_key } from "../../src/view/prints/wipe";

describe("the line between two pictures", () => {
  it("follows the pointer within the picture", () => {
    expect(share_at(150, 100, 200)).toBe(0.25);
    expect(share_at(0, 100, 200)).toBe(0);
    expect(share_at(900, 100, 200)).toBe(1);
    expect(share_at(5, 0, 0)).toBe(1);
  });
  it("moves by keys and stops at the ends", () => {
    expect(share_by_key("ArrowRight", 0.5)).toBe(0.52);
    expect(share_by_key("PageDown", 0.1)).toBe(0);
    expect(share_by_key("End", 0.3)).toBe(1);
    expect(share_by_key("x", 0.3)).toBeNull();
  });
  it("shows the upper picture from its left edge", () => {
    expect(clip_of(0.25)).toBe("inset(0 75.00% 0 0)");
    expect(clip_of(1)).toBe("inset(0 0.00% 0 0)");
  });
});

describe("where a print lies", () => {
  const sheet = { width: 1000, height: 600 };
  const print = { width: 300, height: 200 };
  const none = { x: 0, y: 0 };
  it("is beside its place, on the side where there is room", () => {
    expect(lies_at({ x: 100, y: 300 }, { x: 0, y: 0 }, print, sheet, none)).toEqual({ x: 128, y: 200 });
    expect(lies_at({ x: 900, y: 300 }, { x: 0, y: 0 }, print, sheet, none)).toEqual({ x: 572, y: 200 });
  });
  it.each([0, 160])("is on the sheet and clear of a legend of %i px, wherever it was dragged", (covered) => {
    const taken = beside_legend(covered);
    for (const x of [-500, 0, 500, 5000])
      for (const moved of [-3000, 0, 3000]) {
        const corner = lies_at({ x, y: x }, { x: moved, y: moved }, print, sheet, taken);
        expect(corner.x >= covered + 8 && (covered > 0 || corner.y >= 48 + 8)).toBe(true);
        expect(corner.x + print.width).toBeLessThanOrEqual(992);
        expect(corner.y).toBeGreaterThanOrEqual(8);
        expect(corner.y + print.height).toBeLessThanOrEqual(592);
      }
  });
  it("has its line from the nearest point of its edge", () => {
    expect(leads_from({ x: 128, y: 200 }, print, { x: 100, y: 300 })).toEqual({ x: 128, y: 300 });
    expect(leads_from({ x: 128, y: 200 }, print, { x: 200, y: 500 })).toEqual({ x: 200, y: 400 });
  });
  it("is moved by keys", () => {
    expect(moved_by_key("ArrowUp", { x: 5, y: 5 })).toEqual({ x: 5, y: -19 });
    expect(moved_by_key("q", { x: 5, y: 5 })).toBeNull();
  });
});

describe("marks along a way", () => {
  const way = [
    [0, 0],
    [0, 10],
    [6, 10],
  ] as const;
  it("are measured round its corners", () => {
    expect(length_of(way)).toBe(16);
    expect(point_along(way, 13)).toEqual([3, 10]);
    expect(point_along(way, 99)).toEqual([6, 10]);
  });
  it("begin and end with the way, at round steps, not too many", () => {
    const marks = marks_along(way, 8);
    expect(marks.map((mark) => mark.along_m)).toEqual([0, 5, 10, 16]);
    expect(marks.at(-1)?.at).toEqual([6, 10]);
    const in_feet = marks_along(way, 8, 0.3048).map((mark) => mark.along_m / 0.3048);
    expect(in_feet.slice(0, -1).map(Math.round)).toEqual([0, 10, 20, 30, 40]);
    for (const most of [3, 5, 8, 12]) expect(marks_along(way, most).length).toBeLessThanOrEqual(most + 1);
  });
});
