// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { sheet } from "../../src/store/sheet.svelte";

describe("what is selected under something that covers the sheet", () => {
  const box = { west: 0, south: 0, east: 4, north: 6 };
  const feet = (): [number, number] => [sheet.page_from_site([0, 6]).y, sheet.page_from_site([0, 0]).y];
  it("is brought out from under it, and no farther", () => {
    sheet.window = { centre: [0, 10], px_per_m: 10, width: 375, height: 470 };
    expect(feet()).toEqual([275, 335]);
    sheet.clear_below(box, 190);
    expect(feet()).toEqual([90, 150]);
    sheet.clear_below(box, 190);
    expect(feet()).toEqual([90, 150]);
  });
  it("keeps its upper end in sight where it is too high for what is free", () => {
    sheet.window = { centre: [0, 10], px_per_m: 40, width: 375, height: 470 };
    sheet.clear_below(box, 190);
    expect(feet()).toEqual([40, 280]);
  });
});
