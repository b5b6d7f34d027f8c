// SPDX-License-Identifier: GPL-3.0-or-later
// Going back to what was: several undoings or redoings in a row, never over what another page has done meanwhile.
import { edit_said } from "../base/text.svelte";
import { with_lengths_in } from "../base/units";
import type { HistoryAnswer } from "../wire/answers";
import { prefer } from "./prefer.svelte";
import { site } from "./site.svelte";

/** What an edit is called, in the language and the unit of the page. */
export const done_words = (words: string): string => with_lengths_in(prefer.units, edit_said(words));

export type Edits = HistoryAnswer["edits"];

/**
 * Steps to the document as it was after the edit at `index` (newest first; one past the last: before all that is listed):
 * undoings negative, redoings positive.
 */
export function steps_to(edits: Edits, index: number): number {
  const count = (list: Edits, undone: boolean): number => list.filter((each) => each.undone === undone).length;
  return count(edits.slice(index), true) - count(edits.slice(0, index), false);
}

/** `revision` is the one at which the list was read. False when someone else was there first: no step is made over it. */
export async function go(steps: number, revision: number): Promise<boolean> {
  const back = steps < 0;
  for (let made = 0; made < Math.abs(steps); made++) {
    if (site.revision !== revision + made || site.unsaved > 0) return false;
    await (back ? site.undo() : site.redo());
  }
  return site.revision === revision + Math.abs(steps);
}
