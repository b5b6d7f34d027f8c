// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import {
  dead_ground,
  frame_of,
  height_at,
  in_plane,
  kPerson_m,
  on_axis,
  on_paper,
  path,
  tilt_towards,
  type SectionAnswer,
} from "../../src/view/section/frame";
import { person_words, section_words } from "../../src/view/section/words";

const section: SectionAnswer = {
  from: [0, 0],
  heading_deg: 0,
  reach_m: 20,
  ground: [
    [0, 1],
    [10, 1],
    [20, 2],
  ],
  cuts: [
    {
      name: "wall",
      kind: "solid",
      lines: [
        [
          [12, 1],
          [12, 3],
          [12.3, 3],
          [12.3, 1],
        ],
      ],
    },
  ],
  eye: [0, 5],
  upper: [],
  lower: [],
  dead_m: 15,
  sharp_m: [4, null],
  persons: [
    {
      distance_m: 5,
      ground_z_m: 1,
      seen: true,
      delivered_px_per_m: { low: 90, nominal: 120, high: 150 },
      level: "discern",
      limit: "pixels",
    },
    {
      distance_m: 13,
      ground_z_m: 1.3,
      seen: false,
      delivered_px_per_m: { low: 0, nominal: 0, high: 0 },
      level: null,
      limit: "occlusion",
    },
  ],
  infrared: [],
};
const paper = { width: 800, height: 300, left: 30, right: 10, above: 10, below: 50 };
const frame = frame_of(section, paper);

describe("the section's paper", () => {
  it("has one scale both ways: a person is as tall as 1.75 m along the ground is long", () => {
    const foot = on_paper(frame, [5, 1]);
    const head = on_paper(frame, [5, 1 + kPerson_m]);
    const along = on_paper(frame, [5 + kPerson_m, 1]);
    expect(foot.y - head.y).toBeCloseTo(along.x - foot.x);
  });
  it("holds all of it", () => {
    for (const point of [...section.ground, section.eye]) {
      const { x, y } = on_paper(frame, point);
      expect(x).toBeGreaterThanOrEqual(30);
      expect(x).toBeLessThanOrEqual(790);
      expect(y).toBeGreaterThanOrEqual(10);
      expect(y).toBeLessThanOrEqual(250);
    }
  });
  it("is read back as it is drawn", () => {
    const { x, y } = on_paper(frame, [7, 3]);
    const [s, z] = in_plane(frame, x, y);
    expect(s).toBeCloseTo(7);
    expect(z).toBeCloseTo(3);
    expect(path(frame, [[0, 1]], true)).toMatch(/^M30\.0 250\.0Z$/);
  });
});

describe("the handles", () => {
  it("give the tilt that looks at a point, in half degrees", () => {
    expect(tilt_towards([0, 5], [4, 1])).toBe(45);
    expect(tilt_towards([0, 5], [10, 5])).toBe(0);
    expect(tilt_towards([0, 5], [10, 6])).toBe(-5.5);
    for (const tilt of [-10, 3, 12.5, 40]) expect(tilt_towards([0, 5], on_axis([0, 5], tilt, 8))).toBe(tilt);
  });
  it("give the mount's height over its own ground, to the decimetre and above it", () => {
    expect(height_at(section, 4.44)).toBe(3.4);
    expect(height_at(section, -3)).toBe(0.1);
  });
});

describe("dead ground", () => {
  it("ends where the picture begins, between two points of the ground", () => {
    expect(dead_ground(section)).toEqual([
      [0, 1],
      [10, 1],
      [15, 1.5],
    ]);
    expect(dead_ground({ ...section, dead_m: null }).at(-1)).toEqual([20, 2]);
  });
});

describe("the section in words", () => {
  it("tells each person and why one is not seen", () => {
    expect(section.persons.map((person) => person_words(person, "metres"))).toEqual([
      "At 5 m a face has 120 px/m (90 to 150), discern, held back most by: too few pixels",
      "At 13 m a face is not seen: something stands in the way",
    ]);
    expect(section_words(section, "metres")).toContain("The ground is in the picture from 15 m on");
  });
});
