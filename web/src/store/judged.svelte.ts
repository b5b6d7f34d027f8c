// SPDX-License-Identifier: GPL-3.0-or-later
// The server's judgement of the site. `judged.answer` may be of an older revision than the document: `judged.behind` says
// so, and the figures are then shown as being worked out anew.
import type { CheckAnswer, JudgedNeed, ServerError, ServerEvents } from "../wire/answers";
import { in_words } from "../wire/ask";
import { site } from "./site.svelte";

class Judged {
  answer = $state.raw<CheckAnswer | null>(null);
  revision = $state(-1);
  stage = $state<"verdicts" | "remedies" | "failed" | null>(null);
  private errors = $state.raw<readonly ServerError[]>([]);
  progress = $state.raw<{ readonly share: number; readonly words: string } | null>(null);

  /** Why it cannot be judged; empty where it can. */
  readonly failure = $derived(in_words(this.errors));
  readonly behind = $derived(this.revision !== site.revision || site.unsaved > 0);

  heard(event: ServerEvents["check"]): void {
    this.revision = event.revision;
    this.stage = event.stage;
    this.progress = null;
    this.errors = event.stage === "failed" ? event.answer.errors : [];
    if (event.stage !== "failed") this.answer = event.answer;
  }
  heard_progress(event: ServerEvents["progress"]): void {
    if (event.job === "check") this.progress = event.share < 1 ? { share: event.share, words: event.words } : null;
  }
  forget(): void {
    this.answer = null;
    this.revision = -1;
    this.stage = null;
    this.errors = [];
    this.progress = null;
  }
  need(name: string): JudgedNeed | null {
    return this.answer?.needs.find((need) => need.name === name) ?? null;
  }
}

export const judged = new Judged();
