// SPDX-License-Identifier: GPL-3.0-or-later
import { readFileSync } from "node:fs";
import { beforeEach, describe, expect, it } from "vitest";
import { laid, line_of_run, plan_line } from "../../src/store/laid.svelte";
import type { CablesAnswer } from "../../src/wire/answers";
import type { ProjectDocument } from "../../src/wire/document";

const read = (path: string): never =>
  JSON.parse(readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8")) as never;
const answer = read("schema/examples/wire/answer_cables.json") as CablesAnswer;
const wired = read("tests/case/files/wired.sightfall.json") as ProjectDocument;
const run = wired.site.runs![0]!;

describe("a cable as it is laid", () => {
  beforeEach(() => laid.took(answer, "wired"));

  it("is drawn along its ways, without the steps up and down", () => {
    const line = line_of_run(wired, run, laid.run(run, "wired"))!;
    expect(line.length).toBeGreaterThan(2);
    expect(line).toContainEqual([1, 2.5]);
    expect(line.every((point, i) => i === 0 || String(point) !== String(line[i - 1]))).toBe(true);
    expect(
      plan_line([
        [1, 1, 0],
        [1, 1, 3],
        [2, 1, 3],
        [2, 1, 0],
      ]),
    ).toEqual([
      [1, 1],
      [2, 1],
    ]);
  });
  it("is a straight tie until it is told, or told anew", () => {
    const straight = line_of_run(wired, run, null)!;
    expect(straight.length).toBe(2);
    expect(laid.run({ ...run, name: "C9" }, "wired")).toBe(null);
    expect(laid.run({ ...run, to: "another" }, "wired")).toBe(null);
    expect(laid.run(run, "another site")).toBe(null);
    laid.forget();
    expect(laid.run(run, "wired")).toBe(null);
  });
});
