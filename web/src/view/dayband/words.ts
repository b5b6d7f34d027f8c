// SPDX-License-Identifier: GPL-3.0-or-later
// The light of an hour, and a condition, in words.
//   Checked  test/view/band.test.ts
import { day_shown } from "../../base/dates";
import { has_text, text } from "../../base/text.svelte";
import type { Condition } from "../../wire/document";
import { three_digits } from "../figures";
import { shade_of, type HourOfDay } from "./band";

/** "18:30, night, sun 12 degrees below the horizon, 0.02 lx" */
export function light_words(time: string, row: HourOfDay | null): string {
  if (!row) return time;
  const altitude = Math.round(row.sun_altitude_deg);
  const sun = text(altitude >= 0 ? "views.day.sun_up" : "views.day.sun_down", { degrees: Math.abs(altitude) });
  const lux = three_digits(row.lux);
  return text("views.day.said", { time, shade: text(`views.day.shades.${shade_of(row.sun_altitude_deg)}`), sun, lux });
}

/** What a condition says beside its name. */
export function condition_words(condition: Condition): string {
  const light = condition.date && condition.time ? `${day_shown(condition.date)}, ${condition.time}` : condition.light;
  const key = `views.day.lights.${(light ?? "ample").replaceAll(" ", "_")}`;
  const parts = [
    has_text(key) ? text(key) : (light ?? ""),
    text(condition.leaves === "on" ? "views.day.leaves_on" : "views.day.leaves_off"),
    condition.sky ? text(`views.day.skies.${condition.sky}`) : "",
    condition.air ? text(`views.day.airs.${condition.air}`) : "",
  ];
  return parts.filter((part) => part !== "").join(", ");
}
