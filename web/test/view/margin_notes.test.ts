// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { margin_notes } from "../../src/view/sheet/margin_notes";
import type { ProjectDocument } from "../../src/wire/document";

const bare: ProjectDocument = { sightfall: 1, name: "yard", site: {}, conditions: [] };
const words = (more: Partial<ProjectDocument>): string[] =>
  margin_notes({ ...bare, ...more }).map((note) => note.words);

describe("notes in the sheet's margin", () => {
  it("are of what the document says, and nothing else", () => {
    expect(words({})).toEqual([]);
    expect(words({ keeping: {} })).toEqual([]);
    expect(words({ site: { wind: { basic_m_s: 24.5 } } })).toEqual(["Wind 24.5 m/s, terrain II"]);
    expect(words({ site: { wind: { basic_m_s: 30, category: "0" } } })).toEqual(["Wind 30 m/s, terrain 0"]);
    expect(words({ keeping: { wanted_d: 1.5 } })).toEqual(["Recordings: 1.5 days or more"]);
    const keeping = { wanted_d: 14, most_d: 30, reason: "works council" };
    expect(margin_notes({ ...bare, keeping })).toEqual([
      { about: "keeping", words: "Recordings: 14 to 30 days", reason: "works council" },
    ]);
  });
  it("speak German", async () => {
    await speak("de");
    expect(words({ site: { wind: { basic_m_s: 26 } }, keeping: { most_d: 3 } })).toEqual([
      "Wind 26 m/s, Gelände II",
      "Aufnahmen: bis 3 Tage",
    ]);
    await speak("en");
  });
});
