// SPDX-License-Identifier: GPL-3.0-or-later
// Where the sheet looks and what is laid on it. Views that put something on the sheet (prints, marks) ask
// `sheet.page_from_site` for its place, in CSS pixels from the sheet's upper left corner; it follows panning and zooming.
import type { Box, SitePoint } from "../base/plane";
import type { PagePoint, SheetWindow } from "../base/window";
import * as window_of from "../base/window";

/** So far from its edges something is in sight. */
const kMargin_px = 40;

class Sheet {
  window = $state.raw<SheetWindow>({ centre: [0, 0], px_per_m: 8, width: 800, height: 600 });
  /** Where the pointer or the keyboard's cursor is, in the site; null when it is not on the sheet. */
  cursor = $state.raw<SitePoint | null>(null);

  /** Pixels on the left that the legend covers: the site is fitted beside it. */
  covered = $state(0);
  /** Pixels at its foot that a walk's prints cover. */
  covered_below = $state(0);
  /** Until the person moves it, the sheet keeps showing the whole site, whatever size it has. */
  moved = $state(false);

  page_from_site(p: SitePoint): PagePoint {
    return window_of.page_from_site(this.window, p);
  }
  site_from_page(p: PagePoint): SitePoint {
    return window_of.site_from_page(this.window, p);
  }
  zoom(factor: number, about?: PagePoint): void {
    this.moved = true;
    const middle = { x: this.window.width / 2, y: this.window.height / 2 };
    this.window = window_of.zoomed(this.window, factor, about ?? middle);
  }
  pan(dx: number, dy: number): void {
    this.moved = true;
    this.window = window_of.panned(this.window, dx, dy);
  }
  fit(box: Box): void {
    const free = { ...this.window, width: this.window.width - this.covered };
    const { centre, px_per_m } = window_of.fitted(free, box, Math.min(44, this.window.width / 12));
    this.window = { ...this.window, centre: [centre[0] - this.covered / 2 / px_per_m, centre[1]], px_per_m };
    this.moved = false;
  }
  resize(width: number, height: number): void {
    this.window = { ...this.window, width, height };
  }
  centre(p: SitePoint): void {
    this.moved = true;
    this.window = { ...this.window, centre: [p[0] - this.covered / 2 / this.window.px_per_m, p[1]] };
  }
  /** Up from what covers the sheet below `free` pixels of it, where there is something of the box under that. */
  clear_below(box: Box, free: number): void {
    const top = this.page_from_site([box.west, box.north]).y;
    const foot = this.page_from_site([box.west, box.south]).y;
    const up = Math.min(foot + kMargin_px - free, Math.max(0, top - kMargin_px));
    if (up > 0) this.pan(0, -up);
  }
  /** Brought into sight when it is not there. */
  show(p: SitePoint): void {
    const { x, y } = this.page_from_site(p);
    const { width, height } = this.window;
    const inside = x > kMargin_px && y > kMargin_px && x < width - kMargin_px && y < height - kMargin_px;
    if (!inside) this.window = { ...this.window, centre: p };
  }
}

export const sheet = new Sheet();
