// SPDX-License-Identifier: GPL-3.0-or-later
// One predicted picture as it comes: previews that keep up with what is dragged, the whole of it when nothing has changed
// for a while.
import type { Telling } from "../../base/text.svelte";
import { failure_in_words } from "../../store/notes.svelte";
import { under_way } from "../../store/under_way.svelte";
import type { PictureAnswer, PictureQuestion } from "../asks";
import { Latest } from "../latest";
import { darkroom } from "./darkroom";
import { Newest } from "../newest";

const kWhole_ms = 600;

export class Exposure {
  answer = $state.raw<PictureAnswer | null>(null);
  failure = $state.raw<Telling>("");
  /** Nothing newer than what is shown is on its way. */
  done = $state(false);
  /** The whole picture was stopped before its end: what is shown is a preview, until go_on(). */
  halted = $state(false);
  private job = $state<string | null>(null);
  private asked: PictureQuestion | null = null;
  private readonly previews = new Newest<PictureAnswer>();
  private readonly whole = new Latest();

  /** How far the whole picture is, 0 to 1; null when none is being made. */
  readonly share = $derived(under_way.share(this.job));
  readonly source = $derived(this.answer ? `data:image/png;base64,${this.answer.png}` : "");

  /** A piece around the subject has no preview: what is there stays until it comes. */
  take(question: PictureQuestion): void {
    this.done = false;
    this.halted = false;
    this.stop_whole();
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

  /** Stops the whole picture; the preview stays. */
  halt(): void {
    this.stop_whole();
    this.halted = true;
    this.done = true;
  }
  go_on(): void {
    if (!this.asked) return;
    this.halted = false;
    this.done = false;
    this.finish(this.asked);
  }

  private finish(question: PictureQuestion): void {
    this.asked = question;
    this.whole.ask(
      kWhole_ms,
      (signal) => {
        const id = under_way.begun();
        this.job = id;
        return darkroom.develop({ ...question, id }, signal).finally(() => under_way.ended(id));
      },
      (answer) => {
        this.show(answer);
        this.done = true;
      },
      (failure) => this.fail(failure),
    );
  }

  private stop_whole(): void {
    this.whole.stop();
    if (this.job !== null) under_way.ended(this.job);
    this.job = null;
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
    this.stop_whole();
  }
}
