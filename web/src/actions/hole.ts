// SPDX-License-Identifier: GPL-3.0-or-later
// A hole cut out of an outline: a courtyard in a building, an opening in a roof, a part that does not count in a zone.
//   Checked  test/store/holes.test.ts
import type { SitePoint } from "../base/plane";
import { box_of, is_inside } from "../base/plane";
import { edit_words } from "../base/edit_words";
import { text } from "../base/text.svelte";
import type { Ref } from "../store/changes";
import { altered, members } from "../store/changes";
import { choice } from "../store/choice.svelte";
import type { Holed } from "../store/corners";
import { may_have_holes, with_hole } from "../store/corners";
import { notes } from "../store/notes.svelte";
import { drawn } from "../store/shapes";
import type { ProjectDocument } from "../wire/document";
import type { Made } from "./tools";

interface Target {
  readonly ref: Ref;
  readonly object: Holed;
}

/** What is selected where it can have a hole, else the smallest such thing that the hole begins in. */
export function target_of(document: ProjectDocument, points: readonly SitePoint[], only: Ref | null): Target | null {
  const chosen = only && drawn(document, only);
  if (only && chosen && may_have_holes(chosen)) return { ref: only, object: chosen };
  const first = points[0];
  if (!first) return null;
  const all: Target[] = (["site/solids", "site/places"] as const).flatMap((list) =>
    members(document, list).flatMap((object) =>
      may_have_holes(object) ? [{ ref: { list, name: object.name }, object }] : [],
    ),
  );
  const around = all.filter(({ object }) => is_inside(first, object.outline));
  return around.sort((a, b) => size(a.object) - size(b.object))[0] ?? null;
}

function size({ outline }: Holed): number {
  const box = box_of(outline);
  return box ? (box.east - box.west) * (box.north - box.south) : 0;
}

export function cut_hole(document: ProjectDocument, points: readonly SitePoint[]): Made | null {
  const target = target_of(document, points, choice.only);
  if (!target) {
    notes.tell(text("sheet.no_hole"));
    return null;
  }
  const { ref, object } = target;
  const change = altered(ref.list, object as never, with_hole(object, points) as never);
  return { changes: [change], ref, words: edit_words("hole", { what: `"${object.name}"` }) };
}
