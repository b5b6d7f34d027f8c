// SPDX-License-Identifier: GPL-3.0-or-later
import { beforeEach, describe, expect, it } from "vitest";
import "../../src/actions/all";
import { can, perform } from "../../src/actions/acts";
import { finish, put_point, put_rectangle } from "../../src/actions/draw";
import { target_of } from "../../src/actions/hole";
import type { SitePoint } from "../../src/base/plane";
import { text } from "../../src/base/text.svelte";
import { choice } from "../../src/store/choice.svelte";
import { corner_after, without_hole } from "../../src/store/corners";
import type { Corner } from "../../src/store/corners";
import { drawing } from "../../src/store/drawing.svelte";
import { notes } from "../../src/store/notes.svelte";
import { picked } from "../../src/store/pick";
import { moved_by, shape_of } from "../../src/store/shapes";
import { sheet } from "../../src/store/sheet.svelte";
import { site } from "../../src/store/site.svelte";
import { snapping_of } from "../../src/store/snap";
import { handles_of, pulled } from "../../src/view/sheet/handles";
import { spoken_state } from "../../src/view/sheet/spoken";
import type { Building, ProjectDocument, Zone } from "../../src/wire/document";

const square = (from: number, to: number): SitePoint[] => [
  [from, from],
  [to, from],
  [to, to],
  [from, to],
];
const block: Building = { kind: "building", name: "block", outline: square(0, 20), height_m: 9, holes: [square(5, 9)] };
const yard: Zone = { kind: "zone", name: "yard", outline: square(-50, 50) };
const document: ProjectDocument = {
  sightfall: 1,
  name: "holes",
  site: {
    solids: [
      block,
      {
        kind: "wall",
        name: "wall",
        line: [
          [60, 0],
          [70, 0],
        ],
        height_m: 2,
      },
    ],
    places: [yard],
  },
  conditions: [{ name: "day", leaves: "on" }],
};
const ref = { list: "site/solids", name: "block" } as const;
const now = (): Building => site.document!.site.solids![0] as Building;
const zone = (): Zone => site.document!.site.places![0] as Zone;

beforeEach(() => {
  site.took({ revision: 1, file: `${crypto.randomUUID()}.sightfall.json`, document, undo: null, redo: null });
  choice.nothing();
  drawing.take(null);
});

describe("a hole", () => {
  it("is drawn in what is selected, from corner to corner or point by point", () => {
    choice.take(ref);
    perform("draw_hole");
    put_rectangle([12, 12], [15, 16]);
    expect(now().holes).toEqual([
      square(5, 9),
      [
        [12, 12],
        [15, 12],
        [15, 16],
        [12, 16],
      ],
    ]);
    expect([choice.only, drawing.tool]).toEqual([ref, null]);
    perform("draw_hole");
    for (const p of [
      [1, 1],
      [3, 1],
      [2, 3],
    ] as SitePoint[])
      put_point(p);
    finish();
    expect(now().holes?.length).toBe(3);
    expect(now().height_m).toBe(9);
  });
  it("with nothing selected is cut out of the smallest thing around it that can have one", () => {
    expect(target_of(document, [[2, 2]], null)?.object.name).toBe("block");
    expect(target_of(document, [[30, 30]], null)?.object.name).toBe("yard");
    expect(target_of(document, [[65, 0]], null)).toBeNull();
    expect(target_of(document, [[2, 2]], { list: "site/solids", name: "wall" })?.object.name).toBe("block");
    perform("draw_hole");
    put_rectangle([30, 30], [32, 32]);
    expect(zone().holes?.length).toBe(1);
  });
  it("in nothing is told, and nothing is made", () => {
    perform("draw_hole");
    put_rectangle([65, 65], [67, 67]);
    expect(notes.all.at(-1)?.words).toBe(text("sheet.no_hole"));
    expect(site.document).toEqual(document);
  });
  it("has corners for the hand, put in and pulled like those of the outline", () => {
    const handles = handles_of(document, ref, 8).filter((handle) => handle.corner.ring === 1);
    expect(handles.map((handle) => handle.kind).sort()).toEqual([
      ...Array(4).fill("between"),
      ...Array(4).fill("corner"),
    ]);
    const places = { page_from_site: ([x, y]: SitePoint) => ({ x, y }), window: { px_per_m: 8 } };
    const pull = (kind: string, index: number, at: SitePoint): Building =>
      pulled(
        document,
        handles.find((each) => each.kind === kind && each.corner.index === index)!,
        at,
        { x: 0, y: 0 },
        places,
      )[0]!.now as Building;
    expect(pull("corner", 2, [10, 11]).holes).toEqual([
      [
        [5, 5],
        [9, 5],
        [10, 11],
        [5, 9],
      ],
    ]);
    expect(pull("between", 4, [4, 7]).holes).toEqual([
      [
        [5, 5],
        [9, 5],
        [9, 9],
        [5, 9],
        [4, 7],
      ],
    ]);
    expect(pull("corner", 2, [10, 11]).outline).toEqual(block.outline);
  });
  it("is edited by keys: its corners in turn after those of the outline, moved, put in, taken away", () => {
    choice.take(ref);
    for (let i = 0; i < 5; ++i) perform("next_corner");
    expect(drawing.corner).toEqual({ ring: 1, index: 0 });
    expect(spoken_state()).toBe(text("sheet.spoken.in_hole", { name: "block", hole: 1, x: "5 m", y: "5 m" }));
    perform("step_ArrowLeft");
    expect(now().holes?.[0]?.[0]).toEqual([4.5, 5]);
    perform("add_corner");
    expect(now().holes?.[0]?.length).toBe(5);
    expect(drawing.corner).toEqual({ ring: 1, index: 1 });
    perform("remove_corner");
    expect(now().holes?.[0]?.length).toBe(4);
    expect(now().outline).toEqual(block.outline);
  });
  it("goes by a key of its own, and with its last three corners; what it is cut out of stays", () => {
    choice.take(ref);
    expect(can("remove_hole")).toBe(false);
    const take = (corner: Corner): void => void (drawing.corner = corner);
    take({ ring: 1, index: 2 });
    perform("remove");
    take({ ring: 1, index: 0 });
    expect([now().holes?.[0]?.length, can("remove_corner"), can("remove_hole")]).toEqual([3, false, true]);
    perform("remove");
    expect(now().name).toBe("block");
    expect("holes" in now()).toBe(false);
    expect(drawing.corner).toBeNull();
    const two = { ...block, holes: [square(5, 9), square(12, 15)] };
    expect(without_hole(two, 1).holes).toEqual([square(12, 15)]);
  });
  it("is no part of the thing for the hand, but its edge is, and it snaps", () => {
    expect(picked(document, [3, 3], 0.5)[0]).toEqual(ref);
    expect(picked(document, [7, 7], 0.5)[0]).toEqual({ list: "site/places", name: "yard" });
    expect(picked(document, [7, 5.2], 0.5)[0]).toEqual(ref);
    const { ends, edges } = snapping_of(document);
    expect(ends).toContainEqual([9, 9]);
    expect(edges).toContainEqual([
      [5, 9],
      [5, 5],
    ]);
  });
  it("moves along, and its corners follow round", () => {
    expect(moved_by(block, [1, 2]).holes?.[0]?.[0]).toEqual([6, 7]);
    const shape = shape_of(document, block)!;
    expect(corner_after(shape, { ring: 1, index: 3 })).toEqual({ ring: 0, index: 0 });
    expect(sheet.cursor).toBeNull();
  });
});
