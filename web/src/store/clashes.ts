// SPDX-License-Identifier: GPL-3.0-or-later
// What a map brings where something stands already: the same name, another ground, another place on the earth. A person
// chooses for each, and what comes of it is one edit.
//   Checked  test/store/clashes.test.ts
import type { Change } from "../wire/answers";
import type { ListName, Named, ProjectDocument } from "../wire/document";
import { members, ref_of, value_at } from "./changes";

export type Chosen = "both" | "imported" | "mine";
export type ClashKind = "name" | "ground" | "place";
export interface Clash {
  readonly key: string;
  readonly kind: ClashKind;
  readonly name: string;
  readonly mine: unknown;
  readonly imported: unknown;
}

/** What can be chosen; the first loses nothing. Of ground and place a site has one. */
export const kOffered: Readonly<Record<ClashKind, readonly Chosen[]>> = {
  name: ["both", "imported", "mine"],
  ground: ["mine", "imported"],
  place: ["mine", "imported"],
};

/** The key of the clash over where on the earth the site lies. */
export const kPlaceOfSite = "site/anchor";
export const key_of_change = (change: Change): string => change.at.join("/");

function kind_of(change: Change): ClashKind {
  if (ref_of(change.at)) return "name";
  return key_of_change(change) === kPlaceOfSite ? "place" : "ground";
}

/** Members may stand in another order: the program writes them in its own. */
function same(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const [left, right] = [Object.entries(a), new Map(Object.entries(b))];
  return left.length === right.size && left.every(([key, value]) => right.has(key) && same(value, right.get(key)));
}

/** `changes` as told for a site on which nothing stands. */
export function clashes_of(document: ProjectDocument, changes: readonly Change[]): Clash[] {
  const standing = all_standing(document, changes);
  return changes.flatMap((change) => {
    const mine = standing(change);
    if (mine === null || same(mine, change.now)) return [];
    const imported = change.now;
    return [{ key: key_of_change(change), kind: kind_of(change), name: change.at.at(-1) ?? "", mine, imported }];
  });
}

/** One edit, with what stands there now as what was. */
export function settled(
  document: ProjectDocument,
  changes: readonly Change[],
  chosen: (clash_key: string) => Chosen,
): Change[] {
  const standing = all_standing(document, changes);
  const free = free_names(document, changes);
  return changes.flatMap((change): Change[] => {
    const mine = standing(change);
    if (mine === null) return [{ ...change, was: null }];
    const choice = same(mine, change.now) ? "mine" : chosen(key_of_change(change));
    if (choice === "mine") return [];
    if (choice === "imported") return [{ ...change, was: mine }];
    const named = change.now as Named;
    const name = free(change.at, named.name);
    return [{ at: [...change.at.slice(0, -1), name], was: null, now: { ...named, name } }];
  });
}

/** What stands where a change puts something; a map brings thousands, so each list is gone through once. */
function all_standing(document: ProjectDocument, changes: readonly Change[]): (change: Change) => unknown {
  const lists = new Map<ListName, ReadonlyMap<string, Named>>();
  for (const list of lists_of(changes))
    lists.set(list, new Map(members(document, list).map((object) => [object.name, object])));
  return (change) => {
    const ref = ref_of(change.at);
    return ref ? (lists.get(ref.list)?.get(ref.name) ?? null) : value_at(document, change.at);
  };
}

function lists_of(changes: readonly Change[]): Set<ListName> {
  return new Set(changes.flatMap((change) => ref_of(change.at)?.list ?? []));
}

/** `house (2)`, `house (3)`, as the program itself calls what has no name of its own. */
function free_names(
  document: ProjectDocument,
  changes: readonly Change[],
): (at: readonly string[], wanted: string) => string {
  const taken = new Set(changes.map(key_of_change));
  for (const list of lists_of(changes))
    for (const object of members(document, list)) taken.add(`${list}/${object.name}`);
  return (at, wanted) => {
    const list = at.slice(0, -1).join("/");
    for (let number = 2; ; ++number) {
      const name = `${wanted} (${number})`;
      if (taken.has(`${list}/${name}`)) continue;
      taken.add(`${list}/${name}`);
      return name;
    }
  };
}
