// SPDX-License-Identifier: GPL-3.0-or-later
// The range card in words.
//   Checked  test/view/axes.test.ts
import { text } from "../../base/text.svelte";
import { shown_length, type Units } from "../../base/units";
import type { CardAnswer } from "../asks";
import { shown_distance, three_digits } from "../figures";

/** What the lens and the mount are. */
export function card_line(card: CardAnswer): string {
  const [across, down] = card.view_deg;
  const values = {
    focal: three_digits(card.focal_mm),
    f: three_digits(card.f_number),
    across: Math.round(across),
    down: Math.round(down),
  };
  return text("views.card.line", values);
}

export function reach_words(reach: readonly [number, number | null] | null | undefined, units: Units): string {
  if (!reach) return text("views.card.not_reached");
  const [near, far] = reach;
  if (far === null) return text("views.card.from_on", { near: shown_distance(near, units) });
  return text("views.card.from_to", { near: shown_distance(near, units), far: shown_distance(far, units) });
}

export function focus_words(card: CardAnswer, units: Units): string {
  const { near_m, far_m } = card.focus.one_pixel;
  const set = card.focus.set_m === null ? text("views.card.infinity") : shown_length(card.focus.set_m, units);
  const near = near_m === null ? "" : shown_distance(near_m, units);
  const far = far_m === null ? text("views.card.infinity") : shown_distance(far_m, units);
  return text("views.card.focus", { set, near, far });
}
