// SPDX-License-Identifier: GPL-3.0-or-later
// Maps on their way into the site: the files that wait their turn, how far the server is with the first, what came of it.
import type { Telling } from "../base/text.svelte";
import type { Change, ServerEvents } from "../wire/answers";
import { random_word } from "../wire/ask";

export type MapKind = "footprints" | "terrain";
/** files: none while they are still to be chosen; several are the parts of one map. */
export interface Waiting {
  readonly kind: MapKind;
  readonly files: readonly File[];
}
/** field: of the form, when the server named one. */
export interface Refusal {
  readonly words: Telling;
  readonly field: string | null;
}
export interface Running {
  readonly id: string;
  readonly share: number | null;
  readonly words: string;
  readonly stop: () => void;
}

/** What a map would do where something stands already: nothing is done before a person has chosen. */
export interface Clashing {
  readonly site: string;
  readonly words: string;
  readonly changes: readonly Change[];
  readonly told: readonly string[];
  /** What the form said. */
  readonly values: Readonly<Record<string, string>>;
}

class Importing {
  waiting = $state.raw<readonly Waiting[]>([]);
  running = $state.raw<Running | null>(null);
  refusal = $state.raw<Refusal | null>(null);
  told = $state.raw<readonly string[]>([]);
  /** What became of it where a person had chosen, in the page's words. */
  counted = $state("");
  clashing = $state.raw<Clashing | null>(null);
  /** What was chosen is on its way. */
  settling = $state(false);

  readonly now = $derived(this.waiting[0] ?? null);
  readonly shown = $derived(this.waiting.length > 0 || this.told.length > 0);

  begin(waiting: readonly Waiting[]): void {
    this.put_away();
    this.waiting = waiting;
  }
  choose(files: readonly File[]): void {
    const now = this.now;
    if (now) this.waiting = [{ kind: now.kind, files }, ...this.waiting.slice(1)];
    this.refusal = null;
  }
  started(stop: () => void): string {
    const id = random_word();
    this.refusal = null;
    this.told = [];
    this.counted = "";
    this.running = { id, share: null, words: "", stop };
    return id;
  }
  heard_progress({ job, share, words }: ServerEvents["progress"]): void {
    if (this.running?.id === job) this.running = { ...this.running, share, words };
  }
  /** Nothing comes of a job that was put away meanwhile. */
  ended(id: string, told: readonly string[]): void {
    if (this.running?.id !== id) return;
    this.running = null;
    this.told = told;
    this.waiting = this.waiting.slice(1);
  }
  refused(id: string, refusal: Refusal): void {
    if (this.running?.id !== id) return;
    this.running = null;
    this.refusal = refusal;
  }
  clashed(id: string, clashing: Clashing): void {
    if (this.running?.id !== id) return;
    this.running = null;
    this.clashing = clashing;
  }
  /** Back to the form; nothing was done. */
  leave_clash(refusal: Refusal | null = null): void {
    this.clashing = null;
    this.settling = false;
    this.refusal = refusal;
  }
  settled(clashing: Clashing, counted: string): void {
    if (this.clashing !== clashing) return;
    this.leave_clash();
    this.told = clashing.told;
    this.counted = counted;
    this.waiting = this.waiting.slice(1);
  }
  put_away(): void {
    this.running?.stop();
    this.running = null;
    this.waiting = [];
    this.leave_clash();
    this.told = [];
    this.counted = "";
  }
}

export const importing = new Importing();
