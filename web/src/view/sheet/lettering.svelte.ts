// SPDX-License-Identifier: GPL-3.0-or-later
// The names on the sheet as it is now: worked out once, for their letters and for all that keeps clear of them.
import { choice } from "../../store/choice.svelte";
import { sheet } from "../../store/sheet.svelte";
import { site } from "../../store/site.svelte";
import { frame_of_name, names_shown } from "./names";

class Lettering {
  private readonly px_per_m = $derived(sheet.window.px_per_m);
  readonly names = $derived(site.shown ? names_shown(site.shown, this.px_per_m, (ref) => choice.is(ref)) : []);
  /** From where the site's origin is on the page. */
  readonly frames = $derived(this.names.map((name) => frame_of_name(name, this.px_per_m)));
}

export const lettering = new Lettering();
