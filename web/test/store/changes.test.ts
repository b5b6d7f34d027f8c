import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  altered,
  free_name,
  member,
  members,
  merged,
  put_in,
  taken_out,
  value_at,
  with_changes,
} from "../../src/store/changes";
import { copied, moves, pasted, removals } from "../../src/store/editing";
import { picked, picked_within } from "../../src/store/pick";
import { scaled_plan } from "../../src/store/plan_scaling.svelte";
import { shape_of, site_box } from "../../src/store/shapes";
import { snapped, on_the_side_of, snapping_of, stood_off } from "../../src/store/snap";
import type { ProjectDocument } from "../../src/wire/document";

const demo = JSON.parse(
  readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
) as ProjectDocument;
const shop = member(demo, { list: "site/solids", name: "shop" })!;
const pole = member(demo, { list: "site/mounts", name: "gate pole, upper bracket" })!;

describe("changes", () => {
  it("put in, alter and take out leave the document before them alone", () => {
    const before = JSON.stringify(demo);
    const hut = { ...shop, name: "hut" };
    const put = with_changes(demo, [put_in("site/solids", hut, 0)]);
    expect(members(put, "site/solids")[0]).toBe(hut);
    const gone = with_changes(put, [taken_out("site/solids", hut)]);
    expect(gone).toEqual(demo);
    expect(JSON.stringify(demo)).toBe(before);
  });
  it("a rename keeps the place in the list, and making it twice is making it once", () => {
    const rename = altered("site/solids", shop, { ...shop, name: "store" });
    const once = with_changes(demo, [rename]);
    expect(members(once, "site/solids").findIndex((each) => each.name === "store")).toBe(0);
    expect(with_changes(once, [rename])).toEqual(once);
  });
  it("two names can be swapped, and one object may go while another of its name comes", () => {
    const [first, second] = members(demo, "site/solids");
    const swap = [
      altered("site/solids", first!, { ...first!, name: second!.name }),
      altered("site/solids", second!, { ...second!, name: first!.name }),
    ];
    const swapped = members(with_changes(demo, swap), "site/solids");
    expect(swapped.slice(0, 2).map((each) => [each.name, each.kind])).toEqual([
      [second!.name, first!.kind],
      [first!.name, second!.kind],
    ]);
    expect(swapped.length).toBe(members(demo, "site/solids").length);
    const other = { ...second!, name: first!.name };
    const after = members(
      with_changes(demo, [taken_out("site/solids", first!), put_in("site/solids", other, 0)]),
      "site/solids",
    );
    expect(after[0]).toBe(other);
  });
  it("edits one after another are told as one, each object once", () => {
    const up = { ...pole, height_m: 5 };
    const edits = [
      [altered("site/mounts", pole, up), put_in("site/solids", { ...shop, name: "hut" })],
      [altered("site/mounts", up, { ...up, name: "mast" })],
      [taken_out("site/solids", { ...shop, name: "hut" })],
    ];
    expect(merged(edits)).toEqual([altered("site/mounts", pole, { ...up, name: "mast" })]);
  });
  it("what is not touched is shared, not copied", () => {
    const after = with_changes(demo, [altered("site/solids", shop, { ...shop, name: "store" })]);
    expect(after.cameras).toBe(demo.cameras);
  });
  it("a lone member is put in and taken out", () => {
    const feet = with_changes(demo, [{ at: ["settings", "units"], was: null, now: "feet" }]);
    expect(value_at(feet, ["settings", "units"])).toBe("feet");
    expect(
      value_at(with_changes(feet, [{ at: ["settings", "units"], was: "feet", now: null }]), ["settings", "units"]),
    ).toBeNull();
  });
  it("names are made free", () => {
    expect(free_name(demo, "site/solids", "shop")).toBe("shop 2");
    expect(free_name(demo, "site/solids", "kiosk", ["kiosk", "kiosk 2"])).toBe("kiosk 3");
  });
});

