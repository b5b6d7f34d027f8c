// SPDX-License-Identifier: GPL-3.0-or-later
// Remedies that were tried and can be taken back by undoing: only while what was tried is what undo would undo.
import { site } from "../../store/site.svelte";

export interface Tried {
  readonly words: string;
  readonly remedy: string;
}

class TriedRemedies {
  private kept = $state.raw<Readonly<Record<string, Tried>>>({});

  of(need: string): Tried | null {
    const found = this.kept[need];
    return found && site.undo_words === found.words ? found : null;
  }
  keep(need: string, tried: Tried): void {
    this.kept = { ...this.kept, [need]: tried };
  }
  forget(need: string): void {
    const { [need]: _gone, ...rest } = this.kept;
    this.kept = rest;
  }
}

export const tried = new TriedRemedies();
