// SPDX-License-Identifier: GPL-3.0-or-later
// The map of delivered detail on the sheet. It follows what is shown: while something is being tried it is asked coarse,
// one question at a time and always for the latest; once nothing has changed for a moment, fine.
import type { Telling } from "../base/text.svelte";
import type { Change, ConditionAsked, MapAnswer, MapQuestion } from "../wire/answers";
import * as server from "../wire/server";
import { failure_in_words } from "./notes.svelte";

export interface MapWanted {
  readonly condition: ConditionAsked;
  readonly need: string | null;
  readonly changes: readonly Change[];
  readonly revision: number;
  /** What the sheet shows, and somewhat more. */
  readonly bounds: readonly [number, number, number, number];
}

const kCoarseCells = 4000;
const kFineCells = 60000;
const kRest_ms = 180;

class MapOfDetail {
  answer = $state.raw<MapAnswer | null>(null);
  fine = $state(false);
  failure = $state.raw<Telling | null>(null);
  /** How long the last answer took on its way there and back. */
  took_ms = $state(0);

  private wanted: MapWanted | null = null;
  private asked: MapWanted | null = null;
  private fine_asked: AbortController | null = null;
  private rest: ReturnType<typeof setTimeout> | undefined;

  want(wanted: MapWanted): void {
    this.wanted = wanted;
    this.fine_asked?.abort();
    this.fine_asked = null;
    clearTimeout(this.rest);
    if (!this.asked) void this.ask_coarse();
  }
  forget(): void {
    this.wanted = null;
    this.answer = null;
    this.failure = null;
    clearTimeout(this.rest);
  }

  private async ask_coarse(): Promise<void> {
    while (this.wanted && this.wanted !== this.asked) {
      this.asked = this.wanted;
      await this.put(question(this.asked, kCoarseCells), this.asked);
    }
    this.asked = null;
    this.rest = setTimeout(() => void this.ask_fine(), kRest_ms);
  }

  private async ask_fine(): Promise<void> {
    const wanted = this.wanted;
    if (!wanted) return;
    this.fine_asked = new AbortController();
    await this.put(question(wanted, kFineCells), wanted, this.fine_asked.signal);
  }

  private async put(asked: MapQuestion, wanted: MapWanted, signal?: AbortSignal): Promise<void> {
    const begun = performance.now();
    try {
      const answer = await server.map(asked, signal);
      if (signal?.aborted || !this.wanted) return;
      this.answer = answer;
      this.fine = asked.cells === kFineCells && wanted === this.wanted;
      this.failure = null;
      this.took_ms = performance.now() - begun;
    } catch (failure) {
      if (!signal?.aborted && wanted === this.wanted) this.failure = failure_in_words(failure);
    }
  }
}

function question(wanted: MapWanted, cells: number): MapQuestion {
  const { condition, need, changes, bounds } = wanted;
  return { condition, cells, bounds, ...(need && { need }), ...(changes.length > 0 && { changes }) };
}

export const map = new MapOfDetail();
