// SPDX-License-Identifier: GPL-3.0-or-later
// Files that came over the wire as base64.
import { bytes_of } from "../../base/bytes";
import { number_shown } from "../../base/numbers";
import type { Paper } from "../../wire/answers";

export const blob_of = (paper: Paper): Blob => new Blob([bytes_of(paper.content)], { type: paper.type });

/** `12 kB`, `1.4 MB`: of the file, three quarters of its base64. */
export function size_in_words(paper: Paper): string {
  const padding = paper.content.endsWith("==") ? 2 : paper.content.endsWith("=") ? 1 : 0;
  const bytes = (paper.content.length * 3) / 4 - padding;
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${number_shown(bytes / 1e6, 1)} MB`;
}
