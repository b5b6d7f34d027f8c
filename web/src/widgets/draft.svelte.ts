// SPDX-License-Identifier: GPL-3.0-or-later
// What is filled in and not in the document yet: half of what is needed, or what the program refused. It gives way when
// the document is changed there by someone else, and goes once it has been taken.
//   Checked  test/widgets/draft.test.ts
import type { Telling } from "../base/text.svelte";
import type { Values } from "./fields";

/** Null once it is in the document, else why not. */
export type Save = (now: Values) => Promise<Telling | null>;

export class Draft {
  values = $state.raw<Values | null>(null);
  /** Why it was refused, in the program's words. */
  refused = $state.raw<Telling | null>(null);
  /** What stood in the document when it was begun. */
  private base = "";

  forget(): void {
    this.values = null;
    this.refused = null;
  }

  /** What stands in the document now: an edit on its way, the same again when it was refused, or another's. */
  seen(object: Values): void {
    const there = JSON.stringify(object);
    if (this.values && there !== this.base && there !== JSON.stringify(this.values)) this.forget();
  }

  async put(object: Values, now: Values, whole: boolean, save: Save): Promise<void> {
    if (!this.values) this.base = JSON.stringify(object);
    this.values = now;
    this.refused = null;
    if (!whole) return;
    const why = await save(now);
    if (this.values !== now) return;
    if (why === null) this.forget();
    else this.refused = why;
  }
}
