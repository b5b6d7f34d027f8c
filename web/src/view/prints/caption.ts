// SPDX-License-Identifier: GPL-3.0-or-later
// What is written under a print, like a photographer's note.
//   Checked  test/view/caption.test.ts
import { text } from "../../base/text.svelte";
import type { Units } from "../../base/units";
import { stocked } from "../../store/stock.svelte";
import type { Figures } from "../asks";
import { density_with_range, percent, shown_distance, shown_shutter, three_digits } from "../figures";
import { limit_words } from "../margin/verdict_words";

/** "23.4 m, 1/50 s, 24 dB, infrared 40 %" */
export function exposure_note(figures: Figures, units: Units): string {
  const parts = [shown_distance(figures.distance_m, units)];
  if (figures.shutter_s !== null) parts.push(shown_shutter(figures.shutter_s));
  if (figures.gain_db !== null) parts.push(`${three_digits(figures.gain_db)} dB`);
  if (figures.infrared_power !== null && figures.infrared_power > 0)
    parts.push(text("views.print.infrared", { share: percent(figures.infrared_power) }));
  return parts.join(", ");
}

/** "283 px/m (249 to 317): discern; limited by focus" */
export function detail_note(figures: Figures, units: Units): string {
  const delivered = density_with_range(figures.delivered_px_per_m, units);
  const level = figures.level === null ? text("views.print.no_level") : stocked.level_called(figures.level);
  if (!figures.limit) return text("views.print.detail", { delivered, level });
  return text("views.print.detail_limit", { delivered, level, limit: limit_words(figures.limit) });
}

/** How the picture is told to those who do not see it. */
export function picture_words(camera: string, condition: string, figures: Figures | null, units: Units): string {
  const base = text("views.print.alt", { camera, condition });
  return figures ? `${base} ${exposure_note(figures, units)}. ${detail_note(figures, units)}` : base;
}
