// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { one_map } from "../../src/actions/map_files";
import { text } from "../../src/base/text.svelte";

const file = (name: string, length = 3): File => new File([new Uint8Array(length)], name);
const of_size = (name: string, size: number): File => Object.defineProperty(file(name), "size", { value: size });

describe("what is sent of the files that were chosen", () => {
  it("is one map as it is, an archive too", async () => {
    for (const name of ["town.geojson", "town.zip", "no ending"]) {
      const chosen = file(name);
      expect(await one_map([chosen])).toBe(chosen);
    }
  });
  it("is the parts of a Shapefile in one archive, called after it", async () => {
    const sent = (await one_map([file("Town.dbf"), file("Town.SHP", 500), file("town.shx")])) as File;
    expect(sent.name).toBe("Town.zip");
    const bytes = new TextDecoder("latin1").decode(await sent.arrayBuffer());
    for (const name of ["Town.dbf", "Town.SHP", "town.shx"]) expect(bytes.split(name).length).toBe(3);
  });
  it("is also a lone .shp: which parts are missing, the program says", async () => {
    expect(((await one_map([file("town.shp")])) as File).name).toBe("town.zip");
  });
  it("is nothing where they are no one map", async () => {
    for (const names of [["a.geojson", "b.geojson"], ["a.dbf"], ["a.shx", "a.dbf"], ["a.shp", "a.geojson"], []])
      expect(await one_map(names.map((name) => file(name)))).toBe(
        text("import.not_one_map", { names: names.join(", ") }),
      );
  });
  it("is nothing where they are larger than the program takes, told before they are read", async () => {
    const mib = 2 ** 20;
    expect(await one_map([of_size("a.shp", 40 * mib), of_size("a.dbf", 30 * mib)])).toBe(
      text("import.too_large", { names: "a.shp, a.dbf", found: 70, most: 64 }),
    );
    expect(await one_map([of_size("a.gpkg", 64 * mib)])).toBeInstanceOf(File);
  });
});
