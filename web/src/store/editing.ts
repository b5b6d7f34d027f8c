// SPDX-License-Identifier: GPL-3.0-or-later
// Changes that moving, turning, copying and taking away come to. Each keeps the document whole: a camera moves with its
// mount, a mount takes its cameras along, a place the needs that ask for it.
import type { SitePoint } from "../base/plane";
import type { Change } from "../wire/answers";
import type { Camera, ListName, ListTypes, ProjectDocument } from "../wire/document";
import type { Ref } from "./changes";
import { altered, free_name, member, members, path_of, same_ref, taken_out } from "./changes";
import type { Drawn } from "./shapes";
import { drawn, moved_by } from "./shapes";

/** The objects that a move of `refs` moves: mounts in place of their cameras, each once. */
export function movable(document: ProjectDocument, refs: readonly Ref[]): Ref[] {
  const found: Ref[] = [];
  for (const ref of refs) {
    const camera = ref.list === "cameras" ? member(document, { list: "cameras", name: ref.name }) : null;
    const moved: Ref = camera ? { list: "site/mounts", name: camera.mount } : ref;
    if (drawn(document, moved) && !found.some((each) => same_ref(each, moved))) found.push(moved);
  }
  return found;
}

export function change_of(document: ProjectDocument, ref: Ref, alter: (object: Drawn) => Drawn): Change[] {
  const was = drawn(document, ref);
  if (!was) return [];
  const now = alter(was);
  return JSON.stringify(was) === JSON.stringify(now) ? [] : [altered(ref.list, was as never, now as never)];
}

export function moves(document: ProjectDocument, refs: readonly Ref[], by: SitePoint): Change[] {
  return movable(document, refs).flatMap((ref) => change_of(document, ref, (object) => moved_by(object, by)));
}

export function removals(document: ProjectDocument, refs: readonly Ref[]): Change[] {
  const gone: Ref[] = [...refs];
  const take_along = <L extends ListName>(list: L, leads: (object: ListTypes[L]) => Ref): void => {
    for (const object of members(document, list)) {
      const ref: Ref = { list, name: object.name };
      if (gone.some((each) => same_ref(each, leads(object))) && !gone.some((each) => same_ref(each, ref)))
        gone.push(ref);
    }
  };
  take_along("cameras", (camera) => ({ list: "site/mounts", name: camera.mount }));
  take_along("needs", (need) => ({ list: "site/places", name: need.place }));
  const removed = gone.flatMap((ref) => {
    const was = member(document, ref);
    return was ? [taken_out(ref.list, was as never)] : [];
  });
  return [...lamps_unlisted(document, gone), ...removed.reverse()];
}

function lamps_unlisted(document: ProjectDocument, gone: readonly Ref[]): Change[] {
  const lamps = new Set(gone.filter((ref) => ref.list === "site/lamps").map((ref) => ref.name));
  return members(document, "conditions").flatMap((was) => {
    const kept = was.lamps?.filter((name) => !lamps.has(name));
    return kept && kept.length !== was.lamps?.length ? [altered("conditions", was, { ...was, lamps: kept })] : [];
  });
}

/** Objects out of one document, to be put into this or another. */
export interface Copied {
  readonly list: ListName;
  readonly object: Drawn;
}

export function copied(document: ProjectDocument, refs: readonly Ref[]): Copied[] {
  const with_mounts = [...movable(document, refs).filter((ref) => ref.list === "site/mounts"), ...refs];
  const once = with_mounts.filter((ref, i) => with_mounts.findIndex((each) => same_ref(each, ref)) === i);
  return once.flatMap((ref) => {
    const object = drawn(document, ref);
    return object ? [{ list: ref.list, object }] : [];
  });
}

/** New objects like the copied ones, `by` away from them, under free names; cameras at the new mounts. */
export function pasted(
  document: ProjectDocument,
  copies: readonly Copied[],
  by: SitePoint,
): { changes: Change[]; refs: Ref[] } {
  const mounts = new Map<string, string>();
  const taken: Record<string, string[]> = {};
  const changes: Change[] = [];
  const refs: Ref[] = [];
  for (const { list, object } of copies) {
    const names = (taken[list] ??= []);
    const name = free_name(document, list, object.name, names);
    names.push(name);
    if (list === "site/mounts") mounts.set(object.name, name);
    const placed = moved_by(object, by);
    const now =
      "sheet" in placed ? { ...placed, name, mount: mounts.get(placed.mount) ?? placed.mount } : { ...placed, name };
    changes.push({ at: path_of({ list, name }), was: null, now });
    if (list !== "site/mounts" || !copies.some((each) => (each.object as Camera).mount === object.name))
      refs.push({ list, name });
  }
  return { changes, refs };
}
