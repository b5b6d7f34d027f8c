// SPDX-License-Identifier: GPL-3.0-or-later
// Maps on their way into the site: the files that wait their turn, how far the server is with the first, what came of it.
import type { Telling } from "../base/text.svelte";
import type { ServerEvents } from "../wire/answers";
import { random_word } from "../wire/ask";

export type MapKind = "footprints" | "terrain";
/** file null: it is still to be chosen. */
export interface Waiting {
  readonly kind: MapKind;
  readonly file: File | null;
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

class Importing {
  waiting = $state.raw<readonly Waiting[]>([]);
  running = $state.raw<Running | null>(null);
  refusal = $state.raw<Refusal | null>(null);
  told = $state.raw<readonly string[]>([]);

  readonly now = $derived(this.waiting[0] ?? null);
  readonly shown = $derived(this.waiting.length > 0 || this.told.length > 0);

  begin(waiting: readonly Waiting[]): void {
    this.put_away();
    this.waiting = waiting;
  }
  choose(file: File | null): void {
    const now = this.now;
    if (now) this.waiting = [{ kind: now.kind, file }, ...this.waiting.slice(1)];
    this.refusal = null;
  }
  started(stop: () => void): string {
    const id = random_word();
    this.refusal = null;
    this.told = [];
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
  put_away(): void {
    this.running?.stop();
    this.running = null;
    this.waiting = [];
    this.refusal = null;
    this.told = [];
  }
}

export const importing = new Importing();
