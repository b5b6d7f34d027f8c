// SPDX-License-Identifier: GPL-3.0-or-later
// The quiet tone under the contours: cividis, whose lightness rises evenly and which reads the same for colour-blind eyes
// (Nunez, Anderton, Renslow, "Optimizing colormaps with consideration for color vision deficiency", PLOS ONE 13, 2018).
// Ten of its samples, from memory; between them straight lines.
import { bytes_of } from "../../base/bytes";

const kCividis: readonly (readonly [number, number, number])[] = [
  [0, 34, 78],
  [18, 53, 112],
  [59, 73, 108],
  [87, 93, 109],
  [112, 113, 115],
  [138, 134, 120],
  [165, 156, 116],
  [195, 179, 105],
  [225, 204, 85],
  [254, 232, 56],
];

export function tone_colour(share: number): [number, number, number] {
  const place = Math.min(1, Math.max(0, share)) * (kCividis.length - 1);
  const low = kCividis[Math.floor(place)] ?? [0, 0, 0];
  const high = kCividis[Math.ceil(place)] ?? low;
  const between = place - Math.floor(place);
  return [0, 1, 2].map((i) => Math.round((low[i] ?? 0) + between * ((high[i] ?? 0) - (low[i] ?? 0)))) as [
    number,
    number,
    number,
  ];
}

/** Colours of the 256 bytes: nothing where nothing is seen. */
const kOfByte: readonly (readonly [number, number, number, number])[] = Array.from({ length: 256 }, (_, byte) =>
  byte === 0 ? [0, 0, 0, 0] : [...tone_colour((byte - 1) / 254), 255],
);

/** RGBA of a map's tone. */
export function tone_pixels(bytes: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(bytes.length * 4);
  for (let i = 0; i < bytes.length; ++i) pixels.set(kOfByte[bytes[i] ?? 0] ?? [], i * 4);
  return pixels;
}

/** As a picture that SVG can place; its first row is the map's southern one. */
export function tone_picture(base64: string, columns: number, rows: number): string {
  const canvas = document.createElement("canvas");
  canvas.width = columns;
  canvas.height = rows;
  const pixels = tone_pixels(bytes_of(base64));
  if (pixels.length === columns * rows * 4)
    canvas.getContext("2d")?.putImageData(new ImageData(pixels, columns, rows), 0, 0);
  return canvas.toDataURL();
}
