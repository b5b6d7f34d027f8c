import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { go, steps_to } from "../../src/store/history";
import { site } from "../../src/store/site.svelte";

const edit = (revision: number, undone: boolean) => ({ revision, words: `edit ${revision}`, when: "", undone });
// Newest first: two were undone, two stand.
const edits = [edit(5, true), edit(4, true), edit(3, false), edit(2, false)];

describe("the way to an edit", () => {
  it("counts what must be undone and what must be done again", () => {
    expect(edits.map((_, index) => steps_to(edits, index))).toEqual([2, 1, 0, -1]);
    expect(steps_to(edits, edits.length)).toBe(-2);
  });
});

describe("going there", () => {
  const document = { sightfall: 1, name: "Yard", site: {}, conditions: [{ name: "day", leaves: "on" as const }] };
  let asked: string[] = [];
  let others = 0;
  beforeEach(() => {
    asked = [];
    others = 0;
    vi.stubGlobal("fetch", (path: string) => {
      asked.push(path);
      const revision = site.revision + 1 + others;
      return Promise.resolve(new Response(JSON.stringify({ revision, undo: null, redo: null, changes: [] })));
    });
    site.took({ revision: 7, file: "yard", document, undo: "a", redo: "b" });
  });
  afterEach(() => vi.unstubAllGlobals());

  it("undoes or redoes as often as asked", async () => {
    expect(await go(-2, 7)).toBe(true);
    expect(await go(1, 9)).toBe(true);
    expect(asked).toEqual(["/api/undo", "/api/undo", "/api/redo"]);
  });
  it("does nothing when the list is older than the site", async () => {
    expect(await go(-2, 6)).toBe(false);
    expect(asked).toEqual([]);
  });
  it("stops when another page was there in between", async () => {
    others = 1;
    expect(await go(-3, 7)).toBe(false);
    expect(asked.filter((path) => path === "/api/undo").length).toBe(1);
  });
});
