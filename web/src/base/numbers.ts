// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as the language of the page writes them, and back: 3.5 in English, 3,5 in German. Digits are never grouped, so
// that no mark in a number is anything but the decimal one.
//   Checked  test/base/numbers.test.ts: against CLDR's patterns as Intl has them; both ways
import { language, locale } from "./language.svelte";

const kMostPlaces = 12;
const formats = new Map<string, Intl.NumberFormat>();

function format(places: number): Intl.NumberFormat {
  const key = `${language()} ${places}`;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.NumberFormat(locale(), {
    maximumFractionDigits: places,
    useGrouping: false,
    signDisplay: "negative",
  });
  formats.set(key, made);
  return made;
}

/** With so many digits behind the mark at most, without trailing zeros: 3.50 is 3.5, 4.00 is 4. */
export function number_shown(value: number, places = kMostPlaces): string {
  return format(places).format(value);
}

function mark(): string {
  return number_shown(0.5).charAt(1);
}

/** A number that came as text, digit for digit: zeros at its end tell how sure it is. */
export function digits_shown(english: string): string {
  return english.replace(".", mark());
}

const kNumber = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?$/i;
const kGrouped = /^([+-]?[1-9]\d{0,2})[.,](\d{3})$/;

/** Null where it is no number, or could be two (`two_ways`). Comma and point are both taken for the decimal mark. */
export function read_number(typed: string): number | null {
  const said = typed.trim().replace("\u2212", "-");
  return kNumber.test(said) && two_ways(said) === null ? Number(said.replace(",", ".")) : null;
}

/** What 1,500 may mean where the mark is a point: 1500 and 1.5, each as it is written without doubt. */
export function two_ways(typed: string): readonly [string, string] | null {
  const said = typed.trim().replace("\u2212", "-");
  const found = kGrouped.exec(said);
  if (!found || said.includes(mark())) return null;
  const [, whole = "", rest = ""] = found;
  return [number_shown(Number(whole + rest)), number_shown(Number(`${whole}.${rest}`))];
}
