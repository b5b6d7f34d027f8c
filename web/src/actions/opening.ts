// SPDX-License-Identifier: GPL-3.0-or-later
// Opening a site: one that is there, the demo, a new one, a new one over a picture of its plan.
import { rounded } from "../base/plane";
import { edit_words } from "../base/edit_words";
import { text } from "../base/text.svelte";
import { desk } from "../store/desk.svelte";
import { notes } from "../store/notes.svelte";
import { read_another } from "../store/link";
import { plan_scaling } from "../store/plan_scaling.svelte";
import { site } from "../store/site.svelte";
import { WireError } from "../wire/ask";
import * as server from "../wire/server";
import { add_acts } from "./acts";
import { fit_site } from "./look";

export async function open_document(file: string): Promise<void> {
  await server.open_site({ file });
  await read_another();
}

export async function open_demo(): Promise<void> {
  await server.open_site({ demo: true, as: await free_file("demo") });
  await read_another();
}

export async function open_new(name: string): Promise<void> {
  await server.open_site({ new: { name, as: await free_file(name) } });
  await read_another();
}

/** The picture lies at ten pixels a metre until two of its points have been shown. */
export async function open_with_plan(name: string, file: File, page: number): Promise<void> {
  if (!(await is_picture(file))) throw new WireError(400, [{ text: text("start.no_picture", { name: file.name }) }]);
  await open_new(name);
  await lay_plan(file, page);
}

export async function lay_plan(file: File, page: number): Promise<void> {
  const { picture, columns, rows } = await notes.during(
    text("start.reading", { name: file.name }),
    server.put_plan(file, page),
  );
  const metres_per_pixel = 0.1;
  const now = { picture, columns, rows, metres_per_pixel, north_west: [0, rounded(rows * metres_per_pixel, 0.001)] };
  const was = site.document?.site.plan ?? null;
  await site.edit(edit_words("plan"), [{ at: ["site", "plan"], was, now }]);
  fit_site();
  plan_scaling.begin();
}

/** By its first bytes, before a site is made for it: PNG, JPEG or PDF. */
async function is_picture(file: File): Promise<boolean> {
  const first = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  return [
    [0x89, 0x50, 0x4e, 0x47],
    [0xff, 0xd8, 0xff],
    [0x25, 0x50, 0x44, 0x46],
  ].some((kind) => kind.every((byte, i) => first[i] === byte));
}

/** `Alder Lane` becomes `alder_lane.sightfall.json`, or the next one that is not in the folder yet. */
async function free_file(name: string): Promise<string> {
  const { documents } = await server.start();
  const files = new Set(documents.map((document) => document.file));
  const plain = name
    .normalize("NFKD")
    .replace(/[^\w\s-]/g, "")
    .trim()
    .toLowerCase()
    .replace(/\s+/g, "_");
  const stem = plain.slice(0, 60) || "site";
  for (let number = 1; ; ++number) {
    const file = `${stem}${number > 1 ? `_${number}` : ""}.sightfall.json`;
    if (!files.has(file)) return file;
  }
}

add_acts([{ id: "open_another", group: "site", keys: ["Ctrl+o"], run: () => (desk.start_shown = true) }]);
