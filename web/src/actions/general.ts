// SPDX-License-Identifier: GPL-3.0-or-later
// Acts on the site as a whole and on the page.
import { edit_words } from "../base/edit_words";
import type { Units } from "../base/units";
import { desk } from "../store/desk.svelte";
import { site } from "../store/site.svelte";
import { add_acts } from "./acts";

add_acts([
  {
    id: "undo",
    group: "change",
    keys: ["Ctrl+z"],
    can: () => site.undo_words !== null || site.unsaved > 0,
    run: () => void site.undo(),
  },
  {
    id: "redo",
    group: "change",
    keys: ["Ctrl+Shift+z", "Ctrl+y"],
    can: () => site.redo_words !== null,
    run: () => void site.redo(),
  },
  { id: "show_history", group: "change", keys: ["Shift+h"], run: () => (desk.history = true) },
  { id: "site_form", group: "site", keys: ["Shift+s"], run: () => desk.open_site_form() },
  { id: "show_acts", group: "site", keys: ["?", "F1"], run: () => (desk.acts_shown = true) },
]);

/** Metres are the default, and a field at its default is left out of the document. */
export function set_units(units: Units): void {
  const was = site.document?.settings?.units ?? null;
  const now = units === "metres" ? null : units;
  if (was !== now) void site.edit(edit_words("units"), [{ at: ["settings", "units"], was, now }]);
}
