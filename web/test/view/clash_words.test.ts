// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import type { SitePoint } from "../../src/base/plane";
import { area_of } from "../../src/base/plane";
import { apart_in_words, place_in_words, solid_in_words } from "../../src/view/start/clash_words";
import type { Building, Solid } from "../../src/wire/document";

const square = (from: number, to: number): SitePoint[] => [
  [from, 0],
  [to, 0],
  [to, to - from],
  [from, to - from],
];
const house: Building = { kind: "building", name: "a", outline: square(0, 10), height_m: 7.5 };

describe("what stands and what comes", () => {
  it("is told by kind, height, area and corners", () => {
    expect(area_of([...square(0, 10)].reverse())).toBe(100);
    expect(solid_in_words(house, "metres")).toBe("building, 7.5 m high, 100 m², 4 corners");
    const holed: Building = {
      ...house,
      holes: [square(2, 4)],
      openings: [{ edge: 0, from_m: 1, width_m: 1, sill_m: 0, height_m: 2 }],
    };
    expect(solid_in_words(holed, "metres")).toBe("building, 7.5 m high, 96 m², 4 corners, holes: 1, openings: 1");
    // 100 m2 are 1076.4 square feet, the foot being 0.3048 m exactly (1959).
    expect(solid_in_words(house, "feet")).toBe("building, 24.6 ft high, 1076 ft², 4 corners");
    const wall: Solid = { kind: "wall", name: "w", line: square(0, 4), height_m: 2 };
    expect(solid_in_words(wall, "metres")).toBe("wall, 2 m high");
  });
  it("and how far apart, so that one sees whether it is the same house", () => {
    expect(apart_in_words(house, { ...house, outline: square(0, 10) }, "metres")).toBe(
      "The two lie in the same place.",
    );
    expect(apart_in_words(house, { ...house, outline: square(30, 40) }, "metres")).toBe(
      "Their middles are 30 m apart.",
    );
    expect(apart_in_words(house, { kind: "vehicle", name: "v", at: [0, 0] }, "metres")).toBe("");
  });
  it("and where on the earth", () => {
    expect(place_in_words({ latitude_deg: 53.5, longitude_deg: -2.1234567 })).toBe("latitude 53.5, longitude -2.12346");
  });
});
