import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { free_name, members, put_in, with_changes } from "../../src/store/changes";
import { used_by } from "../../src/view/used_by";
import type { Feed, Fence, ProjectDocument } from "../../src/wire/document";
import type { Field } from "../../src/widgets/fields";
import { fields_at, lacking, read_numbers, with_field } from "../../src/widgets/fields";
import { kinds_open_to, with_kind } from "../../src/widgets/kinds";

const read = (path: string): unknown => JSON.parse(readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8"));
const schema = read("schema/project.schema.json") as never;
const demo = read("demo/alder_lane.sightfall.json") as ProjectDocument;
const field = (list: string, name: string, kind: string | null = null): Field =>
  fields_at(schema, list, kind).find((each) => each.name === name)!;

describe("fields of the schema", () => {
  it("what holds a bracket has a kind to choose, as has a way its own already", () => {
    const fixing = field("site/mounts", "fixing");
    expect(fixing.fields.find((each) => each.name === "kind")).toMatchObject({
      path: "site.mounts.fixing.kind",
      kind: "choice",
      choices: ["wood screw", "lag screw", "anchor", "clamp"],
      required: true,
    });
    expect(fields_at(schema, "site/ways", "trench").some((each) => each.name === "kind")).toBe(false);
  });
  it("a number or two is a span, and its range is that of the numbers", () => {
    expect(field("catalogue", "focal_mm")).toMatchObject({ kind: "span", unit: "mm", least: 0.1, most: 5000 });
    expect(field("catalogue", "pixels")).toMatchObject({ kind: "pair", least: 16 });
    expect(field("catalogue", "frame_rates").kind).toBe("numbers");
  });
  it("lists of objects have the fields of each", () => {
    const openings = field("site/solids", "openings", "building");
    expect(openings.kind).toBe("list");
    expect(openings.fields.map((each) => each.name)).toEqual(["edge", "from_m", "width_m", "sill_m", "height_m"]);
    expect(field("cameras", "masks").fields.map((each) => each.path)).toContain("cameras.masks.left");
    expect(field("settings/level_tables", "levels").fields.length).toBe(2);
  });
  it("what is drawn is in no form", () => {
    const all = ["site/feeds", "site/ways", "site/plan", "site/mounts"].flatMap((list) => [
      ...fields_at(schema, list, list === "site/feeds" ? "switch" : list === "site/ways" ? "wall" : null),
    ]);
    expect(all.filter((each) => ["at", "line", "north_west"].includes(each.name))).toEqual([]);
    expect(all.some((each) => each.path === "site.plan.turn_deg")).toBe(true);
  });
  it("every field of the document but what is drawn or laid in by import can be set", () => {
    const missing: string[] = [];
    const walk = (part: Record<string, any>, path: string, known: readonly Field[]): void => {
      for (const [name, inner] of Object.entries<Record<string, any>>(part["properties"] ?? {})) {
        const found = known.find((each) => each.name === name);
        if (!found && inner["const"] === undefined) missing.push(`${path}.${name}`);
        if (found) walk(inner["items"] ?? inner, `${path}.${name}`, found.fields);
      }
    };
    const properties = (schema as any)["properties"];
    const lists = ["solids", "veils", "mounts", "lamps", "places", "neighbours", "feeds", "ways", "runs"];
    for (const list of lists) {
      const items = properties.site.properties[list].items;
      for (const each of items.oneOf ?? [items])
        walk(each, list, fields_at(schema, `site/${list}`, each.properties.kind?.const ?? null));
    }
    for (const list of ["cameras", "catalogue", "conditions"])
      walk(properties[list].items, list, fields_at(schema, list));
    walk(properties.settings, "settings", fields_at(schema, "settings"));
    walk(properties.keeping, "keeping", fields_at(schema, "keeping"));
    expect([...new Set(missing.map((path) => path.split(".").at(-1)))].sort()).toEqual([
      "at",
      "holes",
      "line",
      "outline",
    ]);
  });
});

describe("what is being filled in", () => {
  const fields = fields_at(schema, "site/mounts");
  const mount = { name: "pole", height_m: 3 };
  it("is whole once nothing that is needed is missing, in what was begun too", () => {
    expect(lacking(fields, mount)).toEqual([]);
    expect(lacking(fields, { ...mount, fixing: { count: 2 } }).map((each) => each.path)).toEqual([
      "site.mounts.fixing.kind",
    ]);
    expect(
      lacking(fields_at(schema, "cameras"), { masks: [{ name: "a", left: 0 }] }).map((each) => each.name),
    ).toContain("right");
    expect(lacking(fields_at(schema, "settings/level_tables"), { name: "own", levels: [] })).toHaveLength(1);
  });
  it("leaves out what is emptied or at its default", () => {
    const count = field("site/mounts", "fixing").fields.find((each) => each.name === "count")!;
    expect(with_field({ kind: "clamp" }, count, 2)).toEqual({ kind: "clamp", count: 2 });
    expect(with_field({ kind: "clamp", count: 2 }, count, 4)).toEqual({ kind: "clamp" });
    expect(with_field({ kind: "clamp", count: 2 }, count, null)).toEqual({ kind: "clamp" });
  });
  it("numbers in a row are parted by spaces, semicolons, or commas with a space", () => {
    expect(read_numbers("25 12.5; 30")).toEqual([25, 12.5, 30]);
    expect(read_numbers("25, 30")).toEqual([25, 30]);
    expect(read_numbers("")).toEqual([]);
    expect(read_numbers("25 fast")).toBe(null);
    expect(read_numbers("10,20")).toBe(null); // one number or two?
  });
});

describe("what is being filled in, in German", () => {
  beforeAll(() => speak("de"));
  afterAll(() => speak("en"));
  it("a comma within a number is its mark, and a point too where it parts no thousands", () => {
    expect(read_numbers("25 12,5; 30.5")).toEqual([25, 12.5, 30.5]);
    expect(read_numbers("25, 30,5")).toEqual([25, 30.5]);
    expect(read_numbers("1.500")).toBe(null);
  });
});

describe("one kind made another", () => {
  const shop_switch = demo.site.feeds!.find((feed) => feed.name === "shop switch")!;
  it("of feeds all, of solids those drawn alike", () => {
    expect(kinds_open_to(schema, "site/feeds", shop_switch)).toEqual([
      "switch",
      "injector",
      "recorder",
      "router",
      "supply",
      "battery",
    ]);
    expect(kinds_open_to(schema, "site/solids", demo.site.solids![0]!)).toEqual(["building", "roof"]);
    expect(kinds_open_to(schema, "site/mounts", demo.site.mounts![0]!)).toEqual([]);
  });
  it("keeps what both have and gets what it needs", () => {
    const battery = with_kind<Feed>(schema, "site/feeds", shop_switch, "battery");
    expect(battery).toEqual({
      kind: "battery",
      name: "shop switch",
      at: [58, 26],
      height_m: 2,
      price: 95,
      voltage_v: 12,
      capacity_ah: 18,
    });
    const mesh = demo.site.veils!.find((veil) => veil.kind === "mesh") as Fence;
    expect(with_kind(schema, "site/veils", mesh, "hedge")).toMatchObject({
      line: mesh.line,
      summer: 0.03,
      winter: 0.5,
    });
  });
});

describe("lists that are not drawn", () => {
  it("say who would be left hanging", () => {
    expect(used_by(demo, "catalogue", demo.cameras![0]!.sheet)).toContain(demo.cameras![0]!.name);
    expect(used_by(demo, "conditions", "winter day").length).toBeGreaterThan(0);
    const only = { ...demo, needs: [], conditions: demo.conditions.slice(0, 1) };
    expect(used_by(only, "conditions", demo.conditions[0]!.name)).toEqual([demo.name]);
    const table = { name: "own", levels: [{ name: "see", px_per_m: 20 }] };
    const after = with_changes(demo, [put_in("settings/level_tables", table)]);
    expect(members(after, "settings/level_tables")).toEqual([table]);
    expect(used_by(after, "settings/level_tables", "own")).toEqual([]);
    expect(free_name(after, "settings/level_tables", "own")).toBe("own 2");
  });
});
