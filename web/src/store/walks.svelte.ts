// SPDX-License-Identifier: GPL-3.0-or-later
// The walk that lies on the sheet as a strip of prints: one at a time.
import type { ConditionAsked } from "../wire/answers";
import type { Mover } from "../view/asks";

export interface WalkAsked {
  readonly route: string;
  readonly camera: string;
  readonly condition: ConditionAsked;
  readonly mover: Mover;
}

class Walks {
  asked = $state.raw<WalkAsked | null>(null);

  open(asked: WalkAsked): void {
    this.asked = asked;
  }
  change(change: Partial<WalkAsked>): void {
    if (this.asked) this.asked = { ...this.asked, ...change };
  }
  close(): void {
    this.asked = null;
  }
}

export const walks = new Walks();
