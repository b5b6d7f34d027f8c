// SPDX-License-Identifier: GPL-3.0-or-later
// What stands on the site and what a map brings, each in a few words, for a person to choose between.
//   Checked  test/view/clash_words.test.ts
import { area_of, box_of, centre_of, distance } from "../../base/plane";
import { number_shown } from "../../base/numbers";
import { text } from "../../base/text.svelte";
import type { Units } from "../../base/units";
import type { Anchor, Solid } from "../../wire/document";
import { word_shown } from "../../widgets/field_label";
import { shown_distance, three_digits } from "../figures";

const kFoot_m2 = 0.3048 ** 2;

/** building, 7.5 m high, 100 m², 4 corners, 1 hole */
export function solid_in_words(solid: Solid, units: Units): string {
  const said = [word_shown(solid.kind, "site/solids")];
  if (solid.height_m !== undefined)
    said.push(text("import.clash.high", { height: shown_distance(solid.height_m, units) }));
  if ("outline" in solid) {
    const holes = solid.holes ?? [];
    const m2 = area_of(solid.outline) - holes.reduce((sum, hole) => sum + area_of(hole), 0);
    said.push(units === "feet" ? `${three_digits(m2 / kFoot_m2)} ft²` : `${three_digits(m2)} m²`);
    said.push(text("import.clash.corners", { count: solid.outline.length }));
    if (holes.length > 0) said.push(text("import.clash.holes", { count: holes.length }));
    const openings = "openings" in solid ? (solid.openings?.length ?? 0) : 0;
    if (openings > 0) said.push(text("import.clash.openings", { count: openings }));
  }
  return said.join(", ");
}

/** How far the middles of the two lie apart; nothing where one has no outline. */
export function apart_in_words(mine: Solid, imported: Solid, units: Units): string {
  const [a, b] = [mine, imported].map((solid) => ("outline" in solid ? box_of(solid.outline) : null));
  if (!a || !b) return "";
  const metres = distance(centre_of(a), centre_of(b));
  return metres < 0.1 ? text("import.clash.here") : text("import.clash.apart", { far: shown_distance(metres, units) });
}

export function place_in_words(anchor: Anchor): string {
  return text("import.clash.at", {
    latitude: number_shown(anchor.latitude_deg, 5),
    longitude: number_shown(anchor.longitude_deg, 5),
  });
}
