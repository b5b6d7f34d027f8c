import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { plain } from "../../src/base/text.svelte";
import { notes } from "../../src/store/notes.svelte";
import { site } from "../../src/store/site.svelte";
import type { Change, SiteAnswer } from "../../src/wire/answers";

const document = {
  sightfall: 1,
  name: "Yard",
  site: { mounts: [{ name: "pole", at: [0, 0] as const, height_m: 3 }] },
  conditions: [{ name: "day", leaves: "on" as const }],
};
const begun: SiteAnswer = { revision: 7, file: "yard.sightfall.json", document, undo: null, redo: null };
const raise = (height_m: number): Change => {
  const was = document.site.mounts[0];
  return { at: ["site", "mounts", "pole"], was, now: { ...was, height_m } };
};
const height = (): number | undefined => site.document?.site.mounts?.[0]?.height_m;

type Reply = () => { status: number; body: unknown } | "down";
let replies: Reply[] = [];
let asked: { path: string; body: { words?: string; changes?: Change[] } }[] = [];

beforeEach(() => {
  vi.useFakeTimers();
  replies = [];
  asked = [];
  vi.stubGlobal("fetch", (path: string, request: RequestInit) => {
    asked.push({ path, body: request.body ? JSON.parse(String(request.body)) : {} });
    const reply = replies.shift()?.() ?? { status: 200, body: begun };
    if (reply === "down") return Promise.reject(new TypeError("no link"));
    return Promise.resolve(new Response(JSON.stringify(reply.body), { status: reply.status }));
  });
  site.took({ ...begun, file: "none" });
  site.took(begun);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const taken =
  (revision: number, changes: Change[]): Reply =>
  () => ({ status: 200, body: { revision, undo: "raise", redo: null, changes } });

describe("the document in the page", () => {
  it("shows an edit at once and holds the server's form of it afterwards", async () => {
    replies = [taken(8, [raise(4.5)])];
    const done = site.edit("raise", [raise(4)]);
    expect(height()).toBe(4);
    expect(await done).toBe(true);
    expect(height()).toBe(4.5);
    expect([site.revision, site.undo_words, site.unsaved]).toEqual([8, "raise", 0]);
  });
  it("takes its own edit once when the event overtakes the answer", async () => {
    replies = [
      () => {
        site.heard_edit({ revision: 8, tab: "x", words: "raise", undo: "raise", redo: null, changes: [raise(4)] });
        return { status: 200, body: { revision: 8, undo: "raise", redo: null, changes: [raise(4)] } };
      },
    ];
    await site.edit("raise", [raise(4)]);
    expect([site.revision, height(), site.unsaved]).toEqual([8, 4, 0]);
  });
  it("keeps an edit over a lost link and sends it when the link is back", async () => {
    replies = [() => "down", () => "down", taken(8, [raise(4)])];
    const done = site.edit("raise", [raise(4)]);
    await vi.advanceTimersByTimeAsync(100);
    expect([site.linked, site.unsaved, height()]).toEqual([false, 1, 4]);
    await vi.advanceTimersByTimeAsync(5000);
    expect(await done).toBe(true);
    expect([site.linked, site.unsaved]).toEqual([true, 0]);
  });
  it("sends edits one after another in their order", async () => {
    replies = [taken(8, [raise(4)]), taken(9, [raise(5)])];
    const both = [site.edit("first", [raise(4)]), site.edit("second", [raise(5)])];
    expect(await Promise.all(both)).toEqual([true, true]);
    expect(asked.map((each) => each.body.words)).toEqual(["first", "second"]);
    expect([site.revision, height()]).toEqual([9, 5]);
  });
  it("shows a conflict, loses nothing, and puts mine over theirs when told", async () => {
    const theirs = { ...document.site.mounts[0], height_m: 9 };
    const conflict = { ...raise(4), found: theirs };
    const now = { ...begun, revision: 8, document: { ...document, site: { mounts: [theirs] } } } as SiteAnswer;
    replies = [() => ({ status: 409, body: { conflicts: [conflict] } }), () => ({ status: 200, body: now })];
    expect(await site.edit("raise", [raise(4)])).toBe(false);
    await vi.advanceTimersByTimeAsync(0);
    expect([site.conflicts.length, height(), site.unsaved]).toEqual([1, 9, 0]);
    replies = [taken(9, [raise(4)])];
    await site.resolve(site.conflicts[0]!, true);
    expect(asked.at(-1)?.body.changes?.[0]?.was).toEqual(theirs);
    expect([site.conflicts.length, height()]).toEqual([0, 4]);
  });
  it("tells who asked why an edit was refused, and nobody else", async () => {
    replies = [() => ({ status: 400, body: { errors: [{ text: "too high" }] } })];
    expect(plain((await site.edit_or_why("raise", [raise(400)])) ?? "")).toBe("too high");
    expect([height(), notes.all]).toEqual([3, []]);
    replies = [taken(8, [raise(4)])];
    expect(await site.edit_or_why("raise", [raise(4)])).toBe(null);
  });
  it("reads the site anew when a revision was missed", async () => {
    const far = { ...begun, revision: 12, document: { ...document, name: "Yard, later" } };
    replies = [() => ({ status: 200, body: far })];
    site.heard_edit({ revision: 12, tab: "x", words: "w", undo: null, redo: null, changes: [] });
    await vi.advanceTimersByTimeAsync(0);
    expect([site.revision, site.document?.name]).toEqual([12, "Yard, later"]);
  });
  it("a trial is shown and asked about, not kept", () => {
    site.try_out([raise(6)]);
    expect(site.shown?.site.mounts?.[0]?.height_m).toBe(6);
    expect([height(), site.ahead.length]).toEqual([3, 1]);
    site.drop();
    expect(site.ahead.length).toBe(0);
  });
});
