// SPDX-License-Identifier: GPL-3.0-or-later
// A map that only looks like one: 1000 over the distance to the nearest camera. For drawing the page without the program.

export function toy_map(document, question) {
  const changed = new Map((question.changes ?? []).filter((c) => c.now).map((c) => [c.at.join("/"), c.now]));
  const mounts = (document.site.mounts ?? []).map((m) => changed.get(`site/mounts/${m.name}`) ?? m);
  const used = new Set((document.cameras ?? []).map((c) => c.mount));
  const eyes = mounts.filter((m) => used.has(m.name)).map((m) => m.at);
  const [columns, rows, step_m] = [80, 60, 1.5];
  const tone = Buffer.alloc(columns * rows);
  const value = (x, y) => Math.min(1000, ...eyes.map(([ex, ey]) => 1000 / Math.max(1, Math.hypot(x - ex, y - ey))));
  for (let r = 0; r < rows && eyes.length; ++r)
    for (let c = 0; c < columns; ++c)
      tone[r * columns + c] = 1 + (254 * Math.log(value(-10 + c * step_m, -10 + r * step_m) / 8)) / Math.log(125);
  const ring = ([x, y], radius) =>
    Array.from({ length: 49 }, (_, i) => [
      x + radius * Math.cos((i * Math.PI) / 24),
      y + radius * Math.sin((i * Math.PI) / 24),
    ]);
  const contours = [25, 62.5, 125, 250].map((density_px_per_m) => ({
    density_px_per_m,
    required: density_px_per_m === 125,
    lines: eyes.map((eye) => ring(eye, 1000 / density_px_per_m)),
  }));
  return {
    condition: "mock",
    south_west: [-10, -10],
    step_m,
    columns,
    rows,
    contours,
    seen: eyes.map((e) => ring(e, 60)),
    missed: [
      [
        [60, 5],
        [90, 5],
        [90, 19],
        [60, 19],
      ],
    ],
    tone: tone.toString("base64"),
    tone_px_per_m: [8, 1000],
  };
}
