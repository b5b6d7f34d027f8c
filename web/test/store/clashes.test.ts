// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { with_changes } from "../../src/store/changes";
import { clashes_of, kOffered, settled } from "../../src/store/clashes";
import type { Chosen } from "../../src/store/clashes";
import type { Change } from "../../src/wire/answers";
import type { Building, ProjectDocument } from "../../src/wire/document";

const house = (name: string, height_m: number): Building => ({
  kind: "building",
  name,
  outline: [
    [0, 0],
    [9, 0],
    [9, 9],
  ],
  height_m,
});
const put = (now: Building): Change => ({ at: ["site", "solids", now.name], was: null, now });
const document: ProjectDocument = {
  sightfall: 1,
  name: "town",
  site: { terrain: { kind: "flat" }, solids: [house("a", 3), house("b", 4), house("b (2)", 5)] },
  conditions: [],
};
const grid = { at: ["site", "terrain"], was: null, now: { kind: "grid", step_m: 1 } };
const { outline, ...rest } = house("a", 3);
/** The same as stands there, its members in another order. */
const a_again = { at: ["site", "solids", "a"], was: null, now: { outline, ...rest } };
const changes: readonly Change[] = [a_again, put(house("b", 7)), put(house("c", 8)), grid];
const names = (after: ProjectDocument): string[] =>
  after.site.solids!.map((solid) => `${solid.name} ${solid.height_m}`);
const choose = (chosen: Chosen) => (): Chosen => chosen;

describe("what a map brings where something stands", () => {
  it("is told, but for what is the very same and what has room", () => {
    const clashes = clashes_of(document, changes);
    expect(clashes.map(({ key, kind, name }) => [key, kind, name])).toEqual([
      ["site/solids/b", "name", "b"],
      ["site/terrain", "ground", "terrain"],
    ]);
    expect(clashes[0]?.mine).toEqual(house("b", 4));
    expect(clashes[0]?.imported).toEqual(house("b", 7));
    const anchored = { at: ["site", "anchor"], was: null, now: { latitude_deg: 1, longitude_deg: 2 } };
    expect(clashes_of(document, [anchored])).toEqual([]);
    const there = { ...document, site: { anchor: { latitude_deg: 1, longitude_deg: 3 } } };
    expect(clashes_of(there, [anchored])[0]?.kind).toBe("place");
  });
  it("both are kept, the map's under a name that neither has", () => {
    const both = settled(document, changes, choose("both"));
    expect(names(with_changes(document, both))).toEqual(["a 3", "b 4", "b (2) 5", "b (3) 7", "c 8"]);
    expect(both.filter(({ was }) => was !== null && was !== undefined).length).toBe(0);
  });
  it("the map's takes the place of mine, with what stood there told", () => {
    const imported = settled(document, changes, choose("imported"));
    expect(imported.find(({ at }) => at[2] === "b")?.was).toEqual(house("b", 4));
    expect(imported.find(({ at }) => at[1] === "terrain")?.was).toEqual({ kind: "flat" });
    const after = with_changes(document, imported);
    expect(names(after)).toEqual(["a 3", "b 7", "b (2) 5", "c 8"]);
    expect(after.site.terrain?.kind).toBe("grid");
  });
  it("mine is kept, and what has room goes in all the same", () => {
    const after = with_changes(document, settled(document, changes, choose("mine")));
    expect(names(after)).toEqual(["a 3", "b 4", "b (2) 5", "c 8"]);
    expect(after.site.terrain?.kind).toBe("flat");
  });
  it("each is chosen for itself, by the site as it is when it is done", () => {
    const two = [put(house("a", 9)), put(house("b", 9))];
    const chosen = settled(document, two, (key) => (key.endsWith("a") ? "imported" : "mine"));
    expect(names(with_changes(document, chosen))).toEqual(["a 9", "b 4", "b (2) 5"]);
    const without = { ...document, site: { solids: [house("b", 4)] } };
    expect(names(with_changes(without, settled(without, two, choose("mine"))))).toEqual(["b 4", "a 9"]);
  });
  it("what is offered first loses nothing", () => {
    expect([kOffered.name[0], kOffered.ground[0], kOffered.place[0]]).toEqual(["both", "mine", "mine"]);
    expect(kOffered.ground).not.toContain("both");
  });
  it("tens of thousands are gone through one by one, not each against each", () => {
    const many = Array.from({ length: 20000 }, (_, i) => house(`h ${i}`, 3));
    const full = { ...document, site: { solids: many } };
    const higher = many.map((each) => put({ ...each, height_m: 4 }));
    expect(settled(full, higher, choose("both")).length).toBe(20000);
  }, 20000);
});
