// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies that were tried: one act makes the edit, another takes it back. It can be taken back here only while it is what
// undoing would undo.
import { edit_words } from "../base/edit_words";
import { told, type Telling } from "../base/text.svelte";
import type { Remedy } from "../wire/answers";
import { site } from "./site.svelte";

export interface Tried {
  readonly words: string;
  readonly remedy: Telling;
}

class TriedRemedies {
  private kept = $state.raw<Readonly<Record<string, Tried>>>({});

  of(need: string): Tried | null {
    const found = this.kept[need];
    return found && site.undo_words === found.words ? found : null;
  }
  async try_out(need: string, remedy: Remedy): Promise<void> {
    const said = told(remedy.text);
    const words = edit_words("remedy", { remedy: remedy.text });
    if (await site.edit(words, remedy.changes ?? [])) this.kept = { ...this.kept, [need]: { words, remedy: said } };
  }
  async take_back(need: string): Promise<void> {
    const { [need]: _gone, ...rest } = this.kept;
    this.kept = rest;
    await site.undo();
  }
}

export const tried = new TriedRemedies();
