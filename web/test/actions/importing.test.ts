import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { kFields, kPlace, refusal_of, settle_map, take_map } from "../../src/actions/importing";
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
    { kind: "footprints", files: [map] },
    { kind: "terrain", files: [heights] },
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
    expect([importing.now?.files[0], importing.running, site.revision]).toEqual([map, null, 1]);
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

/** One answer after the other. */
function answers_in_turn(...all: readonly { status: number; body: unknown }[]): { asked: () => [string, unknown][] } {
  let turn = 0;
  const asked: [string, unknown][] = [];
  vi.stubGlobal("fetch", (path: string, request: RequestInit) => {
    asked.push([path, request.body]);
    const { status, body } = all[turn++]!;
    return Promise.resolve(new Response(JSON.stringify(body), { status }));
  });
  return { asked: () => asked };
}

describe("where something stands already", () => {
  const mine = { ...house, height_m: 3 };
  const at = ["site", "solids", house.name];
  const other = { ...house, name: "building 2" };
  const put = [
    { at, was: null, now: house },
    { at: ["site", "solids", other.name], was: null, now: other },
  ];
  const conflict = {
    status: 409,
    body: { conflicts: [{ at, was: null, now: house, found: mine }], changes: put, told: ["2 buildings"] },
  };
  const made = { status: 200, body: { revision: 2, undo: "buildings", redo: null, changes: [] } };
  beforeEach(() => {
    const document = { ...kDocument, site: { solids: [mine] } } as unknown as ProjectDocument;
    site.took({ revision: 1, file: `${crypto.randomUUID()}.sightfall.json`, document, undo: null, redo: null });
  });
  it("nothing is done before a person has chosen; then it is one edit", async () => {
    const { asked } = answers_in_turn(conflict, made);
    await take_map({});
    expect(importing.clashing).toMatchObject({ changes: put, told: ["2 buildings"], site: site.file });
    expect([importing.refusal, importing.running, site.document?.site.solids?.length]).toEqual([null, null, 1]);
    await settle_map(() => "imported");
    const [path, body] = asked()[1]!;
    expect(path).toBe("/api/edits");
    expect(JSON.parse(body as string)).toEqual({
      words: expect.stringContaining("buildings from"),
      changes: [{ at, was: mine, now: house }, put[1]],
    });
    expect(importing.clashing).toBeNull();
    expect(importing.told).toEqual(["2 buildings"]);
    expect(importing.counted).toBe(text("import.clash.done", { put_in: 1, replaced: 1, left: 0 }));
    expect(importing.now?.kind).toBe("terrain");
  });
  it("going back leaves the file and the form, and the site as it was", async () => {
    answers_in_turn(conflict);
    await take_map({});
    importing.leave_clash();
    expect([importing.now?.files[0], importing.clashing, site.document?.site.solids]).toEqual([map, null, [mine]]);
  });
  it("what the program refuses is told where it was chosen, and the file stays", async () => {
    answers_in_turn(conflict, { status: 400, body: { errors: [{ text: "too high" }] } });
    await take_map({});
    await settle_map(() => "both");
    expect(plain(importing.refusal?.words ?? "")).toContain("too high");
    expect([importing.clashing, importing.now?.files[0], importing.settling]).toEqual([null, map, false]);
  });
  it("what another page changed at the same moment is asked as for any edit, and nothing is told as done", async () => {
    const late = { at, was: mine, now: house, found: other };
    answers_in_turn(conflict, { status: 409, body: { conflicts: [late] } }, { status: 200, body: {} });
    await take_map({});
    await settle_map(() => "imported");
    expect(site.conflicts.length).toBe(1);
    expect([importing.clashing, importing.told, importing.now?.files[0]]).toEqual([null, [], map]);
  });
  it("another site that was opened meanwhile gets nothing of it", async () => {
    const { asked } = answers_in_turn(conflict);
    await take_map({});
    site.took({ revision: 1, file: "other.sightfall.json", document: kDocument, undo: null, redo: null });
    await settle_map(() => "both");
    expect(asked().length).toBe(1);
    expect(importing.refusal?.words).toBe(text("import.another_site"));
  });
  it("the site's own place on the earth is kept by reading the map again, without another", async () => {
    const anchor = { latitude_deg: 1, longitude_deg: 2 };
    const given = { latitude_deg: 5, longitude_deg: 6 };
    const placed = { at: ["site", "anchor"], was: null, now: given };
    site.took({
      revision: 1,
      file: "far.sightfall.json",
      document: { ...kDocument, site: { anchor } },
      undo: null,
      redo: null,
    });
    const { asked } = answers_in_turn(
      { status: 409, body: { conflicts: [{ ...placed, found: anchor }], changes: [placed], told: [] } },
      { ...made, body: { ...made.body, told: ["by its own place"] } },
    );
    await take_map({ height_m: "6", latitude_deg: "5", longitude_deg: "6" });
    await settle_map(() => "mine");
    const again = new URL(asked()[1]![0], "http://here").searchParams;
    expect([again.get("height_m"), again.has("latitude_deg"), again.has("longitude_deg")]).toEqual(["6", false, false]);
    expect(importing.told).toEqual(["by its own place"]);
  });
});

describe("why a map was not taken", () => {
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
