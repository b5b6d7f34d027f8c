// SPDX-License-Identifier: GPL-3.0-or-later
// Questions of which only the newest answer counts: a new one waits for a pause, and sends the one before away.
//   Checked  test/view/latest.test.ts

export class Latest {
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private running: AbortController | null = null;

  /** After `pause_ms` without another `ask`; what comes too late is dropped, and an aborted question fails silently. */
  ask<Answer>(
    pause_ms: number,
    question: (signal: AbortSignal) => Promise<Answer>,
    took: (answer: Answer) => void,
    failed: (failure: unknown) => void,
  ): void {
    this.stop();
    const running = new AbortController();
    this.running = running;
    const current = (): boolean => this.running === running && !running.signal.aborted;
    this.waiting = setTimeout(() => {
      question(running.signal).then(
        (answer) => current() && took(answer),
        (failure: unknown) => current() && failed(failure),
      );
    }, pause_ms);
  }

  stop(): void {
    clearTimeout(this.waiting);
    this.running?.abort();
    this.running = null;
  }
}
