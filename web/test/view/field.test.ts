// SPDX-License-Identifier: GPL-3.0-or-later
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { as_lines, readings_in } from "../../src/view/field/kept.svelte";
import { compass, mount_steps, named_points, two_nearest } from "../../src/view/field/steps";
import type { ProjectDocument } from "../../src/wire/document";

const demo = JSON.parse(
  readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
) as ProjectDocument;

describe("steps on the ladder", () => {
  it("name corners by the side on which they lie", () => {
    const shop = named_points(demo).filter((point) => point.name.endsWith("of shop"));
    expect(shop).toEqual([
      { name: "south-west corner of shop", at: [44, 18] },
      { name: "south-east corner of shop", at: [60, 18] },
      { name: "north-east corner of shop", at: [60, 28] },
      { name: "north-west corner of shop", at: [44, 28] },
    ]);
  });
  it("give two distances that fix the mount: not in one line with it", () => {
    const points = [
      { name: "a", at: [0, 3] },
      { name: "in line", at: [0, 5] },
      { name: "across", at: [6, 0] },
    ] as const;
    expect(two_nearest([0, 0], points)).toEqual([
      { name: "a", metres: 3 },
      { name: "across", metres: 6 },
    ]);
    expect(two_nearest([0, 0], points.slice(0, 2)).map((point) => point.name)).toEqual(["a", "in line"]);
    expect(two_nearest([0, 0], [])).toEqual([]);
  });
  it("are there for each camera of the demo, with two distances each", () => {
    const steps = mount_steps(demo);
    expect(steps.map((step) => step.camera.name)).toEqual(demo.cameras?.map((camera) => camera.name));
    for (const step of steps) {
      expect(step.from).toHaveLength(2);
      for (const point of step.from) expect(point.name).toContain("corner of");
    }
    const yard = steps.find((step) => step.camera.name === "yard");
    expect(yard?.mount.height_m).toBe(3.4);
    expect(yard?.compass).toBe("north");
  });
  it("say headings by the compass", () => {
    expect([0, 22, 23, 198, 359, -90].map(compass)).toEqual(["north", "north", "north-east", "south", "north", "west"]);
  });
});

describe("what was entered in the field", () => {
  it("is read back, and a broken store is an empty one", () => {
    const readings = { k: { seen: "yes", note: "fine", when: "2026-01-01T10:00:00Z" } } as const;
    expect(readings_in(JSON.stringify(readings))).toEqual(readings);
    for (const broken of [null, "", "{", "3", "null"]) expect(readings_in(broken)).toEqual({});
  });
  it("is taken along as lines, one an entry, whatever was typed", () => {
    const lines = as_lines({ k: { seen: null, note: "two\nlines\tand a tab", when: "w" } });
    expect(lines).toBe("what\tseen\tnote\twhen\nk\t\ttwo lines and a tab\tw\n");
  });
});
