// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import type { SitePoint } from "../../src/base/plane";
import { distance_to_line, segments } from "../../src/base/plane";
import { are_over, frame_of_words, type Frame } from "../../src/view/sheet/frames";
import {
  along_line,
  beside_lines,
  length_in_words,
  too_long_in_words,
  type Placed,
} from "../../src/view/sheet/run_labels";
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
  const k = 12;
  const words = "C1 8.4 to 9.1 m";
  /** Points of the frame of its words, on the page, y downwards. */
  function frame(lines: readonly (readonly SitePoint[])[], which: number): SitePoint[] {
    const labels = lines.map((line, i) => ({ name: `C${i}`, words, line }));
    const { at, right, down } = beside_lines(labels, k)[which]!;
    const [x, y] = [at[0] * k + right, -at[1] * k + down];
    const half = (words.length * 6.2) / 2;
    const points: SitePoint[] = [];
    for (let across = -1; across <= 1; across += 0.05)
      for (let up = -1; up <= 1; up += 0.25) points.push([x + across * half, y + up * 6.5]);
    return points;
  }
  const on_page = (line: readonly SitePoint[]): SitePoint[] => line.map(([x, y]) => [x * k, -y * k]);
  it.each([0, 20, 45, 70, 90, 110, 135, 160])("lies beside a short line that runs at %i degrees", (degrees) => {
    const turn = (degrees * Math.PI) / 180;
    // 6 m at 12 px a metre: 72 px, less than the words are wide.
    const line: SitePoint[] = [
      [1, 1],
      [1 + 6 * Math.sin(turn), 1 + 6 * Math.cos(turn)],
    ];
    const nearest = Math.min(...frame([line], 0).map((p) => distance_to_line(p, on_page(line), false)));
    expect(nearest).toBeGreaterThan(3.9);
    expect(nearest).toBeLessThan(16);
  });
  it("lies clear of the bend of its line, and of other lines and their words", () => {
    const bent: SitePoint[] = [
      [0, 0],
      [0, 5],
      [6, 5],
    ];
    const others: SitePoint[][] = [
      [
        [0, 0],
        [0, -9],
      ],
      [
        [0, 0],
        [14, -3],
      ],
    ];
    const all = [bent, ...others];
    const frames = all.map((_, i) => frame(all, i));
    for (const own of frames)
      for (const line of all)
        expect(Math.min(...own.map((p) => distance_to_line(p, on_page(line), false)))).toBeGreaterThan(2);
    const [a, b, c] = frames.map((points) => points.map(([x, y]) => `${Math.round(x)},${Math.round(y)}`));
    expect(a!.filter((p) => b!.includes(p) || c!.includes(p))).toEqual([]);
  });
  it("lies clear of a name", () => {
    const label = {
      name: "C1",
      words,
      line: [
        [0, 0],
        [30, 0],
      ] as SitePoint[],
    };
    const frame_at = (names: Frame[]): Frame => {
      const [{ at, right, down }] = beside_lines([label], k, names) as [Placed];
      return frame_of_words(words, at[0] * k + right, -at[1] * k + down);
    };
    const alone = frame_at([]);
    expect(are_over(frame_at([alone]), alone)).toBe(false);
  });
  it("of lines that lie in one another keeps the words apart", () => {
    const line: SitePoint[] = [
      [0, 0],
      [30, 0],
    ];
    const placed = beside_lines(
      ["C1", "C2", "C3"].map((name) => ({ name, words: name, line })),
      k,
    );
    const middles = placed.map(({ at, right, down }): SitePoint => [at[0] * k + right, -at[1] * k + down]);
    for (const [a, b] of segments(middles, true))
      expect(Math.abs(a[0] - b[0]) > 12 || Math.abs(a[1] - b[1]) >= 13).toBe(true);
  });
});
