// SPDX-License-Identifier: GPL-3.0-or-later
// The section told in words, for those who do not see it.
//   Checked  test/view/section.test.ts
import { text } from "../../base/text.svelte";
import type { Units } from "../../base/units";
import { stocked } from "../../store/stock.svelte";
import { density_with_range, shown_distance } from "../figures";
import { limit_words } from "../margin/verdict_words";
import { reach_of, type SectionAnswer, type SectionPerson } from "./frame";

export function person_words(person: SectionPerson, units: Units): string {
  const distance = shown_distance(person.distance_m, units);
  if (!person.seen)
    return text("views.section.person_unseen", { distance, why: limit_words(person.limit ?? "out of view") });
  const delivered = density_with_range(person.delivered_px_per_m, units);
  const level = person.level === null ? text("views.print.no_level") : stocked.level_called(person.level);
  const limit = person.limit ? limit_words(person.limit) : text("views.section.nothing");
  return text("views.section.person", { distance, delivered, level, limit });
}

export function section_words(section: SectionAnswer, units: Units): string {
  const reach = shown_distance(reach_of(section), units);
  const dead =
    section.dead_m === null ? "" : text("views.section.dead", { distance: shown_distance(section.dead_m, units) });
  const people = section.persons.map((person) => person_words(person, units));
  return [text("views.section.said", { reach }), dead, ...people].filter((part) => part !== "").join(". ");
}
