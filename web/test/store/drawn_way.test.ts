import { readFileSync } from "node:fs";
import { afterEach, describe, expect, it, vi } from "vitest";
import { plain } from "../../src/base/text.svelte";
import { untold_way, with_told_way } from "../../src/store/drawn_way";
import { notes } from "../../src/store/notes.svelte";
import type { PendingEdit } from "../../src/store/outbox";
import { site } from "../../src/store/site.svelte";
import type { Change, SiteAnswer, WayAnswer } from "../../src/wire/answers";

const read = (name: string): never =>
  JSON.parse(readFileSync(new URL(`../../../schema/examples/wire/${name}.json`, import.meta.url), "utf8")) as never;
const through = read("answer_way") as WayAnswer;
const line = [
  [1, 1],
  [1, 12],
] as const;
const at = ["site", "ways", "way"];
const drawn: Change[] = [{ at, was: null, now: { name: "way", ...untold_way(line) } }];
const begun: SiteAnswer = {
  revision: 7,
  file: "way.sightfall.json",
  document: { sightfall: 1, name: "Yard", site: {}, conditions: [{ name: "day", leaves: "on" }] },
  undo: null,
  redo: null,
};

/** Draws the way; what was sent, in order, and what stands in the document before anything is answered. */
async function drawn_with(...answers: (WayAnswer | "down")[]) {
  vi.useFakeTimers();
  const sent: { path: string; body: { line?: unknown; changes?: Change[] } }[] = [];
  vi.stubGlobal("fetch", (path: string, request: RequestInit) => {
    const body = JSON.parse(String(request.body)) as { changes?: Change[] };
    sent.push({ path, body });
    const answer =
      path === "/api/way" ? answers.shift() : { revision: 8, undo: "draw", redo: null, changes: body.changes };
    if (answer === "down") return Promise.reject(new TypeError("no link"));
    return Promise.resolve(new Response(JSON.stringify(answer)));
  });
  site.took({ ...begun, file: "none" });
  site.took(begun);
  const done = site.draw_way("draw", drawn);
  const at_once = site.document?.site.ways?.length;
  await vi.advanceTimersByTimeAsync(5000);
  expect(await done).toBe(true);
  return { sent, at_once, way: site.document?.site.ways?.[0] };
}
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  for (const note of notes.all) notes.put_away(note.id);
});

describe("a way that is drawn", () => {
  it("is shown at once, and sent as one edit with what the program said of buildings", async () => {
    const { sent, at_once, way } = await drawn_with(through);
    expect(at_once).toBe(1);
    expect(sent.map((each) => each.path)).toEqual(["/api/way", "/api/edits"]);
    expect(sent[0]!.body).toEqual({ line });
    expect(sent[1]!.body.changes).toEqual([
      { at, was: null, now: { name: "way", kind: "wall", line, through_buildings: true } },
    ]);
    expect(way).toMatchObject({ through_buildings: true });
    expect(site.unsaved).toBe(0);
  });
  it("says where it is taken as indoors", async () => {
    const { way } = await drawn_with({ building: "shed", indoors: true, through_buildings: false });
    expect(way).toEqual({ name: "way", kind: "wall", line, indoors: true });
  });
  it("tells of the building, and nothing where there is none", async () => {
    const { way } = await drawn_with({ building: null, indoors: false, through_buildings: false });
    expect(way).toEqual({ name: "way", kind: "wall", line });
    expect(notes.all).toEqual([]);
    vi.useRealTimers();
    site.took({ ...begun, file: "none" });
    vi.stubGlobal("fetch", (path: string, request: RequestInit) => {
      const changes = (JSON.parse(String(request.body)) as { changes?: Change[] }).changes;
      const answer = path === "/api/way" ? through : { revision: 8, undo: "draw", redo: null, changes };
      return Promise.resolve(new Response(JSON.stringify(answer)));
    });
    await site.draw_way("draw", drawn);
    expect(notes.all.map((note) => plain(note.words))).toEqual([expect.stringContaining("shed")]);
  });
  it("waits for a link that is lost", async () => {
    const { sent, way } = await drawn_with("down", { building: "shed", indoors: true, through_buildings: false });
    expect(sent.map((each) => each.path)).toEqual(["/api/way", "/api/way", "/api/edits"]);
    expect(way).toMatchObject({ indoors: true });
  });
  it("and changed before the program answered is changed as it was told", () => {
    const now = drawn[0]!.now as object;
    const later: Change = { at, was: now, now: { ...now, kind: "tray" } };
    const other: Change = { at: ["site", "ways", "old"], was: null, now: { ...now, name: "old" } };
    const pending: PendingEdit[] = [
      { id: "a", words: "draw", changes: drawn, draws_way: true },
      { id: "b", words: "change", changes: [later] },
      { id: "c", words: "draw", changes: [other], draws_way: true },
    ];
    const told = with_told_way(pending, "a", { building: "shed", indoors: true, through_buildings: false });
    expect(told.map((edit) => edit.draws_way)).toEqual([undefined, undefined, true]);
    const said = { name: "way", kind: "wall", line, indoors: true };
    expect(told[0]!.changes).toEqual([{ at, was: null, now: said }]);
    expect(told[1]!.changes).toEqual([{ at, was: said, now: { ...said, kind: "tray" } }]);
    expect(told[2]).toEqual(pending[2]);
  });
});
