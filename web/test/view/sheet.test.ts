import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bytes_of } from "../../src/base/bytes";
import { along_heading, distance } from "../../src/base/plane";
import { page_from_site } from "../../src/base/window";
import { with_changes } from "../../src/store/changes";
import type { ProjectDocument } from "../../src/wire/document";
import { differences } from "../../src/view/differences";
import { contour_labels } from "../../src/view/sheet/contour_labels";
import { handles_of, pulled } from "../../src/view/sheet/handles";
import { tone_colour, tone_pixels } from "../../src/view/sheet/tone";

const demo = JSON.parse(
  readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
) as ProjectDocument;
const window = { centre: [50, 40] as const, px_per_m: 8, width: 900, height: 700 };
const places = { window, page_from_site: (p: readonly [number, number]) => page_from_site(window, p) };
const zoom = { list: "cameras", name: "north strip" } as const;
const eye: [number, number] = [35, 64.15];

describe("handles", () => {
  it("a zoom's handle says heading and focal length together, and its ends are the lens's ends", () => {
    const [handle] = handles_of(demo, zoom, window.px_per_m);
    expect(handle?.kind).toBe("lens");
    const pull = (heading: number, px: number): unknown => {
      const at = along_heading(eye, heading, px / window.px_per_m);
      return pulled(demo, handle!, at, places.page_from_site(at), places)[0]?.now;
    };
    expect(pull(90, 400)).toMatchObject({ heading_deg: 90, focal_mm: 35 });
    expect(pull(45, 5)).toMatchObject({ heading_deg: 45, focal_mm: 7 });
    expect(pull(45, 78)).toMatchObject({ focal_mm: 15.7 }); // half way: the geometric mean of 7 and 35
  });
  it("what a handle says is where it is drawn again", () => {
    const [handle] = handles_of(demo, zoom, window.px_per_m);
    const at = along_heading(eye, 123, 84 / window.px_per_m);
    const after = with_changes(demo, pulled(demo, handle!, at, places.page_from_site(at), places));
    expect(distance(handles_of(after, zoom, window.px_per_m)[0]!.at, at)).toBeLessThan(0.1);
  });
  it("a fixed lens is turned only", () => {
    const [handle] = handles_of(demo, { list: "cameras", name: "gate faces" }, window.px_per_m);
    expect(handle?.kind).toBe("heading");
  });
  it("a corner between two is put in where the hand is", () => {
    const ref = { list: "site/solids", name: "shop" } as const;
    const middle = handles_of(demo, ref, window.px_per_m).find(
      (each) => each.kind === "between" && each.corner.index === 1,
    )!;
    const now = pulled(demo, middle, [52, 16], { x: 0, y: 0 }, places)[0]?.now as { outline: unknown[] };
    expect(now.outline).toEqual([
      [44, 18],
      [52, 16],
      [60, 18],
      [60, 28],
      [44, 28],
    ]);
  });
});

describe("contour figures", () => {
  const frame = {
    width: 900,
    height: 700,
    page_from_site: (p: readonly [number, number]) => ({ x: p[0], y: 700 - p[1] }),
    units: "metres" as const,
    names: [],
  };
  const line = (y: number): [number, number][] => [
    [50, y],
    [850, y],
  ];
  it("stand along their line, upright, and keep clear of one another", () => {
    const labels = contour_labels(
      [
        { density_px_per_m: 125, required: true, lines: [line(300)] },
        { density_px_per_m: 62.5, required: false, lines: [line(310)] },
      ],
      frame,
    );
    expect(labels.filter((label) => label.required).length).toBe(3);
    const close = labels.filter((a) =>
      labels.some((b) => a !== b && Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y) < 40),
    );
    expect(close).toEqual([]);
    expect(labels.every((label) => Math.abs(label.turn_deg) <= 90)).toBe(true);
  });
  it("say the density in the unit of the page, and the unit with the one that is asked for", () => {
    const contours = [
      { density_px_per_m: 250, required: true, lines: [line(300)] },
      { density_px_per_m: 62.5, required: false, lines: [line(500)] },
    ];
    const words = (units: "metres" | "feet"): string[] => [
      ...new Set(contour_labels(contours, { ...frame, units }).map((label) => label.words)),
    ];
    expect(words("metres")).toEqual(["250 px/m", "62.5"]);
    expect(words("feet")).toEqual(["76.2 px/ft", "19.1"]);
  });
  it("make way for a name, and stand farther along their line", () => {
    const contours = [{ density_px_per_m: 80, required: false, lines: [line(300)] }];
    const [first] = contour_labels(contours, frame);
    const name = { x: first!.at.x, y: first!.at.y, half_wide: 60, half_high: 7 };
    const [now] = contour_labels(contours, { ...frame, names: [name] });
    expect(Math.abs(now!.at.x - name.x)).toBeGreaterThan(60);
    expect(Math.abs(now!.at.x - name.x)).toBeLessThan(100);
  });
  it("a short line has none", () => {
    expect(
      contour_labels(
        [
          {
            density_px_per_m: 20,
            required: false,
            lines: [
              [
                [100, 100],
                [140, 100],
              ],
            ],
          },
        ],
        frame,
      ),
    ).toEqual([]);
  });
});

describe("the tone", () => {
  const lightness = ([r, g, b]: number[]): number => 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  it("grows lighter all the way", () => {
    const steps = Array.from({ length: 51 }, (_, i) => lightness(tone_colour(i / 50)));
    expect(steps.every((step, i) => i === 0 || step > steps[i - 1]!)).toBe(true);
  });
  it("is nothing where nothing is seen", () => {
    expect([...tone_pixels(bytes_of(btoa("\u0000\u00ff")))]).toEqual([0, 0, 0, 0, 254, 232, 56, 255]);
  });
});

it("differences of two states are told field by field", () => {
  expect(differences({ name: "a", height_m: 2 }, { name: "a", height_m: 3, passes: 1 }, "gone")).toEqual([
    { field: "height_m", mine: "2", theirs: "3" },
    { field: "passes", mine: "gone", theirs: "1" },
  ]);
  expect(differences({ name: "a" }, null, "gone")).toEqual([{ field: "", mine: "name a", theirs: "gone" }]);
});
