// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { along_line, apart, label_place, length_in_words, too_long_in_words } from "../../src/view/sheet/run_labels";
import type { LaidRun } from "../../src/wire/answers";

function laid(low: number, high: number, held: LaidRun["reach"]["held"] = "met", most: number | null = 100): LaidRun {
  const length_m = { low, nominal: (low + high) / 2, high };
  const reach = { capacity_m: most, held };
  return { run: "C1", from: "a", to: "b", length_m, stated: false, along: [], open_m: 0, reach, line: [] };
}

describe("what is written at a cable", () => {
  it("lies on its line, by length", () => {
    const line = [
      [0, 0],
      [10, 0],
      [10, 10],
    ] as const;
    expect(along_line(line, 0.25)).toEqual([5, 0]);
    const [x, y] = along_line(line, 0.8);
    expect(x).toBeCloseTo(10);
    expect(y).toBeCloseTo(6);
    expect(label_place(line, 1)).toEqual([10, 0]);
    expect(label_place(line, 5)).toEqual(along_line(line, 0.65));
    expect(along_line([[3, 4]], 0.5)).toEqual([3, 4]);
  });
  it("is its length with its range, in the unit shown", () => {
    expect(length_in_words(laid(41.3, 52), "metres")).toBe("41.3 to 52 m");
    expect(length_in_words(laid(30, 30), "metres")).toBe("30 m");
    expect(length_in_words(laid(3.048, 30.48), "feet")).toBe("10 to 100 ft");
  });
  it("says when it is too long, and nothing where nothing is asked", () => {
    expect(too_long_in_words(laid(104, 131, "missed"), "metres")).toBe("Too long: at most 100 m.");
    expect(too_long_in_words(laid(90, 131, "marginal"), "metres")).toBe("Perhaps too long: at most 100 m.");
    expect(too_long_in_words(laid(90, 95), "metres")).toBe("");
    expect(too_long_in_words(laid(90, 95, "unknown", null), "metres")).toBe("");
  });
  it("lies under what is written there already", () => {
    const at = [1, 1] as const;
    const labels = ["C1", "C2", "C3"].map((name) => ({ name, at, words: name }));
    expect(apart([...labels, { name: "C4", at: [9, 1], words: "C4" }], 10)).toEqual([0, 13, 26, 0]);
  });
});
