// SPDX-License-Identifier: GPL-3.0-or-later
// Changes that moving, turning, copying and taking away come to. Each keeps the document whole: a camera moves with its
// mount, a mount takes its cameras along, a place the needs that ask for it.
import type { SitePoint } from "../base/plane";
import type { Change } from "../wire/answers";
import type { ListName, ListTypes, ProjectDocument } from "../wire/document";
import { feed_named, free_ports, free_run_name } from "./cables";
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
  const is_gone = (ref: Ref): boolean => gone.some((each) => same_ref(each, ref));
  const take_along = <L extends ListName>(list: L, leads: (object: ListTypes[L]) => readonly Ref[]): void => {
    for (const object of members(document, list)) {
      const ref: Ref = { list, name: object.name };
      if (!is_gone(ref) && leads(object).some(is_gone)) gone.push(ref);
    }
  };
  take_along("cameras", (camera) => [{ list: "site/mounts", name: camera.mount }]);
  take_along("needs", (need) => [{ list: "site/places", name: need.place }]);
  take_along("site/runs", (run) => [
    { list: "site/feeds", name: run.from },
    { list: "site/feeds", name: run.to },
    { list: "cameras", name: run.to },
  ]);
  const removed = gone.flatMap((ref) => {
    const was = member(document, ref);
    return was ? [taken_out(ref.list, was as never)] : [];
  });
  const left = [lamps_unlisted, ways_unlisted, batteries_unlisted].flatMap((unlisted) => unlisted(document, is_gone));
  return [...left, ...removed.reverse()];
}

type Gone = (ref: Ref) => boolean;

function lamps_unlisted(document: ProjectDocument, is_gone: Gone): Change[] {
  return members(document, "conditions").flatMap((was) => {
    const kept = was.lamps?.filter((name) => !is_gone({ list: "site/lamps", name }));
    return kept && kept.length !== was.lamps?.length ? [altered("conditions", was, { ...was, lamps: kept })] : [];
  });
}

/** A run that was led along a way that goes takes the shortest again: what is left of its ways may not hang together. */
function ways_unlisted(document: ProjectDocument, is_gone: Gone): Change[] {
  return members(document, "site/runs").flatMap((was) => {
    const { along, ...now } = was;
    if (is_gone({ list: "site/runs", name: was.name }) || !run_is_left(was, is_gone)) return [];
    return along?.some((name) => is_gone({ list: "site/ways", name })) ? [altered("site/runs", was, now)] : [];
  });
}
function run_is_left(run: ListTypes["site/runs"], is_gone: Gone): boolean {
  const ends: Ref[] = [run.from, run.to].map((name) => ({ list: "site/feeds", name }));
  return ![...ends, { list: "cameras" as const, name: run.to }].some(is_gone);
}

function batteries_unlisted(document: ProjectDocument, is_gone: Gone): Change[] {
  return members(document, "site/feeds").flatMap((was) => {
    const { battery, ...now } = was;
    const stays = !is_gone({ list: "site/feeds", name: was.name });
    const lost = battery !== undefined && is_gone({ list: "site/feeds", name: battery });
    return stays && lost ? [altered("site/feeds", was, now as ListTypes["site/feeds"])] : [];
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
    const object = ref.list === "site/boundary" ? null : drawn(document, ref); // there is one at most
    return object ? [{ list: ref.list, object }] : [];
  });
}

/**
 * New objects like the copied ones, `by` away from them, under free names; cameras at the new mounts, runs between the new
 * ends. A run whose end was not copied with it is left out: no two lead to one thing.
 */
export function pasted(
  document: ProjectDocument,
  copies: readonly Copied[],
  by: SitePoint,
): { changes: Change[]; refs: Ref[] } {
  const names = new_names(document, copies);
  const renamed: Renamed = (list, name) => names.get(`${list}/${name}`);
  const port_of = ports_in_turn(document);
  const changes: Change[] = [];
  const refs: Ref[] = [];
  for (const { list, object } of copies) {
    const now = joined_anew(
      { ...moved_by(object, by), name: renamed(list, object.name) ?? "" },
      {
        renamed,
        port_of,
      },
    );
    if (!now) continue;
    changes.push({ at: path_of({ list, name: now.name }), was: null, now });
    const hung = copies.some((each) => "mount" in each.object && each.object.mount === object.name);
    if (list !== "site/mounts" || !hung) refs.push({ list, name: now.name });
  }
  return { changes, refs };
}

function new_names(document: ProjectDocument, copies: readonly Copied[]): Map<string, string> {
  const names = new Map<string, string>();
  const taken: Record<string, string[]> = {};
  for (const { list, object } of copies) {
    const own = (taken[list] ??= []);
    const name =
      list === "site/runs" ? free_run_name(document, object.name, own) : free_name(document, list, object.name, own);
    own.push(name);
    names.set(`${list}/${object.name}`, name);
  }
  return names;
}

type Renamed = (list: ListName, name: string) => string | undefined;
type PortOf = (feed: string) => number | undefined;

/** Each time it is asked, the next free port of the feed. */
function ports_in_turn(document: ProjectDocument): PortOf {
  const free = new Map<string, number[]>();
  return (name) => {
    const feed = feed_named(document, name);
    const ports = free.get(name) ?? (feed ? free_ports(document, feed) : []);
    free.set(name, ports);
    return ports.shift();
  };
}

function joined_anew(object: Drawn, { renamed, port_of }: { renamed: Renamed; port_of: PortOf }): Drawn | null {
  if ("sheet" in object) return { ...object, mount: renamed("site/mounts", object.mount) ?? object.mount };
  if ("battery" in object && object.battery !== undefined)
    return { ...object, battery: renamed("site/feeds", object.battery) ?? object.battery };
  if (!("cable" in object)) return object;
  const to = renamed("cameras", object.to) ?? renamed("site/feeds", object.to);
  const from = renamed("site/feeds", object.from);
  if (to === undefined) return null;
  const { port, along, ...rest } = object;
  const ways = along?.map((name) => renamed("site/ways", name) ?? name);
  const open = from !== undefined ? port : port_of(object.from);
  return {
    ...rest,
    from: from ?? object.from,
    to,
    ...(open !== undefined && { port: open }),
    ...(ways && { along: ways }),
  };
}
