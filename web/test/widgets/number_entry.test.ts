// SPDX-License-Identifier: GPL-3.0-or-later
import { afterAll, describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { entered, entry_shown } from "../../src/widgets/number_entry";

const kHeight = { least: 0.1, most: 60, unit: "m" };
const kPorts = { least: 1, most: 48, unit: null, whole: true };
const kAny = { least: null, most: null, unit: null };

describe("what is typed for a number", () => {
  afterAll(() => speak("en"));

  it("is kept in the document's unit", () => {
    expect(entered("3.5", kHeight, "metres")).toEqual({ number: 3.5 });
    expect(entered("10", kHeight, "feet")).toEqual({ number: 3.048 });
    expect(entered("8", kPorts, "feet")).toEqual({ number: 8 });
  });
  it("may be a part of a second where it is a time", () => {
    const shutter = { least: 1e-6, most: 1, unit: "s" };
    expect(entered("1/500", shutter, "metres")).toEqual({ number: 0.002 });
    expect(entered(" 1 / 60 ", shutter, "metres")).toEqual({ number: 0.0166667 });
    expect(entered("0.5", shutter, "metres")).toEqual({ number: 0.5 });
    expect(entered("1/0", shutter, "metres")).toEqual({ wrong: "A number from 0.000001 to 1 s." });
    expect(entered("1/2", kHeight, "metres")).toEqual({ wrong: "A number from 0.1 to 60 m." });
    const shown = [0.002, 0.0166667, 0.0023, 0.5, 0].map((seconds) => entry_shown(seconds, "s", "metres"));
    expect(shown).toEqual(["1/500", "1/60", "0.0023", "0.5", "0"]);
  });
  it("stands in feet as a tape has it", () => {
    expect([2, 0.15, 3.048].map((metres) => entry_shown(metres, "m", "feet"))).toEqual(["6.56", "0.4921", "10"]);
    expect([entry_shown(41.2735, "m", "metres"), entry_shown(250, "px/m", "feet")]).toEqual(["41.2735", "76.2"]);
  });
  it("is told its limits in words", () => {
    expect(entered("61", kHeight, "metres")).toEqual({ wrong: "A number from 0.1 to 60 m." });
    expect(entered("2.5", kPorts, "metres")).toEqual({ wrong: "A whole number from 1 to 48." });
    expect(entered("far", kAny, "metres")).toEqual({ wrong: "A number." });
    expect(entered("-1", { ...kHeight, most: null }, "metres")).toEqual({ wrong: "A number of 0.1 m or more." });
    expect(entered("61", { ...kHeight, least: null }, "metres")).toEqual({ wrong: "A number of 60 m or less." });
  });
  it("is asked about where it could be read in two ways", async () => {
    expect(entered("1,500", { ...kHeight, most: null }, "metres")).toEqual({
      wrong: "1,500 can be read in two ways: write 1500 or 1.5.",
    });
    await speak("de");
    expect(entered("1.500", kHeight, "metres")).toEqual({
      wrong: "1.500 lässt sich auf zwei Arten lesen: Schreiben Sie 1500 oder 1,5.",
    });
    expect(entered("1,500", kHeight, "metres")).toEqual({ number: 1.5 });
    expect(entered("99,5", kHeight, "metres")).toEqual({ wrong: "Eine Zahl von 0,1 bis 60 m." });
  });
});
