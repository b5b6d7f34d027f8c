// SPDX-License-Identifier: GPL-3.0-or-later
// What was judged of a need, in a line: the verdict, what holds it back, what is delivered and what is asked for.
//   Checked  test/view/sentence.test.ts
import { number_shown } from "../../base/numbers";
import { has_text, text } from "../../base/text.svelte";
import type { Units } from "../../base/units";
import type { CheckAnswer, JudgedNeed, Range, Verdict } from "../../wire/answers";
import { density_with_range, percent, shown_density } from "../figures";

export type Standing = Verdict | "unknown";
export const kStandings: readonly Standing[] = ["missed", "marginal", "met", "unknown"];

/** Those that ask for something before those that are met. */
export function worst_first<T extends { readonly held: Standing }>(all: readonly T[]): T[] {
  const order: readonly Standing[] = ["missed", "unknown", "marginal", "met"];
  return order.flatMap((standing) => all.filter((one) => one.held === standing));
}

export function standing_of(judged: JudgedNeed | null): Standing {
  return judged?.verdict ?? "unknown";
}

export function limit_words(limit: string): string {
  const key = `views.limit.${limit.replaceAll(" ", "_")}`;
  return has_text(key) ? text(key) : limit;
}

/** "missed: out of focus" */
export function verdict_line(judged: JudgedNeed | null): string {
  const verdict = text(`views.verdict.${standing_of(judged)}`);
  const limit = judged?.limit;
  return limit ? text("views.verdict.with_limit", { verdict, limit: limit_words(limit) }) : verdict;
}

/** "1.5 (0 to 12)": rounded down, so that what is less than asked never reads as it. */
function frames_with_range(range: Range): string {
  const count = (mean: number): string => number_shown(mean < 10 ? mean : Math.floor(mean), 1);
  const nominal = count(range.nominal);
  const low = count(range.low);
  const high = count(range.high);
  return low === high ? nominal : text("views.figures.with_range", { nominal, low, high });
}

/** "283 px/m (249 to 317), 500 px/m asked for" at the worst place; of a passage at its best moment, and its frames. */
export function delivered_line(judged: JudgedNeed, units: Units): string {
  const asked = shown_density(judged.required_px_per_m, units);
  const worst = judged.worst;
  if (!worst || worst.camera === null) return text("views.verdict.unseen", { asked });
  const delivered = density_with_range(worst.delivered_px_per_m, units);
  if (!worst.frames) return text("views.verdict.delivered", { delivered, asked });
  const frames = { frames: frames_with_range(worst.frames.predicted), wanted: worst.frames.asked };
  return text("views.verdict.passage", { delivered, asked, ...frames });
}

/** "reached in 39 % (0 to 48 %), 95 % asked for" */
export function share_line(judged: JudgedNeed): string {
  const { low, nominal, high } = judged.share_range;
  const shares = {
    share: percent(judged.share),
    low: percent(low),
    high: percent(high),
    asked: percent(judged.required_share),
  };
  return text(low === nominal && high === nominal ? "views.verdict.share" : "views.verdict.share_range", shares);
}

export function tally(answer: CheckAnswer | null, names: readonly string[]): Record<Standing, number> {
  const counts: Record<Standing, number> = { met: 0, marginal: 0, missed: 0, unknown: 0 };
  for (const name of names) ++counts[standing_of(judged_of(answer, name))];
  return counts;
}

export function judged_of(answer: CheckAnswer | null, name: string): JudgedNeed | null {
  return answer?.needs.find((need) => need.name === name) ?? null;
}
