// SPDX-License-Identifier: GPL-3.0-or-later
// The note under a print says what the golden walk's marks hold.
import { readFileSync } from "node:fs";
import { afterEach, describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { site } from "../../src/store/site.svelte";
import type { Figures } from "../../src/view/asks";
import { detail_note, exposure_note, picture_words } from "../../src/view/prints/caption";

const walk = JSON.parse(
  readFileSync(new URL("../../../schema/examples/answers/walk.json", import.meta.url), "utf8"),
) as {
  marks: Figures[];
};
const [near, far] = walk.marks;

afterEach(async () => {
  site.took({ document: null, revision: 0, file: "", undo: null, redo: null } as never);
  await speak("en");
});

describe("the note under a print", () => {
  it("has distance, exposure and infrared", () => {
    expect(far && exposure_note(far, "metres")).toBe("8 m, 1/25 s, 24 dB, infrared 100 %");
    expect(far && exposure_note(far, "feet")).toBe("26.2 ft, 1/25 s, 24 dB, infrared 100 %");
  });
  it("has what is delivered, its level and its limit", () => {
    expect(far && detail_note(far, "metres")).toBe(
      "20.1 px/m (12 to 27.4): overview, held back most by: too few pixels",
    );
    expect(near && detail_note(near, "metres")).toBe("0 px/m (0 to 55.7): no level, held back most by: burnt out");
  });
  it("calls the program's own level as the language does, and the user's as it was typed", async () => {
    const said = (): string | undefined => far && detail_note(far, "metres");
    await speak("de");
    expect(said()).toContain("20,1 px/m (12 bis 27,4): Übersicht,");
    const own = { name: "ours", levels: [{ name: "overview", px_per_m: 20 }] };
    const document = { settings: { level_table: "ours", level_tables: [own] } };
    site.took({ document, revision: 0, file: "", undo: null, redo: null } as never);
    expect(said()).toContain(": overview,");
  });
  it("leaves out what was not exposed", () => {
    const unseen = far && { ...far, shutter_s: null, gain_db: null, infrared_power: null, limit: null };
    expect(unseen && exposure_note(unseen, "metres")).toBe("8 m");
    expect(unseen && detail_note(unseen, "metres")).toBe("20.1 px/m (12 to 27.4): overview");
  });
  it("is what a screen reader is told of the picture", () => {
    expect(picture_words("yard", "dark night", null, "metres")).toBe("What yard shows in dark night.");
    expect(far && picture_words("yard", "dark night", far, "metres")).toContain("overview");
  });
});
