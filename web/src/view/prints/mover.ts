// SPDX-License-Identifier: GPL-3.0-or-later
// Who stands in a print: the subject of its need.
import type { Mover } from "../asks";

export function mover_of(subject: string): Mover {
  if (subject === "face" || subject === "person") return "walker";
  return subject === "plate" || subject === "vehicle" ? "car" : "target";
}
