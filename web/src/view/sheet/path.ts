// SPDX-License-Identifier: GPL-3.0-or-later
// Paths of SVG from points of the site.
import type { SitePoint } from "../../base/plane";

export function path(points: readonly SitePoint[], closed: boolean): string {
  if (points.length === 0) return "";
  return `M${points.map(([x, y]) => `${x} ${y}`).join("L")}${closed ? "Z" : ""}`;
}

export function rings(all: readonly (readonly SitePoint[])[]): string {
  return all.map((ring) => path(ring, true)).join("");
}
