// SPDX-License-Identifier: GPL-3.0-or-later
// Changes made to a document in the page, by the rules of docs/wire.md ("A change"). Documents are never altered in
// place: what a change doesn't touch is shared with the document before it.
import type { Change } from "../wire/answers";
import type { ListName, ListTypes, Named, ProjectDocument } from "../wire/document";
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
  return [...ref.list.split("/"), ref.name];
}

/** The object that `at` leads to, when it is one of a list. */
export function ref_of(at: readonly string[]): Ref | null {
  const list = kLists.find((name) => name === at.slice(0, -1).join("/"));
  const name = at.at(-1);
  return list && name !== undefined ? { list, name } : null;
}

export function members<L extends ListName>(document: ProjectDocument, list: L): readonly ListTypes[L][] {
  return (inner(document, list.split("/")) ?? []) as readonly ListTypes[L][];
}

export function member<L extends ListName>(document: ProjectDocument, ref: Ref<L>): ListTypes[L] | null {
  return members(document, ref.list).find((each) => each.name === ref.name) ?? null;
}

export function value_at(document: ProjectDocument, at: readonly string[]): unknown {
  const ref = ref_of(at);
  return ref ? member(document, ref) : (inner(document, at) ?? null);
}

export function with_changes(document: ProjectDocument, changes: readonly Change[]): ProjectDocument {
  return changes.reduce(with_change, document);
}

function with_change(document: ProjectDocument, change: Change): ProjectDocument {
  const ref = ref_of(change.at);
  if (!ref) return replaced(document, change.at, change.now) as ProjectDocument;
  const list = listed(members(document, ref.list), ref.name, change);
  return replaced(document, ref.list.split("/"), list.length === 0 ? null : list) as ProjectDocument;
}

function listed(list: readonly Named[], name: string, change: Change): readonly Named[] {
  const now = change.now as Named | null;
  const names = now ? [name, now.name] : [name];
  const place = list.findIndex((each) => names.includes(each.name));
  const others = list.filter((each) => !names.includes(each.name));
  if (!now) return others;
  const index = place >= 0 ? place : (change.index ?? others.length);
  return [...others.slice(0, index), now, ...others.slice(index)];
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
  return key in own ? Object.fromEntries(Object.entries(own).map(([k, v]) => [k, k === key ? put : v])) : { ...own, [key]: put };
}

export function put_in<L extends ListName>(list: L, now: ListTypes[L], index?: number): Change {
  return { at: path_of({ list, name: now.name }), was: null, now, ...(index !== undefined && { index }) };
}

export function taken_out<L extends ListName>(list: L, was: ListTypes[L]): Change {
  return { at: path_of({ list, name: was.name }), was, now: null };
}

export function altered<L extends ListName>(list: L, was: ListTypes[L], now: ListTypes[L]): Change {
  return { at: path_of({ list, name: was.name }), was, now };
}

/** A name like `wanted` that the list does not have yet: `wall`, `wall 2`, `wall 3`. */
export function free_name(document: ProjectDocument, list: ListName, wanted: string, taken: readonly string[] = []): string {
  const names = new Set([...members(document, list).map((each) => each.name), ...taken]);
  if (!names.has(wanted)) return wanted;
  const stem = wanted.replace(/ \d+$/, "");
  for (let number = 2; ; ++number) {
    const name = `${stem} ${number}`;
    if (!names.has(name)) return name;
  }
}
