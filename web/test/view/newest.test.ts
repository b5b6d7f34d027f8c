// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { Newest } from "../../src/view/newest";

interface Open {
  readonly name: string;
  readonly signal: AbortSignal;
  readonly answer: (with_: string) => void;
  readonly fail: (why: string) => void;
}

function bench() {
  const newest = new Newest<string>();
  const open: Open[] = [];
  const seen: string[] = [];
  const ask = (name: string): void =>
    newest.ask({
      question: (signal) =>
        new Promise((answer, fail) => open.push({ name, signal, answer, fail: (why) => fail(new Error(why)) })),
      took: (answer, last) => seen.push(`${answer}${last ? " last" : ""}`),
      failed: (failure) => seen.push(String(failure)),
    });
  const settled = (): Promise<void> => new Promise((done) => setTimeout(done));
  return { newest, open, seen, ask, settled };
}

describe("the newest of many questions", () => {
  it("answers the one under way, then the newest, and never those between", async () => {
    const { open, seen, ask, settled } = bench();
    for (const name of ["a", "b", "c"]) ask(name);
    expect(open.map((each) => each.name)).toEqual(["a"]);
    open[0]?.answer("a");
    await settled();
    expect(open.map((each) => each.name)).toEqual(["a", "c"]);
    expect(open[0]?.signal.aborted).toBe(false);
    open[1]?.answer("c");
    await settled();
    expect(seen).toEqual(["a", "c last"]);
  });

  it("asks again after a pause", async () => {
    const { open, ask, settled } = bench();
    ask("a");
    open[0]?.answer("a");
    await settled();
    ask("b");
    expect(open.map((each) => each.name)).toEqual(["a", "b"]);
  });

  it("tells a failure only when nothing newer is asked", async () => {
    const { open, seen, ask, settled } = bench();
    ask("a");
    ask("b");
    open[0]?.fail("no");
    await settled();
    expect(seen).toEqual([]);
    open[1]?.fail("no");
    await settled();
    expect(seen).toEqual(["Error: no"]);
  });

  it("drops everything when stopped, and can go on", async () => {
    const { newest, open, seen, ask, settled } = bench();
    ask("a");
    ask("b");
    newest.stop();
    expect(open[0]?.signal.aborted).toBe(true);
    ask("c");
    open[0]?.answer("a");
    await settled();
    expect(open.map((each) => each.name)).toEqual(["a", "c"]);
    open[1]?.answer("c");
    await settled();
    expect(seen).toEqual(["c last"]);
  });
});
