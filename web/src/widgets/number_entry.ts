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
  const read = read_number(typed);
  const number = read === null ? null : kept_number(read, units, limits.unit);
  if (number === null || !within(number, limits)) return { wrong: limits_in_words(limits, units) };
  return { number };
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
