// SPDX-License-Identifier: GPL-3.0-or-later
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { CardAnswer } from "../../src/view/asks";
import {
  at,
  band_path,
  claimed_distance_m,
  curve_path,
  round_beyond,
  runs,
  ticks,
  value_at,
  type CurvePoint,
} from "../../src/view/card/axes";
import { focus_words, reach_words } from "../../src/view/card/words";
import { changes_for, infrared_draw_w, sheet_of } from "../../src/view/card/what_if";
import { ticks_along } from "../../src/view/ticks";
import type { ProjectDocument } from "../../src/wire/document";

const axis = { least: 1, most: 100, from: 0, to: 200 };
const point = (distance_m: number, low: number, nominal: number, high: number): CurvePoint => ({
  distance_m,
  day: { low, nominal, high },
  night: { low: 0, nominal: 0, high: 0 },
});

describe("an axis by logarithm", () => {
  it("puts equal ratios at equal distances, both ways", () => {
    expect(at(axis, 10)).toBeCloseTo(100);
    expect(at(axis, 1)).toBe(0);
    for (const value of [1, 3, 17, 100]) expect(value_at(axis, at(axis, value))).toBeCloseTo(value);
  });
  it("has a place for nothing: its end", () => {
    expect(at(axis, 0)).toBe(0);
    expect(at(axis, 1000)).toBe(200);
  });
  it("has ticks at 1, 2 and 5 times powers of ten within its ends", () => {
    expect(ticks(3, 120)).toEqual([5, 10, 20, 50, 100]);
    expect(round_beyond(310, true)).toBe(500);
    expect(round_beyond(310, false)).toBe(200);
    expect(round_beyond(500, true)).toBe(500);
  });
});

describe("a straight axis", () => {
  it("has round ticks, not too many", () => {
    expect(ticks_along(25, 6)).toEqual([0, 5, 10, 15, 20, 25]);
    expect(ticks_along(80, 6)).toEqual([0, 20, 40, 60, 80]);
    expect(ticks_along(3, 7)).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3]);
  });
});

describe("curves", () => {
  const curve = [
    point(1, 0, 0, 0),
    point(2, 0, 10, 20),
    point(4, 5, 8, 10),
    point(8, 0, 0, 3),
    point(16, 0, 0, 0),
    point(32, 1, 2, 3),
  ];
  it("break where nothing is delivered", () => {
    expect(runs(curve, "day", "nominal").map((run) => run.map((each) => each.distance_m))).toEqual([[2, 4], [32]]);
    expect(runs(curve, "day", "high").map((run) => run.length)).toEqual([3, 1]);
    expect(curve_path(curve, "night", axis, axis)).toBe("");
  });
  it("have bands that close on themselves", () => {
    const band = band_path(curve, "day", axis, { least: 1, most: 100, from: 100, to: 0 });
    expect(band.match(/M/g)).toHaveLength(2);
    expect(band.match(/Z/g)).toHaveLength(2);
    // along the high end and back along the low one: twice as many points as the run has
    expect(band.split("Z")[0]?.match(/[ML]/g)).toHaveLength(6);
  });
});

describe("claims on the axis", () => {
  it("stand where they speak of metres", () => {
    expect(claimed_distance_m("40 m")).toBe(40);
    expect(claimed_distance_m("up to 12.5 m in the dark")).toBe(12.5);
    expect(claimed_distance_m("90 degrees")).toBeNull();
    expect(claimed_distance_m("3 mm")).toBeNull();
    expect(claimed_distance_m("5 m/s")).toBeNull();
  });
  it("are found on the golden card", () => {
    const card = JSON.parse(
      readFileSync(new URL("../../../schema/examples/answers/card_mounted.json", import.meta.url), "utf8"),
    ) as CardAnswer;
    expect(card.claims.map((claim) => claimed_distance_m(claim.stated))).toEqual([null, null, null, 40]);
    expect(reach_words(card.reach.day["perceive"], "metres")).toBe("10.3 m to 33 m");
    expect(reach_words(card.reach.night["perceive"], "metres")).toBe("not reached");
    expect(reach_words([3, null], "metres")).toBe("from 3 m on");
    expect(focus_words(card, "metres")).toBe("Focused at 12.87 m; sharp within a pixel from 8.58 m to 25.7 m.");
  });
});

describe("what if", () => {
  const document = JSON.parse(
    readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
  ) as ProjectDocument;
  const drive = document.cameras?.find((camera) => camera.name === "drive");
  it("changes the camera, and its sheet for the infrared alone", () => {
    const changes = changes_for(document, { camera: "drive" }, { focus_m: 10, infrared_draw_w: 20 });
    expect(changes.map((change) => change.at)).toEqual([
      ["cameras", "drive"],
      ["catalogue", drive?.sheet],
    ]);
    expect(changes[0]).toMatchObject({ was: drive, now: { ...drive, focus_m: 10 } });
    expect(changes[1]).toMatchObject({ was: { infrared: { draw_w: 8.2 } }, now: { infrared: { draw_w: 20 } } });
  });
  it("changes nothing when nothing is asked, or no such camera is there", () => {
    expect(changes_for(document, { camera: "drive" }, {})).toEqual([]);
    expect(changes_for(document, { camera: "none such" }, { focus_m: 10 })).toEqual([]);
  });
  it("does not ask for the power of infrared whose intensity is stated", () => {
    const sheet = sheet_of(document, { camera: "drive" });
    expect(infrared_draw_w(sheet)).toBe(8.2);
    expect(infrared_draw_w(sheet && { ...sheet, infrared: { ...sheet.infrared, intensity_w_sr: 3 } })).toBeNull();
  });
});
