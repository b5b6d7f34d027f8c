// SPDX-License-Identifier: GPL-3.0-or-later
// Pointers on the scene: one turns it, one with Shift or the right button moves over the ground, two pinch and move.
import { nearer, shifted, turned, type Orbit } from "./orbit";

interface Spot {
  readonly x: number;
  readonly y: number;
}

export class Pointers {
  private readonly down_at = new Map<number, Spot>();

  constructor(
    private readonly orbit: () => Orbit | null,
    private readonly take: (orbit: Orbit) => void,
  ) {}

  down(event: PointerEvent): void {
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    this.down_at.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  up(event: PointerEvent): void {
    this.down_at.delete(event.pointerId);
  }

  move(event: PointerEvent, height_px: number): void {
    const before = this.down_at.get(event.pointerId);
    const orbit = this.orbit();
    if (!before || !orbit) return;
    const now = { x: event.clientX, y: event.clientY };
    const other = [...this.down_at].find(([id]) => id !== event.pointerId)?.[1];
    const [dx, dy] = [now.x - before.x, now.y - before.y];
    this.down_at.set(event.pointerId, now);
    if (other) {
      const closer =
        Math.hypot(before.x - other.x, before.y - other.y) / Math.max(1, Math.hypot(now.x - other.x, now.y - other.y));
      this.take(nearer(shifted(orbit, dx / 2, dy / 2, height_px), closer));
    } else if (event.shiftKey || (event.buttons & 2) !== 0) {
      this.take(shifted(orbit, dx, dy, height_px));
    } else {
      this.take(turned(orbit, dx * 0.35, dy * 0.3));
    }
  }
}
