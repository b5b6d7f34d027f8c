// SPDX-License-Identifier: GPL-3.0-or-later
// Questions asked while something is dragged: one is under way and is answered, and of those that came meanwhile only the
// newest is asked next. So answers keep coming however long the dragging lasts.
//   Checked  test/view/newest.test.ts

export interface Taking<Answer> {
  readonly question: (signal: AbortSignal) => Promise<Answer>;
  /** `last`: nothing newer waits. */
  readonly took: (answer: Answer, last: boolean) => void;
  readonly failed: (failure: unknown) => void;
}

export class Newest<Answer> {
  private waiting: Taking<Answer> | null = null;
  private running: AbortController | null = null;

  ask(taking: Taking<Answer>): void {
    this.waiting = taking;
    if (!this.running) void this.work();
  }

  private async work(): Promise<void> {
    const running = new AbortController();
    this.running = running;
    for (let taking = this.take(); taking; taking = this.take()) {
      try {
        const answer = await taking.question(running.signal);
        if (running.signal.aborted) return;
        taking.took(answer, this.waiting === null);
      } catch (failure) {
        if (running.signal.aborted) return;
        // what was asked since may well succeed
        if (this.waiting === null) taking.failed(failure);
      }
    }
    if (this.running === running) this.running = null;
  }

  private take(): Taking<Answer> | null {
    const taking = this.waiting;
    this.waiting = null;
    return taking;
  }

  stop(): void {
    this.waiting = null;
    this.running?.abort();
    this.running = null;
  }
}
