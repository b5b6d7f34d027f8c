// SPDX-License-Identifier: GPL-3.0-or-later
// What is typed where a number is asked for: read by the marks of the page's language, in the unit shown, within its
// limits; else what is wrong with it, in words.
//   Checked  test/widgets/number_entry.test.ts
import { number_shown, read_number, two_ways } from "../base/numbers";
import { text } from "../base/text.svelte";
import { kept_number, shown_number, unit_shown, type Units } from "../base/units";

export interface Limits {
  readonly least: number | null;
  readonly most: number | null;
  readonly unit: string | null;
  readonly whole?: boolean;
}
/** `number` is in the document's unit. */
export type Entry = { readonly number: number } | { readonly wrong: string };

export function entered(typed: string, limits: Limits, units: Units): Entry {
  const either = two_ways(typed);
  if (either) return { wrong: text("form.two_ways", { typed: typed.trim(), whole: either[0], part: either[1] }) };
  const read = limits.unit === "s" ? (read_part(typed) ?? read_number(typed)) : read_number(typed);
  const number = read === null ? null : kept_number(read, units, limits.unit);
  if (number === null || !within(number, limits)) return { wrong: limits_in_words(limits, units) };
  return { number };
}

/** 1/500: a shutter as it stands on a camera, whose seconds nobody knows by heart. */
function read_part(typed: string): number | null {
  const whole = Number(/^\s*1\s*\/\s*(\d+)\s*$/.exec(typed)?.[1] ?? 0);
  return whole > 0 ? Number((1 / whole).toPrecision(6)) : null;
}

const kLongest_s = 0.3;

/** A number as it stands in its field: short times as parts of a second, feet without what no tape shows. */
export function entry_shown(value: number, unit: string | null, units: Units): string {
  const whole = Math.round(1 / value);
  if (unit === "s" && value > 0 && value < kLongest_s && Math.abs(whole * value - 1) < 1e-4) return `1/${whole}`;
  const shown = shown_number(value, units, unit);
  return shown === value ? number_shown(shown) : number_shown(shown, Math.abs(shown) < 1 ? 4 : 2);
}

export function within(number: number, { least, most, whole }: Limits): boolean {
  if (!Number.isFinite(number) || (whole && !Number.isInteger(number))) return false;
  return (least === null || number >= least) && (most === null || number <= most);
}

export function limits_in_words({ least, most, unit, whole }: Limits, units: Units): string {
  const words = (limit: number): string => number_shown(shown_number(limit, units, unit));
  const named = (limit: number): string => [words(limit), unit_shown(unit, units)].filter(Boolean).join(" ");
  const kind = text(whole ? "form.whole_number" : "form.number");
  if (least !== null && most !== null) return text("form.range", { kind, least: words(least), most: named(most) });
  if (least !== null) return text("form.at_least", { kind, least: named(least) });
  return most === null ? text("form.any", { kind }) : text("form.at_most", { kind, most: named(most) });
}
