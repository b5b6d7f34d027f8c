// SPDX-License-Identifier: GPL-3.0-or-later
// Fields in which two states of one object differ, for a person to choose between.
//   Checked  test/view/sheet.test.ts
import { number_shown } from "../base/numbers";

export interface Difference {
  readonly field: string;
  readonly mine: string;
  readonly theirs: string;
}

export function differences(mine: unknown, theirs: unknown, gone: string): Difference[] {
  if (!is_object(mine) || !is_object(theirs)) {
    return [{ field: "", mine: shown(mine, gone), theirs: shown(theirs, gone) }];
  }
  const fields = [...new Set([...Object.keys(mine), ...Object.keys(theirs)])];
  return fields
    .filter((field) => JSON.stringify(mine[field]) !== JSON.stringify(theirs[field]))
    .map((field) => ({ field, mine: shown(mine[field], gone), theirs: shown(theirs[field], gone) }));
}

function is_object(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function shown(value: unknown, gone: string): string {
  if (value === null || value === undefined) return gone;
  if (is_object(value))
    return Object.entries(value)
      .map(([key, each]) => `${key} ${shown(each, gone)}`)
      .join(", ");
  if (Array.isArray(value)) return value.map((each) => shown(each, gone)).join("; ");
  if (typeof value === "number") return number_shown(value);
  return typeof value === "string" ? value : JSON.stringify(value);
}
