// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import {
  altitude_share,
  condition_of,
  minutes_at,
  minutes_by_key,
  minutes_of,
  moment_of,
  row_at,
  shade_of,
  stretches,
  sun_path,
  time_of,
  type HourOfDay,
} from "../../src/view/dayband/band";
import { condition_words, light_words } from "../../src/view/dayband/words";

const row = (time: string, sun_altitude_deg: number): HourOfDay => ({
  time,
  sun_altitude_deg,
  sun_heading_deg: 0,
  lux: 1,
});

describe("the day band", () => {
  it("reads and writes times of day", () => {
    expect(minutes_of("18:30")).toBe(1110);
    expect(time_of(1110)).toBe("18:30");
    expect(time_of(1440)).toBe("23:59");
  });
  it("finds the hour under the pointer in steps of ten minutes, never after 23:50", () => {
    expect(time_of(minutes_at(0, 720))).toBe("00:00");
    expect(time_of(minutes_at(362, 720))).toBe("12:00");
    expect(time_of(minutes_at(900, 720))).toBe("23:50");
  });
  it("moves by keys", () => {
    expect(minutes_by_key("ArrowRight", 600)).toBe(610);
    expect(minutes_by_key("PageDown", 30)).toBe(0);
    expect(minutes_by_key("Home", 600)).toBe(0);
    expect(minutes_by_key("End", 600)).toBe(1430);
    expect(minutes_by_key("a", 600)).toBeNull();
  });
  it("cuts the day where twilights begin: 0, 6, 12 and 18 degrees below", () => {
    expect([0, -0.1, -6.1, -12.1, -18.1].map(shade_of)).toEqual(["day", "civil", "nautical", "astronomical", "night"]);
    const day = stretches([row("00:00", -30), row("06:00", -3), row("06:10", -1), row("12:00", 40)]);
    expect(day).toEqual([
      { shade: "night", from_min: 0, to_min: 180 },
      { shade: "civil", from_min: 180, to_min: 545 },
      { shade: "day", from_min: 545, to_min: 1440 },
    ]);
  });
  it("draws the horizon between the highest and the lowest, and what is beyond them at the edge", () => {
    expect(altitude_share(90)).toBe(0);
    expect(altitude_share(72)).toBe(0);
    expect(altitude_share(24)).toBeCloseTo(0.5);
    expect(altitude_share(-90)).toBe(1);
    expect(altitude_share(10)).toBeLessThan(altitude_share(0));
    expect(sun_path([row("00:00", -90), row("12:00", 90)], 240, 100)).toBe("M0.0 100.0L120.0 0.0");
  });
  it("finds the row of an hour", () => {
    const day = { date: "2026-06-21", time_zone: null, hours: [row("11:50", 1), row("12:00", 2)], flags: [] };
    expect(row_at(day, 718)?.time).toBe("12:00");
    expect(row_at({ ...day, hours: [] }, 718)).toBeNull();
  });
  it("makes a condition of an hour and finds the hour of a condition", () => {
    const moment = { date: "2026-12-15", minutes: 1110, leaves: "off", sky: "overcast" } as const;
    const condition = condition_of(moment);
    expect(condition).toEqual({
      name: "15 Dec 2026, 18:30",
      leaves: "off",
      date: "2026-12-15",
      time: "18:30",
      sky: "overcast",
    });
    expect(moment_of(condition, { date: "", minutes: 0, leaves: "on", sky: "clear" })).toEqual(moment);
    expect(condition_of({ ...moment, sky: "clear" })).not.toHaveProperty("sky");
  });
  it("is told in words", () => {
    expect(light_words("18:30", row("18:30", -12.4))).toBe(
      "18:30, astronomical twilight, sun 12° below the horizon, 1 lx under a clear sky",
    );
    expect(condition_words({ name: "x", leaves: "off", light: "dark night", air: "fog" })).toBe(
      "dark night, leaves off, fog",
    );
    expect(condition_words({ name: "x", leaves: "on" })).toBe("ample light, leaves on");
  });
});
