// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures are asked for one after the other, since the server keeps one waiting for a page: previews first, then whole
// ones, each in the order of asking. What nobody waits for any more is not asked.
//   Checked  test/view/darkroom.test.ts
import { picture, type PictureAnswer, type PictureQuestion } from "../asks";

type Ask = (question: PictureQuestion, signal: AbortSignal) => Promise<PictureAnswer>;
interface Waiting {
  readonly question: PictureQuestion;
  readonly signal: AbortSignal;
  readonly take: (answer: Promise<PictureAnswer>) => void;
}

export class Darkroom {
  private waiting: Waiting[] = [];
  private busy = false;

  constructor(private readonly ask: Ask = picture) {}

  develop(question: PictureQuestion, signal: AbortSignal): Promise<PictureAnswer> {
    return new Promise((take) => {
      this.waiting.push({ question, signal, take });
      void this.work();
    });
  }

  private next(): Waiting | undefined {
    this.waiting = this.waiting.filter(({ signal }) => !signal.aborted);
    const preview = this.waiting.findIndex(({ question }) => question.size === "preview");
    return this.waiting.splice(Math.max(0, preview), 1)[0];
  }

  private async work(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    for (let job = this.next(); job; job = this.next()) {
      const answer = this.ask(job.question, job.signal);
      job.take(answer);
      await answer.catch(() => null);
    }
    this.busy = false;
  }
}

export const darkroom = new Darkroom();
