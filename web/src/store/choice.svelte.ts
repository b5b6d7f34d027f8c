// SPDX-License-Identifier: GPL-3.0-or-later
// What is chosen: objects on the sheet, a need, the condition that everything is shown in.
//
//   choice.refs       the objects selected, in the order they were taken
//   choice.need       name of the need whose verdict is shown on the sheet, or null for the general map
//   choice.condition  name of a condition of the document, or one made up (an hour on the day band)
import type { ConditionAsked } from "../wire/answers";
import type { Camera, ListTypes, Mount } from "../wire/document";
import type { ListName } from "../wire/document";
import type { Ref } from "./changes";
import { member, members, same_ref } from "./changes";
import { site } from "./site.svelte";

class Choice {
  private wanted = $state.raw<readonly Ref[]>([]);
  private wanted_need = $state<string | null>(null);
  private wanted_condition = $state.raw<ConditionAsked | null>(null);

  /** Those that still exist. */
  readonly refs = $derived.by(() => {
    const document = site.document;
    return document ? this.wanted.filter((ref) => member(document, ref)) : [];
  });
  readonly only = $derived(this.refs.length === 1 ? (this.refs[0] ?? null) : null);
  readonly need = $derived.by(() => {
    const document = site.document;
    const name = this.wanted_need;
    return document && name && member(document, { list: "needs", name }) ? name : null;
  });
  readonly condition = $derived.by((): ConditionAsked | null => {
    const conditions = site.document?.conditions ?? [];
    const wanted = this.wanted_condition;
    if (wanted !== null && typeof wanted !== "string") return wanted;
    return conditions.find((each) => each.name === wanted)?.name ?? conditions[0]?.name ?? null;
  });
  /** The camera selected, or the one at the mount selected, as it is shown. */
  readonly camera = $derived.by((): Camera | null => {
    const document = site.shown;
    const ref = this.only;
    if (!document || !ref) return null;
    if (ref.list === "cameras") return member(document, { list: "cameras", name: ref.name });
    const at_mount = (camera: Camera): boolean => camera.mount === ref.name;
    return ref.list === "site/mounts" ? (members(document, "cameras").find(at_mount) ?? null) : null;
  });

  is(ref: Ref): boolean {
    return this.refs.some((each) => same_ref(each, ref));
  }
  take(...refs: readonly Ref[]): void {
    this.wanted = refs;
  }
  add_or_leave(ref: Ref): void {
    this.wanted = this.is(ref) ? this.refs.filter((each) => !same_ref(each, ref)) : [...this.refs, ref];
  }
  take_need(name: string | null): void {
    this.wanted_need = name;
  }
  take_condition(condition: ConditionAsked): void {
    this.wanted_condition = condition;
  }
  nothing(): void {
    this.wanted = [];
  }
}

export const choice = new Choice();

/** The object selected when it is one of `list`, as it is shown. */
export function chosen<L extends ListName>(list: L): ListTypes[L] | null {
  const ref = choice.only;
  const document = site.shown;
  return ref && document && ref.list === list ? member(document, { list, name: ref.name }) : null;
}

export function mount_of(camera: Camera): Mount | null {
  const document = site.shown;
  return document ? member(document, { list: "site/mounts", name: camera.mount }) : null;
}
