// SPDX-License-Identifier: GPL-3.0-or-later
// Papers that are being made, and those that were: how far the server is, and the files as it gave them.
import type { Telling } from "../base/text.svelte";
import type { Paper, ServerEvents } from "../wire/answers";
import { random_word } from "../wire/ask";

export interface Making {
  readonly id: string;
  readonly share: number | null;
  readonly words: string;
  readonly stop: () => void;
}
export interface Made {
  readonly revision: number;
  readonly files: readonly Paper[];
  readonly without_shape: readonly string[];
}

class Papering {
  shown = $state(false);
  making = $state.raw<Making | null>(null);
  made = $state.raw<Made | null>(null);
  refusal = $state.raw<Telling>("");

  started(stop: () => void): string {
    const id = random_word();
    this.refusal = "";
    this.made = null;
    this.making = { id, share: null, words: "", stop };
    return id;
  }
  heard_progress({ job, share, words }: ServerEvents["progress"]): void {
    if (this.making?.id === job) this.making = { ...this.making, share, words };
  }
  /** Nothing comes of a job that was put away meanwhile. */
  ended(id: string, made: Made): void {
    if (this.making?.id !== id) return;
    this.making = null;
    this.made = made;
  }
  refused(id: string, words: Telling): void {
    if (this.making?.id !== id) return;
    this.making = null;
    this.refusal = words;
  }
  put_away(): void {
    this.making?.stop();
    this.making = null;
    this.shown = false;
  }
}

export const papering = new Papering();
