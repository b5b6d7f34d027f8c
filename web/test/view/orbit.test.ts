// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { first_look } from "../../src/view/scene/look";
import { ahead_of, beside, by_key, eye_of, nearer, shifted, turned } from "../../src/view/scene/orbit";

const orbit = { target: [10, 20, 1], distance: 10, heading: 0, down: 30 } as const;

describe("the eye of the scene", () => {
  it("stands behind and above what it looks at", () => {
    const [x, y, z] = eye_of(orbit);
    expect(x).toBeCloseTo(10);
    expect(y).toBeCloseTo(20 - 10 * Math.cos(Math.PI / 6));
    expect(z).toBeCloseTo(1 + 5);
    const [east_x] = eye_of({ ...orbit, heading: 90 });
    expect(east_x).toBeLessThan(10);
  });
  it("keeps its distance when turned, and never turns over", () => {
    const eye = eye_of(turned(orbit, 123, 12));
    expect(Math.hypot(eye[0] - 10, eye[1] - 20, eye[2] - 1)).toBeCloseTo(10);
    expect(turned(orbit, -30, 500)).toMatchObject({ heading: 330, down: 89 });
  });
  it("comes nearer within bounds", () => {
    expect(nearer(orbit, 0.5).distance).toBe(5);
    expect(nearer(orbit, 0).distance).toBe(1.5);
  });
  it("moves over the ground against the drag", () => {
    expect(shifted(orbit, 100, 0, 500).target[0]).toBeCloseTo(8);
    expect(shifted(orbit, 0, 100, 500).target[1]).toBeCloseTo(22);
    expect(shifted({ ...orbit, heading: 90 }, 0, 100, 500).target[0]).toBeCloseTo(12);
  });
  it("obeys keys", () => {
    expect(by_key("ArrowLeft", orbit)?.heading).toBe(350);
    expect(by_key("+", orbit)?.distance).toBe(8);
    expect(by_key("q", orbit)).toBeNull();
  });
  it("looks at a place from beside its camera, and ahead of a camera without one", () => {
    expect(beside([0, 0, 4], [0, 20, 1])).toMatchObject({
      heading: 50,
      distance: 26,
      target: [0, 10, 1],
    });
    expect(
      ahead_of(
        [1, 2, 4],
        [
          [0.2, 1, 0],
          [-0.2, 1, -0.5],
        ],
        10,
      ),
    ).toEqual([1, 12]);
  });
  it("is put before what is asked for: a place beside its camera, else what the camera looks at", () => {
    const cameras = [
      { name: "gate", eye: [0, 0, 4], corners: [[0, 1, 0]] },
      { name: "yard", eye: [50, 0, 4], corners: [[1, 0, 0]] },
    ] as never;
    const ground = (at: readonly [number, number]): number => at[0] / 10;
    expect(first_look({ camera: "gate", at: [0, 20] }, cameras, ground)).toMatchObject({ target: [0, 10, 1.2] });
    expect(first_look({ camera: "gate", at: [20, 0] }, cameras, ground)).toMatchObject({ target: [10, 0, 3.2] });
    expect(first_look({ camera: "yard" }, cameras, ground)).toMatchObject({ target: [56, 0, 7.2] });
  });
});
