// SPDX-License-Identifier: GPL-3.0-or-later
// One predicted picture as it comes: previews that keep up with what is dragged, the whole of it when nothing has changed
// for a while.
import { failure_in_words } from "../../store/notes.svelte";
import type { PictureAnswer, PictureQuestion } from "../asks";
import { Latest } from "../latest";
import { darkroom } from "./darkroom";
import { Newest } from "../newest";

const kWhole_ms = 600;

export class Exposure {
  answer = $state.raw<PictureAnswer | null>(null);
  failure = $state("");
  /** Nothing newer than what is shown is on its way. */
  done = $state(false);
  private readonly previews = new Newest<PictureAnswer>();
  private readonly whole = new Latest();

  readonly source = $derived(this.answer ? `data:image/png;base64,${this.answer.png}` : "");

  /** A piece around the subject has no preview: what is there stays until it comes. */
  take(question: PictureQuestion): void {
    this.done = false;
    this.whole.stop();
    if (question.size === "crop") {
      this.previews.stop();
      this.finish(question);
      return;
    }
    this.previews.ask({
      question: (signal) => darkroom.develop({ ...question, size: "preview" }, signal),
      took: (answer, last) => {
        this.show(answer);
        if (!last) return;
        if (question.size === "preview") this.done = true;
        else this.finish(question);
      },
      failed: (failure) => this.fail(failure),
    });
  }

  private finish(question: PictureQuestion): void {
    this.whole.ask(
      kWhole_ms,
      (signal) => darkroom.develop(question, signal),
      (answer) => {
        this.show(answer);
        this.done = true;
      },
      (failure) => this.fail(failure),
    );
  }

  private show(answer: PictureAnswer): void {
    this.answer = answer;
    this.failure = "";
  }

  private fail(failure: unknown): void {
    this.failure = failure_in_words(failure);
    this.done = true;
  }

  stop(): void {
    this.previews.stop();
    this.whole.stop();
  }
}
