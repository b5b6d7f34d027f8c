import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { kFields, kPlace, refusal_of, take_map } from "../../src/actions/importing";
import { has_text, plain, speak, text } from "../../src/base/text.svelte";
import { importing } from "../../src/store/importing.svelte";
import { site } from "../../src/store/site.svelte";
import { WireError } from "../../src/wire/ask";
import type { ProjectDocument } from "../../src/wire/document";

const kDocument: ProjectDocument = {
  sightfall: 1,
  name: "yard",
  site: {},
  conditions: [{ name: "day", leaves: "on" }],
};
const house = {
  kind: "building",
  name: "building 1",
  outline: [
    [0, 0],
    [9, 0],
    [9, 9],
  ],
  height_m: 6,
};
const map = new File(["{}"], "a town, long ago and far away, in many parts.geojson");
const heights = new File(["x"], "heights.tif");

function answers(status: number, body: unknown): { asked: () => { url: URL; request: RequestInit } } {
  const fetched = vi.fn((..._: unknown[]) => Promise.resolve(new Response(JSON.stringify(body), { status })));
  vi.stubGlobal("fetch", fetched);
  return {
    asked: () => ({
      url: new URL(fetched.mock.calls[0]![0] as string, "http://here"),
      request: fetched.mock.calls[0]![1] as RequestInit,
    }),
  };
}

beforeEach(() => {
  site.took({ revision: 1, file: "yard.sightfall.json", document: kDocument, undo: null, redo: null });
  importing.begin([
    { kind: "footprints", file: map },
    { kind: "terrain", file: heights },
  ]);
});
afterEach(() => vi.unstubAllGlobals());

describe("a map", () => {
  it("goes to the server with what was filled in, and comes back as one edit; then it is the next one's turn", async () => {
    const changes = [{ at: ["site", "solids", "building 1"], was: null, now: house }];
    const { asked } = answers(200, { revision: 2, undo: "buildings", redo: null, changes, told: ["1 building"] });
    await take_map({ height_m: "6", within_m: "250", layer: "" });
    const { url, request } = asked();
    expect([url.pathname, request.method, request.body]).toEqual(["/api/import/footprints", "POST", map]);
    expect(Object.fromEntries(url.searchParams)).toMatchObject({ name: map.name, height_m: "6", within_m: "250" });
    expect(url.searchParams.has("layer")).toBe(false);
    expect(url.searchParams.get("words")!.length).toBeLessThanOrEqual(80);
    expect(site.document?.site.solids).toEqual([house]);
    expect([site.revision, site.undo_words]).toEqual([2, "buildings"]);
    expect([importing.told, importing.now?.kind, importing.running]).toEqual([["1 building"], "terrain", null]);
  });
  it("that is refused stays, with the field that is to be mended, called as the form calls it", async () => {
    const wrong = { text: "1 of 2 outlines state no height: give height_m for those", file: "town", field: "height_m" };
    answers(400, { errors: [wrong] });
    await take_map({});
    const label = text("import.fields.height_m");
    expect(importing.refusal?.field).toBe("height_m");
    expect(plain(importing.refusal?.words ?? "")).toBe(`1 of 2 outlines state no height: give "${label}" for those`);
    expect([importing.now?.file, importing.running, site.revision]).toEqual([map, null, 1]);
  });
  it("can be stopped", async () => {
    vi.stubGlobal(
      "fetch",
      (_: string, { signal }: RequestInit) =>
        new Promise((_done, refuse) => signal!.addEventListener("abort", () => refuse(signal!.reason as Error))),
    );
    const taken = take_map({});
    expect(importing.running).not.toBeNull();
    importing.running!.stop();
    await taken;
    expect(importing.refusal).toEqual({ words: text("import.stopped"), field: null });
    expect([importing.running, importing.waiting.length]).toEqual([null, 2]);
  });
  it("shows the progress of its own job alone", () => {
    const id = importing.started(() => undefined);
    importing.heard_progress({ job: "check", share: 0.9, words: "judging" });
    expect(importing.running?.share).toBeNull();
    importing.heard_progress({ job: id, share: 0.4, words: "reading outlines" });
    expect(importing.running).toMatchObject({ share: 0.4, words: "reading outlines" });
  });
  it("that was put away is stopped, and what still comes of it shows nothing", () => {
    const stop = vi.fn();
    const id = importing.started(stop);
    importing.put_away();
    expect(stop).toHaveBeenCalledOnce();
    importing.ended(id, ["late"]);
    importing.refused(id, { words: "late", field: null });
    expect([importing.shown, importing.told, importing.refusal]).toEqual([false, [], null]);
  });
});

describe("why a map was not taken", () => {
  it("a conflict is told as one", () => {
    const conflict = { at: ["site", "anchor"], was: null, now: {}, found: {} };
    expect(refusal_of(new WireError(409, [], [conflict])).words).toBe(text("import.conflict"));
  });
  it("a field that the words leave out is told before them", () => {
    const wrong = new WireError(400, [
      { text: "found 2000; allowed: 0.1 to 1000 m", file: "request", field: "height_m" },
    ]);
    expect(plain(refusal_of(wrong).words)).toBe(
      `${text("import.fields.height_m")}: found 2000; allowed: 0.1 to 1000 m`,
    );
  });
  it("every field has a label and a hint in both languages", async () => {
    const names = [...Object.values(kFields).flatMap(({ first, more }) => [...first, ...more]), ...kPlace];
    for (const language of ["en", "de"] as const) {
      await speak(language);
      for (const { name } of names)
        expect([has_text(`import.fields.${name}`), has_text(`import.hints.${name}`)], name).toEqual([true, true]);
    }
    await speak("en");
  });
});
