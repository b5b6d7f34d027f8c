// SPDX-License-Identifier: GPL-3.0-or-later
// Held against CLDR's data for en-GB and de-DE as ICU carries it (Intl): number patterns #,##0.### with the decimal marks
// point and comma. That no digits are grouped is the page's own choice (ISO 80000-1 7.3.2: neither mark parts groups).
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { digits_shown, number_shown, read_number, two_ways } from "../../src/base/numbers";
import { speak, text } from "../../src/base/text.svelte";

const kValues = [0, -0.001, 0.5, -3.25, 1e-7, 12.3456789, 1500, 1234567.5];

describe.each([
  ["en", ".", ["0", "0", "0.5", "-3.25", "0.0000001", "12.3456789", "1500", "1234567.5"]],
  ["de", ",", ["0", "0", "0,5", "-3,25", "0,0000001", "12,3456789", "1500", "1234567,5"]],
] as const)("numbers in %s", (spoken, mark, shown) => {
  beforeAll(() => speak(spoken));
  afterAll(() => speak("en"));

  it("are written with its mark, without needless zeros, ungrouped", () => {
    expect(kValues.map((value, i) => number_shown(value, i === 1 ? 2 : 12))).toEqual(shown);
    const intl = new Intl.NumberFormat(spoken === "de" ? "de-DE" : "en-GB", { useGrouping: false });
    expect(number_shown(2.5)).toBe(intl.format(2.5));
  });
  it("come back as they were", () => {
    for (const value of kValues) expect(read_number(number_shown(value))).toBe(value);
  });
  it("that came as text keep each digit", () => {
    expect(["2.0", "-0.50", "1.2e-05", "7", "inf"].map(digits_shown)).toEqual(
      ["2.0", "-0.50", "1.2e-05", "7", "inf"].map((words) => words.replace(".", mark)),
    );
  });
  it("among words are written so too", () => {
    expect(text("views.section.degrees", { tilt: 12.5 })).toContain(`12${mark}5`);
  });
  it("are read with either mark, a sign, a power of ten", () => {
    const cases: [string, number | null][] = [
      ["3,5", 3.5],
      ["3.5", 3.5],
      [" +.5 ", 0.5],
      ["\u22122", -2],
      ["5,", 5],
      ["1e-3", 0.001],
      ["0.500", 0.5],
      ["0,500", 0.5],
      ["12,3456", 12.3456],
      ["", null],
      ["-", null],
      ["1 500", null],
      ["1,500.5", null],
      ["1.500,5", null],
      ["1,2,3", null],
      ["0x10", null],
      ["Infinity", null],
      ["3 m", null],
    ];
    expect(cases.map(([typed]) => [typed, read_number(typed)])).toEqual(cases);
  });
});

describe("a number that could be two", () => {
  afterAll(() => speak("en"));
  it("is not guessed at: a comma before three digits in English", () => {
    expect([read_number("1,500"), read_number("-12,000"), read_number("1.500")]).toEqual([null, null, 1.5]);
    expect([two_ways("1,500"), two_ways("-12,000"), two_ways("1.500"), two_ways("1,50")]).toEqual([
      ["1500", "1.5"],
      ["-12000", "-12"],
      null,
      null,
    ]);
  });
  it("a point before three digits in German", async () => {
    await speak("de");
    expect([read_number("1.500"), read_number("1,500")]).toEqual([null, 1.5]);
    expect([two_ways("1.500"), two_ways("1,500")]).toEqual([["1500", "1,5"], null]);
  });
});
