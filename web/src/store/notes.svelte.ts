// SPDX-License-Identifier: GPL-3.0-or-later
// What the page has to say: told in words, read out by a screen reader, gone after a while or when put away.
import { plain, text, type Telling } from "../base/text.svelte";
import { WireError, in_words } from "../wire/ask";

export interface Note {
  readonly id: number;
  readonly words: Telling;
  readonly grave: boolean;
}

const kShown_ms = 6000;

class Notes {
  all = $state.raw<readonly Note[]>([]);
  private last = 0;

  tell(words: Telling): void {
    const id = this.add(words, false);
    setTimeout(() => this.put_away(id), kShown_ms);
  }
  /** Said as long as something is under way. */
  async during<Result>(words: string, work: Promise<Result>): Promise<Result> {
    const id = this.add(words, false);
    try {
      return await work;
    } finally {
      this.put_away(id);
    }
  }
  /** An error stays until it is put away. */
  failed(failure: unknown): void {
    this.add(failure_in_words(failure), true);
  }
  put_away(id: number): void {
    this.all = this.all.filter((note) => note.id !== id);
  }
  private add(words: Telling, grave: boolean): number {
    const id = ++this.last;
    this.all = [...this.all.filter((note) => plain(note.words) !== plain(words)), { id, words, grave }];
    return id;
  }
}

export function failure_in_words(failure: unknown): Telling {
  if (failure instanceof WireError) {
    if (failure.status === 0) return text("errors.no_answer");
    return failure.errors.length > 0 ? in_words(failure.errors) : text("errors.status", { status: failure.status });
  }
  return text("errors.page", { what: String(failure) });
}

export const notes = new Notes();
