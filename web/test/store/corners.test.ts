import { describe, expect, it } from "vitest";
import type { SitePoint } from "../../src/base/plane";
import type { Corner } from "../../src/store/corners";
import { can_lose_corner, next_corner, with_corner, without_corner } from "../../src/store/corners";
import { member, with_changes } from "../../src/store/changes";
import { change_of, copied, moves, removals } from "../../src/store/editing";
import { picked } from "../../src/store/pick";
import type { Shape } from "../../src/store/shapes";
import { shape_of } from "../../src/store/shapes";
import type { Building, Opening, ProjectDocument } from "../../src/wire/document";

const outline: SitePoint[] = [
  [0, 0],
  [10, 0],
  [10, 6],
  [0, 6],
];
const opening = (edge: number, from_m: number): Opening => ({ edge, from_m, width_m: 1, sill_m: 0, height_m: 2 });
const hut: Building = {
  kind: "building",
  name: "hut",
  outline,
  height_m: 3,
  openings: [opening(0, 1), opening(0, 7), opening(1, 2), opening(3, 2)],
};
const outer = (index: number): Corner => ({ ring: 0, index });
const shape: Shape = { form: "outline", points: outline };
const line: Shape = {
  form: "line",
  points: [
    [0, 0],
    [4, 0],
  ],
};

/** Where the near side of an opening stands on the plan. */
function place(building: Building, { edge, from_m }: Opening): SitePoint {
  const a = building.outline[edge]!;
  const b = building.outline[(edge + 1) % building.outline.length]!;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [a[0] + ((b[0] - a[0]) * from_m) / length, a[1] + ((b[1] - a[1]) * from_m) / length];
}
const places = (building: Building): SitePoint[] => building.openings!.map((each) => place(building, each));

describe("corners", () => {
  it("come half way to the next, and beyond the end of a line", () => {
    expect(next_corner(shape, outer(1))).toEqual([10, 3]);
    expect(next_corner(shape, outer(3))).toEqual([0, 3]);
    expect(next_corner(line, outer(0))).toEqual([2, 0]);
    expect(next_corner(line, outer(1))).toEqual([6, 0]);
  });
  it.each([1, 2, 3, 4])("put in as number %i leaves the openings where they are in the walls", (index) => {
    const at = next_corner(shape, outer(index - 1))!;
    const after = with_corner(hut, shape, outer(index), at);
    expect(after.outline.length).toBe(5);
    expect(after.outline[index]).toEqual(at);
    expect(places(after)).toEqual(places(hut));
  });
  it.each([0, 1, 2, 3, 4])("taken away again, number %i too, the openings stay", (index) => {
    // With a corner in each wall's line, taking one away leaves the wall as it was.
    const points: SitePoint[] = [
      [0, 0],
      [5, 0],
      [10, 0],
      [10, 6],
      [0, 6],
    ];
    const long: Building = {
      ...hut,
      outline: points,
      openings: [opening(0, 1), opening(1, 2), opening(2, 2), opening(4, 2)],
    };
    const turned = { ...long, outline: [...points.slice(index), ...points.slice(0, index)] };
    const straight = (1 - index + 5) % 5;
    turned.openings = long.openings!.map((each) => ({ ...each, edge: (each.edge - index + 5) % 5 }));
    const after = without_corner(turned, { form: "outline", points: turned.outline }, outer(straight));
    expect(after.outline.length).toBe(4);
    expect(places(after)).toEqual(places(turned));
  });
  it("an outline keeps three and a line two", () => {
    expect([can_lose_corner(shape), can_lose_corner(line)]).toEqual([true, false]);
    expect(can_lose_corner({ form: "outline", points: outline.slice(0, 3) })).toBe(false);
    expect(can_lose_corner({ form: "tie", points: outline.slice(0, 3) })).toBe(false);
  });
});

describe("the boundary of the land", () => {
  const ref = { list: "site/boundary", name: "boundary" } as const;
  const square: SitePoint[] = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ];
  const site = { sightfall: 1, name: "land", site: { boundary: square }, conditions: [] } as ProjectDocument;
  it("is picked at its edges alone: what is empty within it is nothing", () => {
    expect(picked(site, [10, 0.2], 0.5)).toEqual([ref]);
    expect(picked(site, [10, 10], 0.5)).toEqual([]);
  });
  it("gets a corner more, moves and goes as one change of its points", () => {
    const shape = shape_of(site, member(site, ref)!)!;
    const changes = change_of(site, ref, (object) => with_corner(object, shape, outer(1), [10, -4]));
    expect(changes).toEqual([
      {
        at: ["site", "boundary"],
        was: square,
        now: [
          [0, 0],
          [10, -4],
          [20, 0],
          [20, 20],
          [0, 20],
        ],
      },
    ]);
    expect(with_changes(site, changes).site.boundary?.length).toBe(5);
    expect(with_changes(site, moves(site, [ref], [1, 2])).site.boundary?.[0]).toEqual([1, 2]);
    expect(with_changes(site, removals(site, [ref])).site.boundary).toBeUndefined();
  });
  it("is not copied: there is one at most", () => {
    expect(copied(site, [ref])).toEqual([]);
  });
});
