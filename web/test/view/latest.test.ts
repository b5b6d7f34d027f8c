// SPDX-License-Identifier: GPL-3.0-or-later
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Latest } from "../../src/view/latest";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe("the newest question", () => {
  it("alone is asked when several come at once", async () => {
    const latest = new Latest();
    const asked = vi.fn((signal: AbortSignal) => Promise.resolve(signal.aborted));
    const took = vi.fn();
    latest.ask(50, asked, () => took("first"), took);
    latest.ask(50, asked, () => took("second"), took);
    await vi.advanceTimersByTimeAsync(60);
    expect(asked).toHaveBeenCalledTimes(1);
    expect(took.mock.calls).toEqual([["second"]]);
  });
  it("alone is answered: what comes after it was replaced is dropped and its request ended", async () => {
    const latest = new Latest();
    let answer_first: (words: string) => void = () => undefined;
    let first_signal: AbortSignal | undefined;
    const took = vi.fn();
    latest.ask(
      0,
      (signal) => {
        first_signal = signal;
        return new Promise<string>((resolve) => (answer_first = resolve));
      },
      took,
      took,
    );
    await vi.advanceTimersByTimeAsync(1);
    latest.ask(0, () => Promise.resolve("second"), took, took);
    answer_first("first");
    await vi.advanceTimersByTimeAsync(1);
    expect(first_signal?.aborted).toBe(true);
    expect(took.mock.calls).toEqual([["second"]]);
  });
  it("fails aloud, but not when it was stopped", async () => {
    const latest = new Latest();
    const failed = vi.fn();
    latest.ask(0, () => Promise.reject(new Error("no")), vi.fn(), failed);
    await vi.advanceTimersByTimeAsync(1);
    expect(failed).toHaveBeenCalledTimes(1);
    latest.ask(10, () => Promise.reject(new Error("no")), vi.fn(), failed);
    latest.stop();
    await vi.advanceTimersByTimeAsync(20);
    expect(failed).toHaveBeenCalledTimes(1);
  });
});
