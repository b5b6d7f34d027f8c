// SPDX-License-Identifier: GPL-3.0-or-later
// Names on the sheet: apart from one another, what is selected always, a building's not in its courtyard.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { is_inside } from "../../src/base/plane";
import type { ProjectDocument } from "../../src/wire/document";
import { are_over } from "../../src/view/sheet/frames";
import { frame_of_name, names_shown } from "../../src/view/sheet/names";

const demo = JSON.parse(
  readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
) as ProjectDocument;
const nothing = (): boolean => false;

describe("names on the sheet", () => {
  it.each([4, 7, 20])("lie apart at %i px a metre", (k) => {
    const frames = names_shown(demo, k, nothing).map((name) => frame_of_name(name, k));
    expect(frames.length).toBeGreaterThan(12);
    const over = frames.filter((a, i) => frames.some((b, j) => j > i && are_over(a, b)));
    expect(over).toEqual([]);
  });
  it("are more the nearer one looks, and what is selected has its own at any distance", () => {
    const far = names_shown(demo, 0.5, nothing).map((name) => name.ref.name);
    expect(far.length).toBeLessThan(names_shown(demo, 20, nothing).length);
    expect(far).not.toContain("shop");
    const held = names_shown(demo, 0.5, (ref) => ref.name === "shop" && ref.list === "site/solids");
    expect(held[0]).toMatchObject({ ref: { name: "shop" }, chosen: true });
  });
  it("a building's stands in what is built, not in its courtyard", () => {
    const court: [number, number][] = [
      [8, 6],
      [22, 6],
      [22, 14],
      [8, 14],
    ];
    const outline: [number, number][] = [
      [0, 0],
      [30, 0],
      [30, 20],
      [0, 20],
    ];
    const solids = [{ kind: "building" as const, name: "school", outline, holes: [court], height_m: 6 }];
    const site = {
      ...demo.site,
      solids,
      veils: [],
      places: [],
      mounts: [],
      lamps: [],
      feeds: [],
      ways: [],
      neighbours: [],
    };
    const [name] = names_shown({ ...demo, site, cameras: [] }, 10, nothing);
    expect(name?.ref.name).toBe("school");
    expect([is_inside(name!.at, outline), is_inside(name!.at, court)]).toEqual([true, false]);
  });
});
