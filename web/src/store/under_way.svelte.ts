// SPDX-License-Identifier: GPL-3.0-or-later
// How far the server is with what was asked of it under a name, by that name.
import type { ServerEvents } from "../wire/answers";
import { random_word } from "../wire/ask";

class UnderWay {
  private shares = $state.raw<ReadonlyMap<string, number>>(new Map());

  begun(): string {
    const job = random_word();
    this.put(job, 0);
    return job;
  }
  heard_progress({ job, share }: ServerEvents["progress"]): void {
    if (this.shares.has(job)) this.put(job, share);
  }
  ended(job: string): void {
    this.shares = new Map([...this.shares].filter(([each]) => each !== job));
  }
  /** 0 until something is heard of it; null when it is not under way. */
  share(job: string | null): number | null {
    return job === null ? null : (this.shares.get(job) ?? null);
  }

  private put(job: string, share: number): void {
    this.shares = new Map([...this.shares, [job, share]]);
  }
}

export const under_way = new UnderWay();
