// SPDX-License-Identifier: GPL-3.0-or-later
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { under_way } from "../../src/store/under_way.svelte";
import { Exposure } from "../../src/view/prints/exposure.svelte";

interface Asked {
  readonly size: string;
  readonly id: string | undefined;
  readonly signal: AbortSignal;
  readonly answer: () => void;
}

describe("a picture as it comes", () => {
  let asked: Asked[] = [];
  beforeEach(() => {
    asked = [];
    vi.useFakeTimers();
    vi.stubGlobal("fetch", (_: string, { body, signal }: { body: string; signal: AbortSignal }) => {
      const { size, id } = JSON.parse(body) as Asked;
      return new Promise((answered, failed) => {
        const answer = (): void => answered(new Response(JSON.stringify({ png: size })));
        signal.addEventListener("abort", () => failed(new DOMException("", "AbortError")));
        asked.push({ size, id, signal, answer });
        if (size === "preview") answer();
      });
    });
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });
  const question = { camera: "yard", condition: "day", mover: "walker", size: "whole" } as const;
  const whole = async (picture: Exposure): Promise<Asked> => {
    picture.take(question);
    await vi.advanceTimersByTimeAsync(700);
    return asked.at(-1)!;
  };

  it("is a preview first, then whole, and tells how far that is", async () => {
    const picture = new Exposure();
    const job = await whole(picture);
    expect(asked.map((each) => each.size)).toEqual(["preview", "whole"]);
    expect([picture.answer?.png, picture.done, picture.share]).toEqual(["preview", false, 0]);
    under_way.heard_progress({ job: job.id!, share: 0.4, words: "casting rays" });
    under_way.heard_progress({ job: "of another page", share: 0.9, words: "" });
    expect([picture.share, under_way.share("of another page")]).toEqual([0.4, null]);
    job.answer();
    await vi.advanceTimersByTimeAsync(1);
    expect([picture.answer?.png, picture.done, picture.share]).toEqual(["whole", true, null]);
  });
  it("is stopped, which the server hears of, and made after all", async () => {
    const picture = new Exposure();
    const job = await whole(picture);
    picture.halt();
    await vi.advanceTimersByTimeAsync(1);
    expect(job.signal.aborted).toBe(true);
    expect([picture.answer?.png, picture.halted, picture.share, picture.failure]).toEqual(["preview", true, null, ""]);
    picture.go_on();
    await vi.advanceTimersByTimeAsync(700);
    expect([picture.halted, asked.at(-1)!.size, asked.at(-1)!.id === job.id]).toEqual([false, "whole", false]);
    asked.at(-1)!.answer();
    await vi.advanceTimersByTimeAsync(1);
    expect(picture.answer?.png).toBe("whole");
  });
  it("is not stopped any longer once another is asked for", async () => {
    const picture = new Exposure();
    await whole(picture);
    picture.halt();
    picture.take({ ...question, size: "preview" });
    await vi.advanceTimersByTimeAsync(700);
    expect([picture.halted, picture.done, asked.at(-1)!.size]).toEqual([false, true, "preview"]);
  });
});
