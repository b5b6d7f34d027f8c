// SPDX-License-Identifier: GPL-3.0-or-later
// Where the program lays the cables, as it was told last. A run that it was not told of, or that joins other things by
// now, is drawn as a straight tie until it is.
import type { SitePoint } from "../base/plane";
import type { CablesAnswer, LaidRun } from "../wire/answers";
import type { ProjectDocument, Run } from "../wire/document";
import { shape_of } from "./shapes";

class Laid {
  private answer = $state.raw<CablesAnswer | null>(null);
  private file = $state("");

  took(answer: CablesAnswer, file: string): void {
    this.answer = answer;
    this.file = file;
  }
  forget(): void {
    this.answer = null;
  }

  /** `file`: of the site that the run is in. */
  run(run: Run, file: string): LaidRun | null {
    const same = (each: LaidRun): boolean => each.run === run.name && each.from === run.from && each.to === run.to;
    return (this.file === file && this.answer?.runs.find(same)) || null;
  }
}

export const laid = new Laid();

/** Corners on the plan, where going up and down is no step. */
export function plan_line(line: LaidRun["line"]): SitePoint[] {
  const points: SitePoint[] = [];
  for (const [x, y] of line) {
    const last = points.at(-1);
    if (last?.[0] !== x || last[1] !== y) points.push([x, y]);
  }
  return points;
}

/** As it is laid, or else straight; null when one of its ends is nowhere. */
export function line_of_run(document: ProjectDocument, run: Run, as_laid: LaidRun | null): readonly SitePoint[] | null {
  return as_laid ? plan_line(as_laid.line) : (shape_of(document, run)?.points ?? null);
}
