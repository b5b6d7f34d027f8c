import { describe, expect, it } from "vitest";
import { typed_point } from "../../src/store/drawing.svelte";

describe("a typed length", () => {
  it("leads towards the cursor", () => {
    const p = typed_point("5", [1, 1], [1, 9], "metres")!;
    expect(p[0]).toBeCloseTo(1, 9);
    expect(p[1]).toBeCloseTo(6, 9);
  });
  it("leads along a heading without any cursor", () => {
    const p = typed_point("10 ft < 90", [0, 0], null, "metres")!;
    expect(p[0]).toBeCloseTo(3.048, 9);
    expect(p[1]).toBeCloseTo(0, 9);
  });
  it("is nothing when it is no length or leads nowhere", () => {
    expect(typed_point("x", [0, 0], [1, 1], "metres")).toBeNull();
    expect(typed_point("3 <", [0, 0], [1, 1], "metres")).toBeNull();
    expect(typed_point("3", [0, 0], [0, 0], "metres")).toBeNull();
  });
});
