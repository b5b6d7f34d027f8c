// SPDX-License-Identifier: GPL-3.0-or-later
// Which part of the site the sheet shows: a point of the site in the middle of the page and a scale. Page points are CSS
// pixels from the sheet's upper left corner, y downwards.
import type { Box, SitePoint } from "./plane";
import { centre_of } from "./plane";

export interface PagePoint {
  readonly x: number;
  readonly y: number;
}
export interface SheetWindow {
  readonly centre: SitePoint;
  readonly px_per_m: number;
  readonly width: number;
  readonly height: number;
}

const kFinest = 400;
const kCoarsest = 0.02;

export function page_from_site(window: SheetWindow, p: SitePoint): PagePoint {
  return {
    x: window.width / 2 + (p[0] - window.centre[0]) * window.px_per_m,
    y: window.height / 2 - (p[1] - window.centre[1]) * window.px_per_m,
  };
}

export function site_from_page(window: SheetWindow, p: PagePoint): SitePoint {
  return [
    window.centre[0] + (p.x - window.width / 2) / window.px_per_m,
    window.centre[1] - (p.y - window.height / 2) / window.px_per_m,
  ];
}

/** Zoomed so that the site's point under `about` stays there. */
export function zoomed(window: SheetWindow, factor: number, about: PagePoint): SheetWindow {
  const px_per_m = Math.min(kFinest, Math.max(kCoarsest, window.px_per_m * factor));
  const kept = site_from_page(window, about);
  const centre: SitePoint = [
    kept[0] - (about.x - window.width / 2) / px_per_m,
    kept[1] + (about.y - window.height / 2) / px_per_m,
  ];
  return { ...window, centre, px_per_m };
}

export function panned(window: SheetWindow, dx: number, dy: number): SheetWindow {
  const [x, y] = window.centre;
  return { ...window, centre: [x - dx / window.px_per_m, y + dy / window.px_per_m] };
}

export function fitted(window: SheetWindow, box: Box, margin_px: number): SheetWindow {
  const across = Math.max(1, box.east - box.west);
  const along = Math.max(1, box.north - box.south);
  const px_per_m = Math.min((window.width - 2 * margin_px) / across, (window.height - 2 * margin_px) / along);
  return { ...window, centre: centre_of(box), px_per_m: Math.min(60, Math.max(kCoarsest, px_per_m)) };
}

export function shown_box(window: SheetWindow): Box {
  const across = window.width / window.px_per_m / 2;
  const along = window.height / window.px_per_m / 2;
  const [x, y] = window.centre;
  return { west: x - across, south: y - along, east: x + across, north: y + along };
}

export function grown(box: Box, share: number): Box {
  const across = (box.east - box.west) * share;
  const along = (box.north - box.south) * share;
  return { west: box.west - across, south: box.south - along, east: box.east + across, north: box.north + along };
}

/** The longest of 1, 2, 5 x 10^n that is at most `largest`. */
export function round_below(largest: number): number {
  const power = 10 ** Math.floor(Math.log10(largest));
  const leading = largest / power;
  return (leading >= 5 ? 5 : leading >= 2 ? 2 : 1) * power;
}
