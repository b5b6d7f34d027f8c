// SPDX-License-Identifier: GPL-3.0-or-later
// One predicted picture as it comes: a preview at once, the whole of it when nothing has changed for a while.
import { failure_in_words } from "../../store/notes.svelte";
import type { PictureAnswer, PictureQuestion } from "../asks";
import { Latest } from "../latest";
import { darkroom } from "./darkroom";

const kPreview_ms = 120;
const kWhole_ms = 600;

export class Exposure {
  answer = $state.raw<PictureAnswer | null>(null);
  failure = $state("");
  /** Nothing newer than what is shown is on its way. */
  done = $state(false);
  private readonly latest = new Latest();

  readonly source = $derived(this.answer ? `data:image/png;base64,${this.answer.png}` : "");

  /** A piece around the subject has no preview: what is there stays until it comes. */
  take(question: PictureQuestion): void {
    this.done = false;
    if (question.size === "crop") {
      this.ask(kWhole_ms, question, () => (this.done = true));
      return;
    }
    this.ask(this.answer ? kPreview_ms : 0, { ...question, size: "preview" }, () => {
      if (question.size === "preview") this.done = true;
      else this.ask(kWhole_ms, question, () => (this.done = true));
    });
  }

  private ask(pause_ms: number, question: PictureQuestion, then: () => void): void {
    this.latest.ask(
      pause_ms,
      (signal) => darkroom.develop(question, signal),
      (answer) => {
        this.answer = answer;
        this.failure = "";
        then();
      },
      (failure) => {
        this.failure = failure_in_words(failure);
        this.done = true;
      },
    );
  }

  stop(): void {
    this.latest.stop();
  }
}
