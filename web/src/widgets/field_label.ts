// SPDX-License-Identifier: GPL-3.0-or-later
import { has_text, text } from "../base/text.svelte";
import { plain_words } from "./fields";

/** What a field of the document is called on the page. */
export function field_label(name: string): string {
  return has_text(`fields.${name}`) ? text(`fields.${name}`) : plain_words(name);
}
