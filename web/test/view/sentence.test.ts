// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences of the demo's needs, and needs made of sentences: what is filled in and saved unchanged is the same need.
import { readFileSync } from "node:fs";
import { afterEach, describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { draft_of, need_of } from "../../src/view/margin/draft";
import { kind_of, kSlots, need_name, pieces, sentence, type Surroundings } from "../../src/view/margin/sentence";
import {
  delivered_line,
  share_line,
  tally,
  verdict_line,
  worst_first,
  type Standing,
} from "../../src/view/margin/verdict_words";
import type { CheckAnswer, JudgedNeed } from "../../src/wire/answers";
import type { Need, ProjectDocument } from "../../src/wire/document";

const read = <T>(path: string): T =>
  JSON.parse(readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8")) as T;
const demo = read<ProjectDocument>("demo/alder_lane.sightfall.json");
const check = read<CheckAnswer>("schema/examples/answers/check.json");
const levels = [
  { name: "perceive", px_per_m: 125, called: "perceive" },
  { name: "characterise", px_per_m: 250, called: "characterise" },
];
const about: Surroundings = { document: demo, levels, units: "metres" };
const need = (name: string): Need => {
  const found = demo.needs?.find((each) => each.name === name);
  if (!found) throw new Error(`the demo has no need ${name}`);
  return found;
};

afterEach(() => speak("en"));

describe("a need as a sentence", () => {
  it("says where, what, how well, when and how often", () => {
    expect(sentence(need("face of anyone who walks in"), about)).toBe(
      "On the way walk in at the gate, the face of anyone passing, to the level characterise (250 px/m), " +
        "in summer day and winter day, in 10 pictures of 95 % of passages.",
    );
    expect(sentence(need("face at the till"), about)).toBe(
      "In the place till, the face of anyone there, in colour, to the level characterise (250 px/m), " +
        "in summer day and winter day, in 95 % of the place.",
    );
  });
  it("says every condition where none is named, and once a passage", () => {
    const once = { ...need("plate after dark"), once_a_passage: 1 };
    const { conditions: _all, ...always } = once;
    expect(sentence(always, about)).toContain("in every condition, once in 95 % of passages.");
  });
  it("calls a level as it is shown, in the unit of the page", () => {
    const called = levels.map((level) => ({ ...level, called: level.name.toUpperCase() }));
    const said = sentence(need("face at the till"), { ...about, levels: called, units: "feet" });
    expect(said).toContain("to the level CHARACTERISE (76.2 px/ft), in");
  });
  it("keeps a level that the table in force lacks", () => {
    expect(sentence({ ...need("face at the till"), level: "of our own" }, about)).toContain(
      "to the level of our own, in",
    );
  });
  it("has each slot once for each kind of place, in each language", async () => {
    for (const language of ["en", "de"] as const) {
      await speak(language);
      for (const kind of ["zone", "line", "route"] as const) {
        const slots = pieces(kind).flatMap((piece) => ("slot" in piece ? [piece.slot] : []));
        expect(slots.toSorted()).toEqual([...kSlots].toSorted());
      }
    }
  });
  it("is German in German", async () => {
    await speak("de");
    expect(sentence(need("person on the drive"), about)).toMatch(/^Auf dem Weg along the drive: jeder Mensch/);
  });
});

describe("a need that is filled in", () => {
  it("is the same need when nothing was changed", () => {
    for (const each of demo.needs ?? []) {
      const draft = draft_of(each, { places: demo.site.places ?? [], levels });
      expect(need_of(draft, kind_of(each, demo))).toEqual(each);
    }
  });
  it("loses what another place cannot have", () => {
    const draft = draft_of(need("face of anyone who walks in"), { places: demo.site.places ?? [], levels });
    const moved = need_of({ ...draft, place: "yard" }, "zone");
    expect(moved).not.toHaveProperty("once_a_passage");
    expect(moved).not.toHaveProperty("facing");
  });
  it("begins with a person at the first place, always, to a level of the middle", () => {
    const draft = draft_of(null, { places: demo.site.places ?? [], levels });
    expect(need_of({ ...draft, name: "n" }, "route")).toEqual({
      name: "n",
      subject: "person",
      place: "walk in at the gate",
      level: "perceive",
    });
  });
  it("is called by what it asks for, within the length of a name", () => {
    expect(need_name({ subject: "face", place: "till" })).toBe("face, till");
    expect(need_name({ subject: "face", place: "x".repeat(80) }).length).toBeLessThanOrEqual(80);
  });
});

describe("loads", () => {
  it("stand with what asks for something first, in their own order otherwise", () => {
    const all = ["met", "marginal", "missed", "unknown", "missed"].map((held, n) => ({ held: held as Standing, n }));
    expect(worst_first(all).map((one) => one.n)).toEqual([2, 4, 3, 1, 0]);
  });
});

describe("a verdict in words", () => {
  const missed: JudgedNeed = {
    name: "face in front of the shed",
    verdict: "missed",
    share: 0.39,
    share_range: { low: 0, nominal: 0.39, high: 0.48 },
    sampling_error: 0,
    required_share: 0.95,
    required_px_per_m: 500,
    limit: "focus",
    worst: {
      at: [32.024, 47.019, 2.452],
      condition: "summer day",
      camera: "drive",
      density_px_per_m: 884.68,
      delivered_px_per_m: { low: 248.94, nominal: 283.33, high: 316.95 },
      limit: "focus",
      frames: null,
    },
    remedy: null,
    settle: null,
    samples: 256,
    conditions: [],
  };
  it("names the limit in plain words, what is delivered and what is asked for", () => {
    expect(verdict_line(missed)).toBe("missed: out of focus");
    expect(delivered_line(missed, "metres")).toBe("at worst 283 px/m (249 to 317), 500 px/m asked for");
    expect(share_line(missed)).toBe("Reached in 39 % (0 % to 48 % by what is not known), 95 % asked for.");
  });
  it("of a passage tells its best moment and its frames", async () => {
    const frames = { asked: 3, predicted: { low: 0, nominal: 2.9, high: 66.7 } };
    const passage = missed.worst && { ...missed, worst: { ...missed.worst, frames } };
    expect(passage && delivered_line(passage, "metres")).toBe(
      "at the best moment of the worst passage 283 px/m (249 to 317), 500 px/m asked for; frames: 2.9 (0 to 66) of 3",
    );
    await speak("de");
    expect(passage && delivered_line(passage, "metres")).toContain("Bilder: 2,9 (0 bis 66) von 3");
  });
  it("says when no camera sees the place", () => {
    const unseen = missed.worst && { ...missed, worst: { ...missed.worst, camera: null } };
    expect(unseen && delivered_line(unseen, "metres")).toBe("no camera sees its worst place, 500 px/m asked for");
  });
  it("is not judged yet when there is none", () => {
    expect(verdict_line(null)).toBe("not judged yet");
  });
  it("is counted, what was not judged too", () => {
    const names = check.needs.map((each) => each.name);
    const counts = tally(check, [...names, "another"]);
    expect(counts.unknown).toBe(1);
    expect(counts.met + counts.marginal + counts.missed).toBe(names.length);
  });
});
