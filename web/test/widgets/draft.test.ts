import { describe, expect, it } from "vitest";
import { Draft } from "../../src/widgets/draft.svelte";

const was = { name: "pole", height_m: 3 };
const half = { ...was, fixing: { count: 2 } };
const now = { ...was, fixing: { kind: "clamp" } };
const never = (): Promise<string | null> => Promise.reject(new Error("it was not whole"));

describe("what is filled in", () => {
  it("stays while half of what is needed is missing, and is not sent", async () => {
    const draft = new Draft();
    await draft.put(was, half, false, never);
    expect([draft.values, draft.refused]).toEqual([half, null]);
  });
  it("goes once it was taken, so that what is undone afterwards is seen undone", async () => {
    const draft = new Draft();
    await draft.put(was, now, true, () => {
      draft.seen(now);
      return Promise.resolve(null);
    });
    expect(draft.values).toBe(null);
  });
  it("stays when it was refused, though the document shows what stood there again", async () => {
    const draft = new Draft();
    await draft.put(was, now, true, () => {
      draft.seen(now);
      draft.seen(was);
      return Promise.resolve("its hold is not known");
    });
    expect([draft.values, draft.refused]).toEqual([now, "its hold is not known"]);
    await draft.put(was, { ...now, height_m: 4 }, true, () => Promise.resolve(null));
    expect([draft.values, draft.refused]).toEqual([null, null]);
  });
  it("gives way to what another page put there", async () => {
    const draft = new Draft();
    await draft.put(was, half, false, never);
    draft.seen({ ...was, height_m: 9 });
    expect(draft.values).toBe(null);
  });
  it("is not lost to an answer about what was typed before it", async () => {
    const draft = new Draft();
    let answer = (_: string | null): void => undefined;
    const first = draft.put(was, now, true, () => new Promise((resolve) => (answer = resolve)));
    await draft.put(was, half, false, never);
    answer(null);
    await first;
    expect(draft.values).toEqual(half);
  });
});
