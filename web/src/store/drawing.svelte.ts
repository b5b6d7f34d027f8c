// SPDX-License-Identifier: GPL-3.0-or-later
// What is being drawn: the tool in hand, the points put so far, a length that is being typed.
import type { SitePoint } from "../base/plane";
import { along_heading, distance, heading_deg } from "../base/plane";
import { read_number } from "../base/numbers";
import { read_length } from "../base/units";
import type { Units } from "../base/units";
import type { Corner } from "./corners";

class Drawing {
  /** Name of a tool of actions/tools.ts; null when things are selected and moved. */
  tool = $state<string | null>(null);
  points = $state.raw<readonly SitePoint[]>([]);
  typed = $state("");
  /** The corner of the selected object that the keys move. */
  corner = $state.raw<Corner | null>(null);

  take(tool: string | null): void {
    this.tool = tool;
    this.begin_anew();
    this.corner = null;
  }
  begin_anew(): void {
    this.points = [];
    this.typed = "";
  }
  put(p: SitePoint): void {
    this.points = [...this.points, p];
    this.typed = "";
  }
  back(): void {
    if (this.typed) this.typed = this.typed.slice(0, -1);
    else this.points = this.points.slice(0, -1);
  }
}

export const drawing = new Drawing();

/** The point that `12`, `12 ft` or `12 < 90` (length, then heading) leads to; without a heading, towards `cursor`. */
export function typed_point(typed: string, from: SitePoint, cursor: SitePoint | null, units: Units): SitePoint | null {
  const [length_words = "", heading_words] = typed.split("<");
  const length = read_length(length_words, units);
  if (length === null || length <= 0) return null;
  if (heading_words !== undefined) {
    const heading = read_number(heading_words);
    return heading === null ? null : along_heading(from, heading, length);
  }
  if (!cursor || distance(from, cursor) < 1e-9) return null;
  return along_heading(from, heading_deg(from, cursor), length);
}
