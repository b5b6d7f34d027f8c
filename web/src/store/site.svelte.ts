// SPDX-License-Identifier: GPL-3.0-or-later
// The document: what the server holds, with what was edited here and is still on its way laid over it.
//
//   site.document   what is to be drawn and edited (null until a site is open)
//   site.shown      the same with the changes that are being tried, such as a camera under the finger
//   site.edit       words for the history and changes; shown at once, sent in order, kept over a lost link
//   site.try_out    changes that are only shown and asked about; end with `settle` (made an edit) or `drop`
//   site.conflicts  edits that the server refused because another page had changed the same object meanwhile
import type { Telling } from "../base/text.svelte";
import type { Change, Conflict, EditAnswer, ServerEvents, SiteAnswer } from "../wire/answers";
import { WireError, random_word } from "../wire/ask";
import type { ProjectDocument } from "../wire/document";
import * as server from "../wire/server";
import { merged, with_changes } from "./changes";
import { drawn_line, way_in_words, with_told_way } from "./drawn_way";
import { failure_in_words, notes } from "./notes.svelte";
import { kept_edits } from "./outbox";
import type { PendingEdit } from "./outbox";

export interface LostEdit {
  readonly words: string;
  readonly changes: readonly Change[];
  readonly conflicts: readonly Conflict[];
}

const kRetry_ms = 2000;

class SiteStore {
  private base = $state.raw<ProjectDocument | null>(null);
  private pending = $state.raw<readonly PendingEdit[]>([]);
  private sending: Promise<void> | null = null;
  private reading = false;

  revision = $state(0);
  file = $state("");
  undo_words = $state<string | null>(null);
  redo_words = $state<string | null>(null);
  linked = $state(true);
  trial = $state.raw<readonly Change[]>([]);
  conflicts = $state.raw<readonly LostEdit[]>([]);

  readonly document = $derived(
    this.base && this.pending.reduce((document, edit) => with_changes(document, edit.changes), this.base),
  );
  readonly shown = $derived(this.document && with_changes(this.document, this.trial));
  readonly unsaved = $derived(this.pending.length);

  /** What has been done since the server's revision: what it must be told with a question, to answer for `shown`. */
  readonly ahead = $derived(merged([...this.pending.map((edit) => edit.changes), this.trial]));

  took(answer: SiteAnswer): void {
    const another = answer.file !== this.file;
    this.base = answer.document;
    this.revision = answer.revision;
    this.file = answer.file;
    this.undo_words = answer.undo;
    this.redo_words = answer.redo;
    if (another) {
      this.trial = [];
      this.conflicts = [];
      this.pending = kept_edits.of(answer.file);
      if (this.pending.length > 0) void this.send();
    }
  }

  async read_anew(): Promise<void> {
    if (this.reading) return;
    this.reading = true;
    try {
      this.took(await server.site());
    } finally {
      this.reading = false;
    }
  }

  /** True once the server has it; false when it was refused, of which `told` is told instead of everybody. */
  async edit(words: string, changes: readonly Change[], told?: (failure: unknown) => void): Promise<boolean> {
    if (changes.length === 0) return true;
    return this.put({ id: random_word(), words, changes }, told);
  }

  /** The edit that draws a way for cables; the program says what it must say of buildings. */
  draw_way(words: string, changes: readonly Change[]): Promise<boolean> {
    return this.put({ id: random_word(), words, changes, draws_way: true });
  }

  private async put(edit: PendingEdit, told?: (failure: unknown) => void): Promise<boolean> {
    if (told) this.told.set(edit.id, told);
    this.trial = [];
    this.queue([...this.pending, edit]);
    await this.send();
    this.told.delete(edit.id);
    return !this.refused.delete(edit.id);
  }
  private readonly refused = new Set<string>();
  private readonly told = new Map<string, (failure: unknown) => void>();

  /** Null once the server has it; else why it was refused, or nothing where that is told already. */
  async edit_or_why(words: string, changes: readonly Change[]): Promise<Telling | null> {
    let why: Telling = "";
    const taken = await this.edit(words, changes, (failure) => (why = failure_in_words(failure)));
    return taken ? null : why;
  }

  try_out(changes: readonly Change[]): void {
    this.trial = changes;
  }
  drop(): void {
    this.trial = [];
  }
  settle(words: string): Promise<boolean> {
    return this.edit(words, this.trial);
  }

  undo(): Promise<void> {
    return this.step(server.undo);
  }
  redo(): Promise<void> {
    return this.step(server.redo);
  }
  private async step(ask: () => Promise<EditAnswer>): Promise<void> {
    await this.send();
    try {
      this.answered(await ask());
    } catch (failure) {
      notes.failed(failure);
    }
  }

  heard_edit(event: ServerEvents["edit"]): void {
    if (event.revision <= this.revision) return;
    this.answered(event);
  }

  private answered(answer: EditAnswer): void {
    if (answer.revision <= this.revision || !this.base) return;
    if (answer.revision > this.revision + 1) {
      void this.read_anew();
      return;
    }
    this.base = with_changes(this.base, answer.changes);
    this.revision = answer.revision;
    this.undo_words = answer.undo;
    this.redo_words = answer.redo;
  }

  private queue(pending: readonly PendingEdit[]): void {
    this.pending = pending;
    kept_edits.keep(this.file, pending);
  }

  private send(): Promise<void> {
    this.sending ??= this.send_all().finally(() => (this.sending = null));
    return this.sending;
  }

  private async send_all(): Promise<void> {
    for (let edit = this.pending[0]; edit; edit = this.pending[0]) {
      const { id, words, changes } = edit;
      try {
        if (edit.draws_way) {
          await this.ask_of_way(edit);
          continue;
        }
        this.answered(await server.edits(words, changes));
        this.linked = true;
      } catch (failure) {
        if (failure instanceof WireError && failure.status === 0) {
          this.linked = false;
          await new Promise((resolve) => setTimeout(resolve, kRetry_ms));
          continue;
        }
        this.refused.add(id);
        this.refuse(edit, failure);
      }
      this.queue(this.pending.filter((each) => each.id !== id));
    }
  }

  private async ask_of_way(edit: PendingEdit): Promise<void> {
    const told = await server.way(drawn_line(edit));
    this.queue(with_told_way(this.pending, edit.id, told));
    const words = way_in_words(told);
    if (words) notes.tell(words);
  }

  private refuse(edit: PendingEdit, failure: unknown): void {
    if (failure instanceof WireError && failure.conflicts.length > 0) {
      this.conflicts = [...this.conflicts, { words: edit.words, changes: edit.changes, conflicts: failure.conflicts }];
      void this.read_anew();
    } else {
      const told = this.told.get(edit.id);
      if (told) told(failure);
      else notes.failed(failure);
    }
  }

  /** Put what was lost over what is there now, or let it go. */
  async resolve(lost: LostEdit, mine: boolean): Promise<void> {
    this.conflicts = this.conflicts.filter((each) => each !== lost);
    if (!mine) return;
    const found = new Map(lost.conflicts.map((conflict) => [conflict.at.join("/"), conflict.found]));
    await this.edit(
      lost.words,
      lost.changes.map((change) => onto(change, found)),
    );
  }
}

function onto(change: Change, found: ReadonlyMap<string, unknown>): Change {
  const key = change.at.join("/");
  return found.has(key) ? { ...change, was: found.get(key) ?? null } : change;
}

export const site = new SiteStore();
