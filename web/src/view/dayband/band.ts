// SPDX-License-Identifier: GPL-3.0-or-later
// The day band as lines: minutes of the day along it, the sun's height across it, shades where it is below the horizon.
//   Checked  test/view/band.test.ts
import { day_shown } from "../../base/dates";
import type { Condition } from "../../wire/document";

export interface HourOfDay {
  readonly time: string;
  readonly sun_altitude_deg: number;
  readonly sun_heading_deg: number;
  readonly lux: number;
}
export interface DayAnswer {
  readonly date: string;
  readonly time_zone: string | null;
  readonly hours: readonly HourOfDay[];
  readonly flags: readonly { readonly condition: string; readonly date?: string; readonly time: string }[];
}

export const kDay_min = 24 * 60;
export const kStep_min = 10;
/** What the band shows of the sun's height. */
export const kHighest_deg = 72;
export const kLowest_deg = -24;

export function minutes_of(time: string): number {
  const [hours, minutes] = time.split(":").map(Number);
  return (hours ?? 0) * 60 + (minutes ?? 0);
}

export function time_of(minutes: number): string {
  const whole = Math.min(kDay_min - 1, Math.max(0, Math.round(minutes)));
  return `${String(Math.floor(whole / 60)).padStart(2, "0")}:${String(whole % 60).padStart(2, "0")}`;
}

/** The nearest step of the band; the last one is 23:50. */
export function stepped(minutes: number): number {
  const step = Math.round(minutes / kStep_min) * kStep_min;
  return Math.min(kDay_min - kStep_min, Math.max(0, step));
}

export function minutes_at(x: number, width: number): number {
  return stepped((Math.min(width, Math.max(0, x)) / Math.max(1, width)) * kDay_min);
}

/** From 0 at the band's top to 1 at its foot; the horizon lies at `altitude_share(0)`. */
export function altitude_share(altitude_deg: number): number {
  const kept = Math.min(kHighest_deg, Math.max(kLowest_deg, altitude_deg));
  return (kHighest_deg - kept) / (kHighest_deg - kLowest_deg);
}

export function sun_path(hours: readonly HourOfDay[], width: number, height: number): string {
  return hours
    .map((hour, i) => {
      const x = (minutes_of(hour.time) / kDay_min) * width;
      const y = altitude_share(hour.sun_altitude_deg) * height;
      return `${i === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
    })
    .join("");
}

/** Day, the three twilights by the sun's height (civil to -6, nautical to -12, astronomical to -18 degrees), night. */
export const kShades = ["day", "civil", "nautical", "astronomical", "night"] as const;
export type Shade = (typeof kShades)[number];

export function shade_of(altitude_deg: number): Shade {
  if (altitude_deg >= 0) return "day";
  if (altitude_deg >= -6) return "civil";
  if (altitude_deg >= -12) return "nautical";
  return altitude_deg >= -18 ? "astronomical" : "night";
}

export interface Stretch {
  readonly shade: Shade;
  readonly from_min: number;
  readonly to_min: number;
}

/** The day cut where its shade changes, halfway between the rows on both sides. */
export function stretches(hours: readonly HourOfDay[]): Stretch[] {
  const found: Stretch[] = [];
  hours.forEach((hour, i) => {
    const shade = shade_of(hour.sun_altitude_deg);
    const last = found.at(-1);
    const next = hours[i + 1];
    const to_min = next ? (minutes_of(hour.time) + minutes_of(next.time)) / 2 : kDay_min;
    if (last?.shade === shade) found[found.length - 1] = { ...last, to_min };
    else found.push({ shade, from_min: last?.to_min ?? 0, to_min });
  });
  return found;
}

export function row_at(day: DayAnswer, minutes: number): HourOfDay | null {
  let nearest: HourOfDay | null = null;
  for (const hour of day.hours)
    if (!nearest || Math.abs(minutes_of(hour.time) - minutes) < Math.abs(minutes_of(nearest.time) - minutes))
      nearest = hour;
  return nearest;
}

export interface Moment {
  readonly date: string;
  readonly minutes: number;
  readonly leaves: "on" | "off";
  readonly sky: "clear" | "overcast" | "storm";
}

/** An hour of the band as a condition that stands in no document. */
export function condition_of(moment: Moment): Condition {
  const time = time_of(moment.minutes);
  const said = { name: `${day_shown(moment.date)}, ${time}`, leaves: moment.leaves, date: moment.date, time };
  return moment.sky === "clear" ? said : { ...said, sky: moment.sky };
}

/** The same moment as the condition, as far as it has one. */
export function moment_of(condition: Condition, otherwise: Moment): Moment {
  const sky = condition.sky === "overcast" || condition.sky === "storm" ? condition.sky : "clear";
  return {
    date: condition.date ?? otherwise.date,
    minutes: condition.time ? minutes_of(condition.time) : otherwise.minutes,
    leaves: condition.leaves,
    sky,
  };
}

/** Where a key moves the hour to; null for keys that move nothing. */
export function minutes_by_key(key: string, minutes: number): number | null {
  const steps: Record<string, number> = {
    ArrowLeft: -kStep_min,
    ArrowDown: -kStep_min,
    ArrowRight: kStep_min,
    ArrowUp: kStep_min,
    PageDown: -60,
    PageUp: 60,
    Home: -kDay_min,
    End: kDay_min,
  };
  const by = steps[key];
  return by === undefined ? null : stepped(minutes + by);
}
