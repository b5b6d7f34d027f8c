// SPDX-License-Identifier: GPL-3.0-or-later
// Changes made to a document in the page, by the rules of docs/wire.md ("A change"). Documents are never altered in
// place: what a change doesn't touch is shared with the document before it.
import { text } from "../base/text.svelte";
import type { Change } from "../wire/answers";
import type { Boundary, ListName, ListTypes, Named, ProjectDocument } from "../wire/document";
import { kLists } from "../wire/document";

type Tree = { readonly [key: string]: unknown };

/** An object of one of the lists, by name. */
export interface Ref<L extends ListName = ListName> {
  readonly list: L;
  readonly name: string;
}

export function same_ref(a: Ref, b: Ref): boolean {
  return a.list === b.list && a.name === b.name;
}

export function path_of(ref: Ref): string[] {
  if (ref.list === "site/boundary") return ["site", "boundary"];
  return [...ref.list.split("/"), ref.name];
}

/** The object that `at` leads to, when it is one of a list. */
export function ref_of(at: readonly string[]): Ref | null {
  const list = kLists.find((name) => name === at.slice(0, -1).join("/"));
  const name = at.at(-1);
  return list && name !== undefined ? { list, name } : null;
}

export function members<L extends ListName>(document: ProjectDocument, list: L): readonly ListTypes[L][] {
  if (list === "site/boundary") return boundaries(document) as readonly Named[] as readonly ListTypes[L][];
  return (inner(document, list.split("/")) ?? []) as readonly ListTypes[L][];
}
function boundaries(document: ProjectDocument): Boundary[] {
  const outline = document.site.boundary ?? [];
  return outline.length > 0 ? [{ name: text("tools.boundary.called"), outline }] : [];
}

export function member<L extends ListName>(document: ProjectDocument, ref: Ref<L>): ListTypes[L] | null {
  return members(document, ref.list).find((each) => each.name === ref.name) ?? null;
}

export function value_at(document: ProjectDocument, at: readonly string[]): unknown {
  const ref = ref_of(at);
  return ref ? member(document, ref) : (inner(document, at) ?? null);
}

/** Made as one edit: every `at` speaks of the document before it, so that two names can be swapped. */
export function with_changes(document: ProjectDocument, changes: readonly Change[]): ProjectDocument {
  let after = document;
  const listed = new Map<ListName, Change[]>();
  for (const change of changes) {
    const ref = ref_of(change.at);
    if (ref) listed.set(ref.list, [...(listed.get(ref.list) ?? []), change]);
    else after = replaced(after, change.at, change.now) as ProjectDocument;
  }
  for (const [name, own] of listed) {
    const list = with_members(members(document, name), own);
    after = replaced(after, name.split("/"), list.length === 0 ? null : list) as ProjectDocument;
  }
  return after;
}

interface Entry {
  /** Its name before the edit; null when the edit put it there. */
  readonly before: string | null;
  readonly object: Named;
}

function with_members(list: readonly Named[], changes: readonly Change[]): Named[] {
  let entries: Entry[] = list.map((object) => ({ before: object.name, object }));
  for (const { at, was, now, index } of changes) {
    const object = now as Named | null;
    const place = was === null ? -1 : entries.findIndex((entry) => entry.before === at.at(-1));
    if (place >= 0) {
      const kept = object ? [{ before: null, object }] : [];
      entries = [...entries.slice(0, place), ...kept, ...entries.slice(place + 1)];
    } else if (object) entries = put_into(entries, object, index);
  }
  return entries.map((entry) => entry.object);
}

/** An edit that is made a second time, since its event overtook its answer, finds its object there already. */
function put_into(entries: readonly Entry[], object: Named, index: number | undefined): Entry[] {
  const there = entries.findIndex((entry) => entry.object.name === object.name);
  const place = there >= 0 ? there : (index ?? entries.length);
  return [...entries.slice(0, place), { before: null, object }, ...entries.slice(there >= 0 ? place + 1 : place)];
}

/** Edits one after another as a single one, in which each object stands once. */
export function merged(edits: readonly (readonly Change[])[]): Change[] {
  const all: Change[] = [];
  for (const change of edits.flat()) {
    const earlier = all.findIndex((each) => leads_to(each, change.at));
    const before = all[earlier];
    if (!before) all.push(change);
    else if (before.was === null && change.now === null) all.splice(earlier, 1);
    else all[earlier] = { ...before, now: change.now };
  }
  return all;
}

function leads_to(change: Change, at: readonly string[]): boolean {
  const name = ref_of(change.at) ? (change.now as Named | null)?.name : change.at.at(-1);
  return name === at.at(-1) && change.at.slice(0, -1).join("/") === at.slice(0, -1).join("/");
}

function inner(tree: unknown, path: readonly string[]): unknown {
  return path.reduce<unknown>((at, key) => (at as Tree | undefined)?.[key], tree);
}

function replaced(tree: unknown, path: readonly string[], value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  const own = (tree ?? {}) as Tree;
  const put = replaced(own[key], rest, value);
  const others = Object.fromEntries(Object.entries(own).filter(([name]) => name !== key));
  if (put === null || put === undefined) return others;
  return key in own
    ? Object.fromEntries(Object.entries(own).map(([k, v]) => [k, k === key ? put : v]))
    : { ...own, [key]: put };
}

/** As it stands in the document: of the boundary its corners alone. */
function kept<L extends ListName>(list: L, object: ListTypes[L]): unknown {
  return list === "site/boundary" ? (object as Boundary).outline : object;
}

export function put_in<L extends ListName>(list: L, now: ListTypes[L], index?: number): Change {
  const at = path_of({ list, name: now.name });
  return { at, was: null, now: kept(list, now), ...(index !== undefined && { index }) };
}

export function taken_out<L extends ListName>(list: L, was: ListTypes[L]): Change {
  return { at: path_of({ list, name: was.name }), was: kept(list, was), now: null };
}

export function altered<L extends ListName>(list: L, was: ListTypes[L], now: ListTypes[L]): Change {
  return { at: path_of({ list, name: was.name }), was: kept(list, was), now: kept(list, now) };
}

/** What cables lead to is named by itself, so no camera may be called like a feed. */
const kNamedApart: Partial<Record<ListName, ListName>> = { cameras: "site/feeds", "site/feeds": "cameras" };

/** A name like `wanted` that the list does not have yet: `wall`, `wall 2`, `wall 3`. */
export function free_name(
  document: ProjectDocument,
  list: ListName,
  wanted: string,
  taken: readonly string[] = [],
): string {
  const apart = kNamedApart[list];
  const others = apart ? members(document, apart) : [];
  const names = new Set([...[...members(document, list), ...others].map((each) => each.name), ...taken]);
  if (!names.has(wanted)) return wanted;
  const stem = wanted.replace(/ \d+$/, "");
  for (let number = 2; ; ++number) {
    const name = `${stem} ${number}`;
    if (!names.has(name)) return name;
  }
}
