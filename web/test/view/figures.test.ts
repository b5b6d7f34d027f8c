// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import {
  unparted,
  density_with_range,
  listed,
  percent,
  shown_density,
  shown_distance,
  shown_shutter,
  three_digits,
} from "../../src/view/figures";

describe("figures", () => {
  it("have three digits and no exponent", () => {
    expect([0, 283.33, 28.33, 2.833, 0.0283, 1850, 99999].map(three_digits)).toEqual([
      "0",
      "283",
      "28.3",
      "2.83",
      "0.0283",
      "1850",
      "99999",
    ]);
  });
  it("say a range only where there is one", () => {
    expect(density_with_range({ low: 248.94, nominal: 283.33, high: 316.95 }, "metres")).toBe("283 px/m (249 to 317)");
    expect(density_with_range({ low: 0, nominal: 0, high: 0 }, "metres")).toBe("0 px/m");
  });
  it("turn densities to feet by the foot of 0.3048 m", () => {
    expect(shown_density(100, "feet")).toBe("30.5 px/ft");
    expect(shown_distance(30.48, "feet")).toBe("100 ft");
  });
  it("do not round a share to all or nothing", () => {
    expect([0, 0.0024, 0.3906, 0.9951, 1].map(percent)).toEqual(["0 %", "0.2 %", "39 %", "99.5 %", "100 %"]);
  });
  it("write a shutter as a photographer does", () => {
    expect([0.002, 0.04, 1 / 4442, 0.5, 2].map(shown_shutter)).toEqual([
      "1/500 s",
      "1/25 s",
      "1/4440 s",
      "0.5 s",
      "2 s",
    ]);
  });
  it("are not parted from their units", () => {
    expect(unparted("8.3 of 12.95 W, 18 N, 1.9 Nm, 60 Mounts")).toBe(
      "8.3 of 12.95\u00a0W, 18\u00a0N, 1.9\u00a0Nm, 60 Mounts",
    );
    expect(unparted("95 % at 12 m, 283 px/m of 3 mounts")).toBe("95\u00a0% at 12\u00a0m, 283\u00a0px/m of 3 mounts");
  });
  it("list words", () => {
    expect([listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])]).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
  });
});

it("figures in German have a comma", async () => {
  await speak("de");
  const range = { low: 24.94, nominal: 28.33, high: 31.69 };
  expect([
    density_with_range(range, "metres"),
    percent(0.9951),
    shown_distance(7.25, "metres"),
    shown_shutter(0.5),
  ]).toEqual(["28,3 px/m (24,9 bis 31,7)", "99,5 %", "7,25 m", "0,5 s"]);
  await speak("en");
});
