// SPDX-License-Identifier: GPL-3.0-or-later
// What stands in the sheet's margin of the site as a whole; nothing where nobody has said it.
//   Checked  test/view/margin_notes.test.ts
import { number_shown } from "../../base/numbers";
import { text } from "../../base/text.svelte";
import type { Keeping, ProjectDocument } from "../../wire/document";

export interface MarginNote {
  /** The part of the site's form that it opens. */
  readonly about: "wind" | "keeping";
  readonly words: string;
  /** Why it is so, where the document says. */
  readonly reason?: string;
}

/** Terrain category of a document that states none (docs/document.md). */
const kUsualCategory = "II";

export function margin_notes(document: ProjectDocument): MarginNote[] {
  const notes: MarginNote[] = [];
  const wind = document.site.wind;
  if (wind) {
    const said = { speed: number_shown(wind.basic_m_s, 1), category: wind.category ?? kUsualCategory };
    notes.push({ about: "wind", words: text("sheet.margin.wind", said) });
  }
  const keeping = document.keeping;
  const words = keeping ? limits_of(keeping) : "";
  if (words) notes.push({ about: "keeping", words, ...(keeping?.reason && { reason: keeping.reason }) });
  return notes;
}

function limits_of({ wanted_d, most_d }: Keeping): string {
  if (wanted_d === undefined && most_d === undefined) return "";
  const which = wanted_d === undefined ? "most" : most_d === undefined ? "wanted" : "both";
  return text(`sheet.margin.${which}`, { wanted: number_shown(wanted_d ?? 0, 2), most: number_shown(most_d ?? 0, 2) });
}
