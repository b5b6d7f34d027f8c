// SPDX-License-Identifier: GPL-3.0-or-later
// A way for cables as it is drawn. What it must say of a building that it leads into is the program's to tell: until it
// has, the way says that it leads through one, which is taken wherever it lies. The answer is part of the one edit.
//   Checked  test/store/drawn_way.test.ts
import type { SitePoint } from "../base/plane";
import { text } from "../base/text.svelte";
import type { Change, WayAnswer } from "../wire/answers";
import type { CableWay } from "../wire/document";
import type { PendingEdit } from "./outbox";

type Line = Pick<CableWay, "line">;

export function untold_way(line: readonly SitePoint[]): Omit<CableWay, "name"> {
  return { kind: "wall", line, through_buildings: true };
}

const is_way = (change: Change): boolean => change.at[1] === "ways" && change.was === null;

/** The line of the way that an edit draws. */
export function drawn_line(edit: PendingEdit): readonly SitePoint[] {
  return (edit.changes.find(is_way)?.now as Line | undefined)?.line ?? [];
}

/** The edits with the way as it was told, also in those that were made of it meanwhile. */
export function with_told_way(pending: readonly PendingEdit[], id: string, told: WayAnswer): PendingEdit[] {
  const way = pending.find((edit) => edit.id === id)?.changes.find(is_way);
  const at = way?.at.join("/");
  return pending.map(({ draws_way, ...edit }) => ({
    ...edit,
    ...(draws_way && edit.id !== id && { draws_way }),
    changes: edit.changes.map((change) =>
      change.at.join("/") === at ? { ...change, was: said(change.was, told), now: said(change.now, told) } : change,
    ),
  }));
}

function said(object: unknown, told: WayAnswer): unknown {
  const way = object as CableWay | null;
  if (!way?.through_buildings) return way;
  const { through_buildings: _, ...rest } = way;
  return {
    ...rest,
    ...(told.indoors && { indoors: true }),
    ...(told.through_buildings && { through_buildings: true }),
  };
}

/** What is told of it; null where it keeps clear of all buildings. */
export function way_in_words(told: WayAnswer): string | null {
  if (told.building === null) return null;
  return text(`sheet.way_${told.indoors ? "indoors" : "through"}`, { what: told.building });
}
