// SPDX-License-Identifier: GPL-3.0-or-later
// Round marks along a straight axis that begins at 0.
//   Checked  test/view/axes.test.ts

/** At most about `most` of them, in steps of 1, 2 or 5 times a power of ten. */
export function ticks_along(length: number, most: number): number[] {
  const rough = length / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((leading) => leading * power).find((one) => one >= rough) ?? 10 * power;
  return Array.from({ length: Math.floor(length / step + 1e-9) + 1 }, (_, i) => Number((i * step).toPrecision(8)));
}
