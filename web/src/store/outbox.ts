// SPDX-License-Identifier: GPL-3.0-or-later
// Edits that the server has not taken yet, kept by the browser under the document's name: a lost link or a closed page
// loses none of them.
import type { Change } from "../wire/answers";

export interface PendingEdit {
  readonly id: string;
  readonly words: string;
  readonly changes: readonly Change[];
  /** Before it is sent, the program is asked of the way for cables that it draws (drawn_way.ts). */
  readonly draws_way?: true;
}

const key_of = (file: string): string => `sightfall edits ${file}`;

export const kept_edits = {
  of(file: string): readonly PendingEdit[] {
    try {
      return JSON.parse(globalThis.localStorage?.getItem(key_of(file)) ?? "[]") as PendingEdit[];
    } catch {
      return [];
    }
  },
  keep(file: string, edits: readonly PendingEdit[]): void {
    try {
      if (edits.length === 0) globalThis.localStorage?.removeItem(key_of(file));
      else globalThis.localStorage?.setItem(key_of(file), JSON.stringify(edits));
    } catch {
      // A browser that keeps nothing for this page: the edits still wait in memory.
    }
  },
};
