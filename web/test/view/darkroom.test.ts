// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import type { PictureAnswer, PictureQuestion } from "../../src/view/asks";
import { Darkroom } from "../../src/view/prints/darkroom";

interface Asked {
  readonly question: PictureQuestion;
  readonly done: (answer: PictureAnswer) => void;
  readonly failed: (reason: Error) => void;
}
const answer = {} as PictureAnswer;
const question = (camera: string, size: PictureQuestion["size"]): PictureQuestion => ({
  camera,
  size,
  condition: "day",
  mover: "none",
});
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function room(): { room: Darkroom; asked: Asked[] } {
  const asked: Asked[] = [];
  const made = new Darkroom((one) => new Promise((done, failed) => asked.push({ question: one, done, failed })));
  return { room: made, asked };
}

describe("the darkroom", () => {
  it("asks for one picture at a time, previews first", async () => {
    const { room: dark, asked } = room();
    const stay = new AbortController().signal;
    for (const [camera, size] of [
      ["a", "whole"],
      ["b", "whole"],
      ["c", "preview"],
      ["d", "preview"],
    ] as const)
      void dark.develop(question(camera, size), stay);
    for (let i = 0; i < 4; ++i) {
      expect(asked).toHaveLength(i + 1);
      asked[i]?.done(answer);
      await settled();
    }
    expect(asked.map((each) => each.question.camera)).toEqual(["a", "c", "d", "b"]);
  });
  it("goes on after a failure, which its asker hears", async () => {
    const { room: dark, asked } = room();
    const stay = new AbortController().signal;
    const first = dark.develop(question("a", "whole"), stay);
    void dark.develop(question("b", "whole"), stay);
    asked[0]?.failed(new Error("no"));
    await expect(first).rejects.toThrow("no");
    await settled();
    expect(asked).toHaveLength(2);
  });
  it("does not ask for what nobody waits for", async () => {
    const { room: dark, asked } = room();
    const gone = new AbortController();
    void dark.develop(question("a", "whole"), new AbortController().signal);
    void dark.develop(question("b", "whole"), gone.signal);
    gone.abort();
    asked[0]?.done(answer);
    await settled();
    expect(asked.map((each) => each.question.camera)).toEqual(["a"]);
  });
});
