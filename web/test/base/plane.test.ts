import { describe, expect, it } from "vitest";
import {
  along_heading,
  heading_deg,
  is_inside,
  nearest_on_segment,
  rectangle,
  roomiest,
  rounded,
  turned,
} from "../../src/base/plane";
import { fitted, page_from_site, panned, round_below, site_from_page, zoomed } from "../../src/base/window";

describe("headings", () => {
  it("run clockwise from north", () => {
    expect(heading_deg([0, 0], [0, 1])).toBe(0);
    expect(heading_deg([0, 0], [1, 0])).toBe(90);
    expect(heading_deg([0, 0], [-1, 0])).toBe(270);
  });
  it("lead back to the point they were taken to", () => {
    for (let heading = 0; heading < 360; heading += 17) {
      expect(heading_deg([3, 4], along_heading([3, 4], heading, 12))).toBeCloseTo(heading, 9);
    }
  });
  it("turn clockwise", () => {
    const [x, y] = turned([0, 1], [0, 0], 90);
    expect(x).toBeCloseTo(1, 12);
    expect(y).toBeCloseTo(0, 12);
  });
});

describe("a plan's figures", () => {
  it("a point is inside an outline or not, concave ones too", () => {
    const angle: [number, number][] = [
      [0, 0],
      [4, 0],
      [4, 1],
      [1, 1],
      [1, 4],
      [0, 4],
    ];
    expect(is_inside([0.5, 3], angle)).toBe(true);
    expect(is_inside([3, 3], angle)).toBe(false);
  });
  it("the nearest point of a segment is an end beyond it", () => {
    expect(nearest_on_segment([9, 9], [0, 0], [4, 0])).toEqual([4, 0]);
    expect(nearest_on_segment([2, 9], [0, 0], [4, 0])).toEqual([2, 0]);
  });
  it("a rectangle keeps its sizes when it is turned", () => {
    const [a, b, c] = rectangle([5, 5], 33, 2, 6);
    expect(Math.hypot(a![0] - b![0], a![1] - b![1])).toBeCloseTo(2, 9);
    expect(Math.hypot(b![0] - c![0], b![1] - c![1])).toBeCloseTo(6, 9);
  });
  it("rounding leaves no dust of binary fractions", () => {
    expect(rounded(0.1 + 0.2, 0.01)).toBe(0.3);
  });
});

describe("the sheet's window", () => {
  const window = { centre: [10, 20] as const, px_per_m: 8, width: 800, height: 600 };
  it("page and site are each other's inverse", () => {
    const there = page_from_site(window, [12.5, -3]);
    const back = site_from_page(window, there);
    expect(back[0]).toBeCloseTo(12.5, 9);
    expect(back[1]).toBeCloseTo(-3, 9);
  });
  it("north is up", () => {
    expect(page_from_site(window, [10, 21]).y).toBeLessThan(page_from_site(window, [10, 20]).y);
  });
  it("zooming keeps the point under the hand", () => {
    const about = { x: 123, y: 456 };
    const before = site_from_page(window, about);
    const after = site_from_page(zoomed(window, 3.7, about), about);
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
  });
  it("panning moves the sheet with the hand", () => {
    const before = page_from_site(window, [0, 0]);
    const after = page_from_site(panned(window, 30, -7), [0, 0]);
    expect(after.x - before.x).toBeCloseTo(30, 9);
    expect(after.y - before.y).toBeCloseTo(-7, 9);
  });
  it("a fitted box is wholly on the page", () => {
    const box = { west: -40, south: 3, east: 260, north: 90 };
    const corner = page_from_site(fitted(window, box, 40), [box.west, box.north]);
    expect(corner.x).toBeGreaterThanOrEqual(40 - 1e-9);
    expect(corner.y).toBeGreaterThanOrEqual(40 - 1e-9);
  });
  it("scale bars have round lengths", () => {
    expect([0.37, 3.9, 7, 26, 199].map(round_below).map((m) => Number(m.toPrecision(3)))).toEqual([0.2, 2, 5, 20, 100]);
  });
});

describe("where there is most room in an outline", () => {
  const square = (from: number, to: number): [number, number][] => [
    [from, from],
    [to, from],
    [to, to],
    [from, to],
  ];
  it("is its middle where that is filled", () => {
    expect(roomiest(square(0, 10), [])).toEqual([5, 5]);
    expect(roomiest(square(0, 10), [square(0.5, 1)])).toEqual([5, 5]);
  });
  it("is in no hole, and halfway between the hole and the wall", () => {
    const [x, y] = roomiest(square(0, 24), [square(6, 18)], 4);
    expect(x > 6 && x < 18).toBe(true);
    expect(Math.min(y, 24 - y)).toBeCloseTo(3);
  });
  it("is within an outline that bends round the middle of its box", () => {
    const bent: [number, number][] = [
      [0, 0],
      [20, 0],
      [20, 4],
      [4, 4],
      [4, 20],
      [0, 20],
    ];
    const [x, y] = roomiest(bent, [], 4);
    expect([is_inside([x, y], bent), y > 1 && y < 3]).toEqual([true, true]);
  });
});
