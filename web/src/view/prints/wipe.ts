// SPDX-License-Identifier: GPL-3.0-or-later
// Two prints of one place, one wiped over the other: the share of the width that the upper one shows.
//   Checked  test/view/wipe.test.ts

export function share_at(x: number, left: number, width: number): number {
  return Math.min(1, Math.max(0, (x - left) / Math.max(1, width)));
}

/** Where a key moves the divider to; null for keys that move nothing. */
export function share_by_key(key: string, share: number): number | null {
  const steps: Record<string, number> = {
    ArrowLeft: -0.02,
    ArrowDown: -0.02,
    ArrowRight: 0.02,
    ArrowUp: 0.02,
    PageDown: -0.2,
    PageUp: 0.2,
    Home: -1,
    End: 1,
  };
  const by = steps[key];
  return by === undefined ? null : Number(Math.min(1, Math.max(0, share + by)).toFixed(4));
}

/** What stays of the upper print, from its left edge to the divider. */
export function clip_of(share: number): string {
  return `inset(0 ${((1 - share) * 100).toFixed(2)}% 0 0)`;
}
