// SPDX-License-Identifier: GPL-3.0-or-later
// The room that words and symbols take on the sheet, so that none lies over another.

/** About its middle, in pixels of the page. */
export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly half_wide: number;
  readonly half_high: number;
}

/** Of the sheet's lettering, on the average. */
export const kLetter_px = 6.2;
export const kLine_px = 13;

export function are_over(a: Frame, b: Frame): boolean {
  return Math.abs(a.x - b.x) < a.half_wide + b.half_wide && Math.abs(a.y - b.y) < a.half_high + b.half_high;
}

/** Of words about a point, turned about it. */
export function frame_of_words(words: string, x: number, y: number, turn_deg = 0): Frame {
  const [wide, high] = [(words.length * kLetter_px) / 2, kLine_px / 2];
  const turn = (turn_deg * Math.PI) / 180;
  const [along, across] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  return { x, y, half_wide: along * wide + across * high, half_high: across * wide + along * high };
}
