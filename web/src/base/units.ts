// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths, and pixels on a length, as a person writes and reads them. The document and the wire are always in metres; feet
// are only shown.
//   Checked  test/base/units.test.ts: both ways, in both units; the foot is 0.3048 m exactly (international yard and
//            pound agreement, 1959)
import { number_shown, read_number, two_ways } from "./numbers";
import { text } from "./text.svelte";

export type Units = "metres" | "feet";
const kMetresInFoot = 0.3048;

export function shown_length(metres: number, units: Units, places = 2): string {
  if (units === "metres") return `${number_shown(metres, places)} m`;
  const inches_in_all = Math.round((Math.abs(metres) / kMetresInFoot) * 12);
  const feet = Math.floor(inches_in_all / 12);
  const inches = inches_in_all % 12;
  const sign = metres < 0 && inches_in_all > 0 ? "-" : "";
  return inches === 0 ? `${sign}${feet} ft` : `${sign}${feet} ft ${inches} in`;
}

/** What is shown in feet: how many of it come to one in metres. */
const kInFeet: Readonly<Record<string, { readonly unit: string; readonly factor: number }>> = {
  m: { unit: "ft", factor: 1 / kMetresInFoot },
  "px/m": { unit: "px/ft", factor: kMetresInFoot },
};
function in_feet(units: Units, unit: string | null): { readonly unit: string; readonly factor: number } | undefined {
  return units === "feet" && unit !== null ? kInFeet[unit] : undefined;
}

export function shown_number(value: number, units: Units, unit: string | null): number {
  const feet = in_feet(units, unit);
  return feet ? Number((value * feet.factor).toFixed(4)) : value;
}

export function kept_number(shown: number, units: Units, unit: string | null): number {
  const feet = in_feet(units, unit);
  return feet ? Number((shown / feet.factor).toFixed(6)) : shown;
}

const kFigure = "\\d+(?:[.,]\\d+)?";
const kRange = `(?: \\(${kFigure} (?:to|bis) ${kFigure}\\))?`;
/** A quantity with its range and what it is held to: `47.1 (42.3 to 56.1) of 100 m`. */
const kQuantity = new RegExp(
  `${kFigure}(?: (?:to|bis) ${kFigure})?${kRange}(?: (?:of|von) ${kFigure})?[ \u00a0](m|px/m)(?![\\w/²³])${kRange}`,
  "g",
);
const kQuoted = /("[^"]*"|„[^“]*“)/;

/** A sentence of the program, which tells lengths in m, in the unit of the page, to three digits; names in quotation marks
 * are left as they are, and speeds and areas stay metric. The papers do the same (src/papers/feet.h). */
export function with_lengths_in(units: Units, words: string): string {
  if (units === "metres") return words;
  const pieces = words.split(kQuoted);
  return pieces.map((piece, i) => (i % 2 === 1 ? piece : piece.replace(kQuantity, quantity_in_feet))).join("");
}
function quantity_in_feet(quantity: string, unit: string): string {
  const { unit: told, factor } = kInFeet[unit] ?? { unit, factor: 1 };
  const feet = (figure: string): string => {
    const value = Number(figure.replace(",", ".")) * factor;
    return number_shown(value < 1000 ? Number(value.toPrecision(3)) : Math.round(value));
  };
  return quantity
    .split(unit)
    .map((part) => part.replace(new RegExp(kFigure, "g"), feet))
    .join(told);
}

/** Units that the schema writes out. */
const kSigns: Readonly<Record<string, string>> = { deg: "°", "degrees Celsius": "°C", um: "µm", "e/um2": "e/µm²" };

export function unit_shown(unit: string | null, units: Units): string | null {
  const feet = in_feet(units, unit);
  if (feet) return feet.unit;
  return (unit !== null && kSigns[unit]) || unit;
}

const kUnits: Record<string, number> = {
  m: 1,
  cm: 0.01,
  mm: 0.001,
  ft: kMetresInFoot,
  "'": kMetresInFoot,
  "′": kMetresInFoot,
  in: kMetresInFoot / 12,
  '"': kMetresInFoot / 12,
  "″": kMetresInFoot / 12,
};

/** Metres from `12`, `3,5 m`, `12 ft 6 in`, `12'6"`; null when it is no length. A number alone is in the units shown. */
export function read_length(typed: string, units: Units): number | null {
  const part = /^\s*([0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)\s*(mm|cm|m|ft|in|'|"|′|″)?\s*/i;
  let rest = typed;
  let metres = 0;
  let last_was_feet = false;
  while (rest.trim() !== "") {
    const found = part.exec(rest);
    if (!found) return null;
    const number = read_number(found[1] ?? "");
    if (number === null) return null;
    const named = found[2]?.toLowerCase();
    if (!named && rest !== typed && !last_was_feet) return null;
    const factor: number | undefined = named
      ? kUnits[named]
      : last_was_feet
        ? kMetresInFoot / 12
        : units === "feet"
          ? kMetresInFoot
          : 1;
    metres += number * (factor ?? Number.NaN);
    last_was_feet = factor === kMetresInFoot;
    rest = rest.slice(found[0].length);
  }
  return typed.trim() === "" || !Number.isFinite(metres) ? null : metres;
}

/** Why what was typed is no length, in words. */
export function no_length(typed: string): string {
  const either = two_ways(/[\d.,]+/.exec(typed)?.[0] ?? "");
  return either
    ? text("form.two_ways", { typed: typed.trim(), whole: either[0], part: either[1] })
    : text("sheet.no_length", { typed: typed.trim(), such: shown_length(7.5, "metres") });
}
