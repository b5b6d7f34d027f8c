// SPDX-License-Identifier: GPL-3.0-or-later
// Lists of the document that are not drawn, each filled in by form.
import { desk } from "../store/desk.svelte";
import type { ListName } from "../wire/document";
import { add_acts } from "./acts";

const open = (list: ListName) => (): void => {
  desk.site_form = false;
  desk.list_form = list;
};

add_acts([
  { id: "conditions_form", group: "light", keys: ["Shift+d"], run: open("conditions") },
  { id: "catalogue_form", group: "site", keys: ["Shift+k"], run: open("catalogue") },
  { id: "level_tables_form", group: "site", keys: ["Shift+t"], run: open("settings/level_tables") },
]);
