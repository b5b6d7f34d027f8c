// SPDX-License-Identifier: GPL-3.0-or-later
// Acts that alter what the sheet shows, never the document.
import { text } from "../base/text.svelte";
import { prefer } from "../store/prefer.svelte";
import { site_box } from "../store/shapes";
import { sheet } from "../store/sheet.svelte";
import { site } from "../store/site.svelte";
import { add_acts } from "./acts";

/** An empty sheet shows thirty metres. */
export function fit_site(): void {
  const box = site.document && site_box(site.document);
  sheet.fit(box ?? { west: 0, south: 0, east: 30, north: 20 });
}

const kPan_px = 80;

add_acts([
  { id: "fit", group: "look", keys: ["0", "Home"], run: fit_site },
  { id: "zoom_in", group: "look", keys: ["+", "="], run: () => sheet.zoom(1.25) },
  { id: "zoom_out", group: "look", keys: ["-"], run: () => sheet.zoom(0.8) },
  { id: "pan_west", group: "look", keys: ["Ctrl+ArrowLeft"], where: "sheet", run: () => sheet.pan(kPan_px, 0) },
  { id: "pan_east", group: "look", keys: ["Ctrl+ArrowRight"], where: "sheet", run: () => sheet.pan(-kPan_px, 0) },
  { id: "pan_north", group: "look", keys: ["Ctrl+ArrowUp"], where: "sheet", run: () => sheet.pan(0, kPan_px) },
  { id: "pan_south", group: "look", keys: ["Ctrl+ArrowDown"], where: "sheet", run: () => sheet.pan(0, -kPan_px) },
  { id: "toggle_tone", group: "look", keys: ["g"], run: () => prefer.set_tone(!prefer.tone) },
  { id: "print", group: "site", keys: ["Ctrl+p"], run: () => globalThis.print() },
]);

export function tone_words(): string {
  return text(prefer.tone ? "sheet.tone_hide" : "sheet.tone_show");
}
