import { afterAll, describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import {
  kept_number,
  no_length,
  read_length,
  shown_length,
  shown_number,
  unit_shown,
  with_lengths_in,
} from "../../src/base/units";

describe("lengths that are typed", () => {
  const cases: [string, "metres" | "feet", number | null][] = [
    ["12", "metres", 12],
    ["3,5", "metres", 3.5],
    [" 3.5 m ", "metres", 3.5],
    ["250 cm", "metres", 2.5],
    ["12", "feet", 12 * 0.3048],
    ["12'6\"", "metres", 12.5 * 0.3048],
    ["12 ft 6 in", "metres", 12.5 * 0.3048],
    ["12' 6", "feet", 12.5 * 0.3048],
    ["6 in", "metres", 0.1524],
    ["4 m", "feet", 4],
    ["", "metres", null],
    ["far", "metres", null],
    ["3 4", "metres", null],
    ["-2", "metres", null],
    ["1,500", "metres", null], // 1500 or 1.5?
  ];
  it.each(cases)("%j in %s", (typed, units, metres) => {
    const read = read_length(typed, units);
    if (metres === null) expect(read).toBeNull();
    else expect(read).toBeCloseTo(metres, 9);
  });
});

it("a length is read and shown with the marks of the language", async () => {
  await speak("de");
  expect([read_length("12,5 m", "metres"), read_length("1,500", "metres"), read_length("1.500", "metres")]).toEqual([
    12.5,
    1.5,
    null,
  ]);
  expect([shown_length(3.5, "metres"), shown_length(4, "metres")]).toEqual(["3,5 m", "4 m"]);
  await speak("en");
});

it("what is no length says why", () => {
  expect(no_length("1,500 m")).toBe("1,500 m can be read in two ways: write 1500 or 1.5.");
  expect(no_length("far")).toBe("“far” is no length: write it such as 7.5 m or 24 ft 6 in.");
});

describe("lengths that are shown", () => {
  it("in metres without needless zeros", () => {
    expect(shown_length(3.5, "metres")).toBe("3.5 m");
    expect(shown_length(4, "metres")).toBe("4 m");
  });
  it("in feet and whole inches, carried over at twelve", () => {
    expect(shown_length(3.048, "feet")).toBe("10 ft");
    expect(shown_length(3.81, "feet")).toBe("12 ft 6 in");
    expect(shown_length(0.3047, "feet")).toBe("1 ft");
  });
  it("a figure in a form comes back as it was", () => {
    for (const metres of [0.15, 3.3, 41.27])
      expect(kept_number(shown_number(metres, "feet", "m"), "feet", "m")).toBeCloseTo(metres, 4);
    expect(shown_number(12, "feet", "deg")).toBe(12);
    for (const density of [12.5, 62.5, 250, 1500])
      expect(kept_number(shown_number(density, "feet", "px/m"), "feet", "px/m")).toBe(density);
  });
});

it("a number that is no length is shown and kept as it is, however small", () => {
  expect(shown_number(1e-5, "feet", "s")).toBe(1e-5);
  expect(kept_number(1e-7, "metres", "s")).toBe(1e-7);
  expect([unit_shown("px/m", "feet"), unit_shown("px/m", "metres")]).toEqual(["px/ft", "px/m"]);
  expect([unit_shown("deg", "metres"), unit_shown("m", "feet"), unit_shown(null, "feet")]).toEqual(["°", "ft", null]);
});

describe("a sentence of the program", () => {
  afterAll(() => speak("en"));
  // The figures are those of src/papers/feet_test.cpp: 1 ft is 0.3048 m.
  it.each([
    ["47.1 (42.3 to 56.1) of 100 m", "155 (139 to 184) of 328 ft"],
    ["95 to 120 m of 100 m: measure", "312 to 394 ft of 328 ft: measure"],
    ["service loops: 3 m (1 to 6): spare", "service loops: 9.84 ft (3.28 to 19.7): spare"],
    ["500 m", "1640 ft"],
    ["at 70 px/m: turn it; 61 px/m (48 to 75)", "at 21.3 px/ft: turn it; 18.6 px/ft (14.6 to 22.9)"],
    ["a face has 250 px/m (100 to 1500) at 12 m, 3 px/mm", "a face has 76.2 px/ft (30.5 to 457) at 39.4 ft, 3 px/mm"],
    ["4\u00a0m up", "13.1\u00a0ft up"],
    ['"mast, 3 m" is 6 m away', '"mast, 3 m" is 19.7 ft away'],
  ])("in feet: %s", (metric, feet) => {
    expect(with_lengths_in("feet", metric)).toBe(feet);
    expect(with_lengths_in("metres", metric)).toBe(metric);
  });
  it.each([
    "a fresh breeze (10.7 m/s, steady)",
    "40 mm inside",
    "850 nm",
    "12 m2 of ground",
    "12 m² of ground",
    "10 Mbit/s",
  ])("no length: %s", (words) => expect(with_lengths_in("feet", words)).toBe(words));
  it("in German as well", async () => {
    await speak("de");
    expect(with_lengths_in("feet", "sieht „Tor, 3 m“ mit 62,5 px/m (8 bis 100) von 2,5 m aus")).toBe(
      "sieht „Tor, 3 m“ mit 19,1 px/ft (2,44 bis 30,5) von 8,2 ft aus",
    );
  });
});
