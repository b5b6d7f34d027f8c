// SPDX-License-Identifier: GPL-3.0-or-later
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { crc_32, zipped } from "../../src/base/zip";

const bytes = (words: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(words);

/** Names and contents as Python's zipfile reads them, after its own check of every sum. */
async function as_python_reads(archive: Blob): Promise<unknown> {
  const folder = mkdtempSync(join(tmpdir(), "zip-"));
  const file = join(folder, "a.zip");
  writeFileSync(file, new Uint8Array(await archive.arrayBuffer()));
  const script = `import json,sys,zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    print(json.dumps([z.testzip(), {n: list(z.read(n)) for n in z.namelist()}]))`;
  const told = execFileSync("python3", ["-c", script, file], { encoding: "utf8" });
  rmSync(folder, { recursive: true });
  return JSON.parse(told);
}

describe("an archive", () => {
  it("has sums that check", () => {
    // From memory: the check value of this CRC, for the digits 1 to 9, as catalogues of such sums have it.
    expect(crc_32(bytes("123456789"))).toBe(0xcbf43926);
    expect(crc_32(bytes(""))).toBe(0);
  });
  it("is read by another program", async () => {
    const noise = Uint8Array.from({ length: 70000 }, (_, i) => (i * 7919) % 251);
    const parts = [
      { name: "Gebäude.shp", bytes: noise },
      { name: "empty.cpg", bytes: bytes("") },
      { name: "town.prj", bytes: bytes("GEOGCS") },
    ];
    expect(await as_python_reads(zipped(parts))).toEqual([
      null,
      { "Gebäude.shp": [...noise], "empty.cpg": [], "town.prj": [...bytes("GEOGCS")] },
    ]);
  });
});
