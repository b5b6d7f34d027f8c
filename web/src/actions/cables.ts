// SPDX-License-Identifier: GPL-3.0-or-later
// Leading a cable: from the feed chosen, or to the camera chosen, else from the first feed with a port to spare.
import { suggested_run } from "../store/cables";
import { choice } from "../store/choice.svelte";
import { desk } from "../store/desk.svelte";
import { site } from "../store/site.svelte";
import { add_acts } from "./acts";

const suggested = () => site.document && suggested_run(site.document, choice.only);

add_acts([
  {
    id: "add_run",
    group: "draw",
    keys: ["Shift+r"],
    can: () => suggested() !== null,
    run: () => (desk.run_asked = suggested()),
  },
]);
