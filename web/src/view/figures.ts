// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as they are read on the page: what came over the wire, rounded to what it can carry.
//   Checked  test/view/figures.test.ts
import { number_shown } from "../base/numbers";
import { text } from "../base/text.svelte";
import { shown_number, type Units } from "../base/units";
import type { Range } from "../wire/answers";

/** Three significant digits, without an exponent: 283, 28.3, 2.83, 0.028. */
export function three_digits(value: number): string {
  if (value === 0) return "0";
  const places = Math.min(6, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
  return number_shown(value, places);
}

const kMetresInFoot = 0.3048;

/** Metres in one unit of length as it is shown. */
export function metres_in_unit(units: Units): number {
  return units === "feet" ? kMetresInFoot : 1;
}

/** A density as a bare number in the unit shown. */
export function density_number(px_per_m: number, units: Units): string {
  return three_digits(units === "feet" ? px_per_m * kMetresInFoot : px_per_m);
}

export function density_unit(units: Units): string {
  return units === "feet" ? "px/ft" : "px/m";
}

export function shown_density(px_per_m: number, units: Units): string {
  return `${density_number(px_per_m, units)} ${density_unit(units)}`;
}

/** 283 px/m (249 to 317); the range is left out where it says nothing. */
export function density_with_range(range: Range, units: Units): string {
  const nominal = shown_density(range.nominal, units);
  if (range.low === range.nominal && range.high === range.nominal) return nominal;
  const low = density_number(range.low, units);
  const high = density_number(range.high, units);
  return text("views.figures.with_range", { nominal, low, high });
}

export function percent(share: number): string {
  const hundredths = share * 100;
  const places = hundredths > 0 && (hundredths < 1 || (hundredths > 99 && hundredths < 100)) ? 1 : 0;
  return `${number_shown(hundredths, places)} %`;
}

/** Distances to read at a glance; a plan's lengths, with feet and inches, are base/units' shown_length. */
export function shown_distance(metres: number, units: Units): string {
  return `${three_digits(shown_number(metres, units, "m"))} ${units === "feet" ? "ft" : "m"}`;
}

/** 1/500 s, 0.5 s */
export function shown_shutter(seconds: number): string {
  if (seconds >= 0.3) return `${three_digits(seconds)} s`;
  return `1/${Math.round(Number((1 / seconds).toPrecision(3)))} s`;
}

/** "a", "a and b", "a, b and c" in the language of the page. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  if (words.length < 2) return last;
  return text("views.figures.and", { before: words.slice(0, -1).join(", "), last });
}

/** A number and its unit are not parted at the end of a line. */
export function unparted(words: string): string {
  return words.replace(/(\d) (px\/|%|m\b|mm\b|ft\b|dB|lx|W\b|N\b|Nm\b|A\b|V\b)/g, "$1\u00a0$2");
}
