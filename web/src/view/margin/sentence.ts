// SPDX-License-Identifier: GPL-3.0-or-later
// A need as a sentence: where, what, how well, when, how often. The pattern is a text of the page's language with
// `{slots}`; a slot is read as words or filled in as a choice, at the same place in the sentence.
//   Checked  test/view/sentence.test.ts
import { has_text, text } from "../../base/text.svelte";
import type { Units } from "../../base/units";
import type { Level } from "../../store/stock.svelte";
import type { Need, Place, ProjectDocument } from "../../wire/document";
import { listed, shown_density } from "../figures";

export const kSlots = ["place", "subject", "level", "when", "often"] as const;
export type Slot = (typeof kSlots)[number];
export type Piece = { readonly slot: Slot } | { readonly words: string };
export type PlaceKind = Place["kind"];

/** The pattern of a kind of place, cut at its slots. */
export function pieces(kind: PlaceKind): Piece[] {
  return cut(`views.need.sentence.${kind}`, kSlots);
}

/** How often, cut at its figures: pictures of a passage, or a share of the place. */
export function often_pieces(
  each_passage: boolean,
): ({ readonly slot: "pictures" | "share" } | { readonly words: string })[] {
  return cut(each_passage ? "views.need.each_passage" : "views.need.places", ["pictures", "share"] as const);
}

function cut<Name extends string>(
  key: string,
  slots: readonly Name[],
): ({ readonly slot: Name } | { readonly words: string })[] {
  return text(key)
    .split(/(\{\w+\})/)
    .filter((part) => part !== "")
    .map((part) => {
      const slot = slots.find((one) => part === `{${one}}`);
      return slot ? { slot } : { words: part };
    });
}

/** What a sentence is read with: names of places, densities of levels, the unit shown. */
export interface Surroundings {
  readonly document: ProjectDocument;
  readonly levels: readonly Level[];
  readonly units: Units;
}

export function kind_of(need: Pick<Need, "place">, document: ProjectDocument): PlaceKind {
  return document.site.places?.find((place) => place.name === need.place)?.kind ?? "zone";
}

export function slot_words(slot: Slot, need: Need, about: Surroundings): string {
  switch (slot) {
    case "place":
      return need.place;
    case "subject":
      return subject_words(need.subject, kind_of(need, about.document), need.colour ?? false);
    case "level":
      return level_words(need.level, about);
    case "when":
      return need.conditions ? listed(need.conditions) : text("views.need.always");
    case "often":
      return often_words(need, kind_of(need, about.document));
  }
}

/** The whole sentence, as a screen reader is told it. */
export function sentence(need: Need, about: Surroundings): string {
  return pieces(kind_of(need, about.document))
    .map((piece) => ("words" in piece ? piece.words : slot_words(piece.slot, need, about)))
    .join("");
}

export function subject_words(subject: string, kind: PlaceKind, colour: boolean): string {
  const who = kind === "route" ? "passing" : "there";
  const key = `views.need.subject.${subject}.${who}`;
  const words = has_text(key) ? text(key) : subject;
  return colour ? text("views.need.in_colour", { subject: words }) : words;
}

export function level_words(level: string, about: Surroundings): string {
  const found = about.levels.find((one) => one.name === level);
  if (!found) return level;
  return text("views.need.level", { level: found.called, density: shown_density(found.px_per_m, about.units) });
}

function often_words(need: Need, kind: PlaceKind): string {
  const share = Math.round((need.share ?? 0.95) * 1000) / 10;
  const pictures = need.once_a_passage;
  if (kind === "route" && pictures !== undefined) {
    const key = pictures === 1 ? "views.need.once_a_passage" : "views.need.each_passage";
    return text(key, { pictures, share });
  }
  return text(share === 100 ? "views.need.everywhere" : "views.need.places", { share });
}

/** What a new need is called until somebody gives it a better name. */
export function need_name(need: Pick<Need, "subject" | "place">): string {
  const subject = text(`views.need.subject_short.${need.subject}`);
  return text("views.need.name", { subject, place: need.place }).slice(0, 74);
}