describe("editing", () => {
  it("a camera moves with its mount, and once when both are selected", () => {
    const changes = moves(
      demo,
      [
        { list: "cameras", name: "gate faces" },
        { list: "site/mounts", name: pole.name },
      ],
      [1, -2],
    );
    expect(changes).toEqual([altered("site/mounts", pole, { ...pole, at: [39.5, 18] })]);
  });
  it("a mount takes its cameras along, a place its needs, and the order leaves no name without its object", () => {
    const changes = removals(demo, [
      { list: "site/mounts", name: pole.name },
      { list: "site/places", name: "till" },
    ]);
    const after = with_changes(demo, changes);
    const mounts = new Set(members(after, "site/mounts").map((mount) => mount.name));
    const places = new Set(members(after, "site/places").map((place) => place.name));
    expect(mounts.has(pole.name)).toBe(false);
    expect(members(after, "cameras").every((camera) => mounts.has(camera.mount))).toBe(true);
    expect(members(after, "needs").every((need) => places.has(need.place))).toBe(true);
    expect(members(demo, "needs").length - members(after, "needs").length).toBe(2);
  });
  it("a camera is copied with its mount and hangs on the copy", () => {
    const { changes, refs } = pasted(demo, copied(demo, [{ list: "cameras", name: "gate faces" }]), [5, 0]);
    const after = with_changes(demo, changes);
    const camera = member(after, { list: "cameras", name: "gate faces 2" })!;
    expect(camera.mount).not.toBe(pole.name);
    expect(member(after, { list: "site/mounts", name: camera.mount })!.at).toEqual([43.5, 20]);
    expect(refs).toEqual([{ list: "cameras", name: "gate faces 2" }]);
  });
});

describe("what lies under the hand", () => {
  it("a camera before its mount, and both before the building behind", () => {
    expect(
      picked(demo, [52, 28.15], 0.5)
        .filter((ref) => ref.list !== "site/ways") // two of them meet there
        .map((ref) => ref.name)
        .slice(0, 3),
    ).toEqual(["yard", "shop, north wall", "shop"]);
  });
  it("a small area before the large one around it", () => {
    expect(picked(demo, [46.5, 23.5], 0.1)[0]?.name).toBe("till");
  });
  it("a frame takes what lies wholly in it", () => {
    const names = picked_within(demo, [83, 57], [91, 64]).map((ref) => ref.name);
    expect(names).toContain("fuel store");
    expect(names).not.toContain("east wall");
  });
  it("the site's box holds every corner", () => {
    expect(site_box(demo)).toEqual({ west: 0, south: -23, east: 100, north: 78 });
  });
  it("every object of the demo has a shape", () => {
    expect(members(demo, "cameras").every((camera) => shape_of(demo, camera) !== null)).toBe(true);
  });
});

describe("snapping", () => {
  const to = snapping_of(demo);
  it("takes an end before an edge, an edge before the grid", () => {
    expect(snapped([44.2, 18.1], to, 0.5)).toEqual({ at: [44, 18], kind: "end" });
    expect(snapped([51.3, 18.2], to, 0.5)).toMatchObject({ at: [51.3, 18], kind: "edge" });
    expect(snapped([51.3, 15.2], to, 0.5)).toEqual({ at: [51.5, 15], kind: "grid" });
  });
  it("draws right angles to the edge before", () => {
    const snap = snapped([50.1, 40.3], { ends: [], edges: [] }, 0.5, [
      [40, 35],
      [50, 35],
    ]);
    expect(snap.kind).toBe("square");
    expect(snap.at[0]).toBeCloseTo(50, 9);
    expect(snap.at[1]).toBeCloseTo(40.5, 9);
  });
  it("hangs a bracket clear of its wall, on the side of the hand", () => {
    expect(stood_off(snapped([51.3, 17.8], to, 0.5), [51.3, 17.8])).toEqual([51.3, 17.85]);
    expect(stood_off(snapped([51.3, 18.2], to, 0.5), [51.3, 18.2])).toEqual([51.3, 18.15]);
  });
  it("but on the side that it looks to, where the hand was on the other", () => {
    // the shop's wall runs along y = 18
    expect(on_the_side_of([51, 10], [51.3, 18.15], demo)).toEqual([51.3, 17.85]);
    expect(on_the_side_of([51, 25], [51.3, 18.15], demo)).toEqual([51.3, 18.15]);
    expect(on_the_side_of([51, 10], [51.3, 18.6], demo)).toEqual([51.3, 18.6]);
    const mount = { name: "inside", at: [51.3, 18.15] as const, height_m: 3 };
    const with_mount = with_changes(demo, [put_in("site/mounts", mount)]);
    expect(on_the_side_of([51, 10], [51.3, 18.15], with_mount)).toEqual([51.3, 18.15]);
  });
});

it("a plan's scale makes two of its points as far apart as told, and keeps the first", () => {
  const plan = { picture: "p.png", columns: 1000, rows: 800, metres_per_pixel: 0.1, north_west: [0, 80] as const };
  const scaled = scaled_plan(plan, [10, 20], [40, 60], 25);
  expect(scaled.metres_per_pixel).toBeCloseTo(0.05, 9);
  const pixel = (10 - plan.north_west[0]) / plan.metres_per_pixel;
  expect(scaled.north_west[0] + pixel * scaled.metres_per_pixel).toBeCloseTo(10, 6);
});
