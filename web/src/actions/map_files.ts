// SPDX-License-Identifier: GPL-3.0-or-later
// What is sent of the files that were chosen: one map as it is; the parts of a Shapefile, chosen together, in an archive.
//   Checked  test/actions/map_files.test.ts
import { text } from "../base/text.svelte";
import { zipped } from "../base/zip";

const kParts = [".shp", ".shx", ".dbf", ".prj", ".cpg"];
/** The server takes no larger ones (docs/wire.md). */
const kLargest_mib = 64;

const ending_of = (file: File): string => /\.[^.]*$/.exec(file.name.toLowerCase())?.[0] ?? "";

/** The file to send, or why these are no one map. Parts that a Shapefile lacks are told by the server, as of any archive. */
export async function one_map(files: readonly File[]): Promise<File | string> {
  const [first] = files;
  const names = files.map((file) => file.name).join(", ");
  const parts = files.filter((file) => kParts.includes(ending_of(file)));
  const outlines = parts.find((file) => ending_of(file) === ".shp");
  if (!first || (parts.length > 0 ? !outlines || parts.length < files.length : files.length > 1))
    return text("import.not_one_map", { names });
  const mib = files.reduce((sum, file) => sum + file.size, 0) / 2 ** 20;
  if (mib > kLargest_mib) return text("import.too_large", { names, found: Math.ceil(mib), most: kLargest_mib });
  if (!outlines) return first;
  const all = parts.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }));
  return new File([zipped(await Promise.all(all))], outlines.name.replace(/\.[^.]*$/, ".zip"));
}
