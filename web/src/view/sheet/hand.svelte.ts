// SPDX-License-Identifier: GPL-3.0-or-later
// The hand on the sheet: what pointers do. One pointer selects, moves, draws or pans; two pan and zoom. What is under the
// hand is tried out while it moves and made an edit when it lifts.
import { names_in_words } from "../../actions/change";
import { put_point, put_rectangle } from "../../actions/draw";
import { tool_named } from "../../actions/tools";
import type { SitePoint } from "../../base/plane";
import { between } from "../../base/plane";
import { edit_words } from "../../base/edit_words";
import type { PagePoint } from "../../base/window";
import { runs_of } from "../../store/cables";
import { choice } from "../../store/choice.svelte";
import type { Ref } from "../../store/changes";
import { drawing } from "../../store/drawing.svelte";
import { moves, movable } from "../../store/editing";
import { laid, line_of_run } from "../../store/laid.svelte";
import { picked, picked_within } from "../../store/pick";
import { plan_scaling } from "../../store/plan_scaling.svelte";
import { sheet } from "../../store/sheet.svelte";
import { site } from "../../store/site.svelte";
import { shape_of, drawn } from "../../store/shapes";
import type { Snapped } from "../../store/snap";
import { snapped, snapping_of, stood_off } from "../../store/snap";
import type { ProjectDocument } from "../../wire/document";
import type { Handle } from "./handles";
import { pulled } from "./handles";

const kReach_px = 10;
const kStill_px = 5;

type Doing =
  | { readonly what: "pan"; readonly last: PagePoint }
  | { readonly what: "frame"; readonly from: SitePoint }
  | {
      readonly what: "move";
      readonly from: SitePoint;
      readonly refs: readonly Ref[];
      readonly grip: SitePoint;
      readonly next: Ref | null;
    }
  | { readonly what: "handle"; readonly handle: Handle }
  | { readonly what: "draw"; readonly from: SitePoint }
  | { readonly what: "pinch"; readonly apart: number; readonly middle: PagePoint };

/** The cables that are drawn with what is selected, by name. */
function lines_drawn(document: ProjectDocument): Map<string, readonly SitePoint[]> {
  const runs = runs_of(document, choice.refs);
  return new Map(runs.map((run) => [run.name, line_of_run(document, run, laid.run(run, site.file)) ?? []]));
}

class Hand {
  snap = $state.raw<Snapped | null>(null);
  frame = $state.raw<readonly [SitePoint, SitePoint] | null>(null);
  rectangle = $state.raw<readonly [SitePoint, SitePoint] | null>(null);
  space = $state(false);
  doing = $state.raw<Doing | null>(null);

  private pressed_at: PagePoint | null = null;
  private moved = false;
  private readonly fingers = new Map<number, PagePoint>();

  private get reach_m(): number {
    return kReach_px / sheet.window.px_per_m;
  }

  private point(page: PagePoint, free: boolean, without?: ReadonlySet<string>): SitePoint {
    const hand = sheet.site_from_page(page);
    const document = site.document;
    if (free || !document || plan_scaling.on) {
      this.snap = null;
      return hand;
    }
    const snap = snapped(hand, snapping_of(document, without), this.reach_m, drawing.points);
    this.snap = snap;
    const on_wall = tool_named(drawing.tool)?.on_wall && drawing.points.length === 0;
    return on_wall && snap.kind === "edge" ? stood_off(snap, hand) : snap.at;
  }

  down(event: PointerEvent, page: PagePoint, handle: Handle | null): void {
    this.fingers.set(event.pointerId, page);
    if (this.fingers.size === 2) return this.begin_pinch();
    this.pressed_at = page;
    this.moved = false;
    if (this.space || event.button === 1) this.doing = { what: "pan", last: page };
    else if (event.button !== 0) this.doing = null;
    else if (plan_scaling.on || drawing.tool) this.doing = { what: "draw", from: this.point(page, event.altKey) };
    else if (handle) this.doing = { what: "handle", handle };
    else this.press_object(page, event.shiftKey || event.ctrlKey || event.metaKey);
  }

  private press_object(page: PagePoint, more: boolean): void {
    const document = site.document;
    if (!document) return;
    const from = sheet.site_from_page(page);
    const under = picked(document, from, this.reach_m, lines_drawn(document));
    const held = under.find((ref) => choice.is(ref));
    const ref = held ?? under[0];
    if (!ref) {
      this.doing = more ? { what: "frame", from } : { what: "pan", last: page };
      return;
    }
    if (more) choice.add_or_leave(ref);
    else if (!held) choice.take(ref);
    drawing.corner = null;
    const object = drawn(document, movable(document, [ref])[0] ?? ref);
    const grip = (object && shape_of(document, object)?.points[0]) ?? from;
    const next = held && !more ? (under[(under.indexOf(held) + 1) % under.length] ?? null) : null;
    this.doing = { what: "move", from, refs: choice.refs, grip, next };
  }

  move(event: PointerEvent, page: PagePoint): void {
    if (this.fingers.has(event.pointerId)) this.fingers.set(event.pointerId, page);
    if (this.pressed_at && Math.hypot(page.x - this.pressed_at.x, page.y - this.pressed_at.y) > kStill_px)
      this.moved = true;
    const doing = this.doing;
    if (doing?.what === "pinch") return this.pinch(doing);
    if (doing?.what === "pan") return this.pan(doing, page);
    sheet.cursor = doing ? this.drag(doing, page, event.altKey) : this.hover(page, event.altKey);
  }

  private hover(page: PagePoint, free: boolean): SitePoint {
    if (drawing.tool) return this.point(page, free);
    this.snap = null;
    return sheet.site_from_page(page);
  }

  private drag(doing: Doing, page: PagePoint, free: boolean): SitePoint {
    const hand = sheet.site_from_page(page);
    const document = site.document;
    if (!this.moved || !document) return hand;
    if (doing.what === "frame") this.frame = [doing.from, hand];
    if (doing.what === "draw") {
      const at = this.point(page, free);
      this.rectangle =
        tool_named(drawing.tool)?.form === "outline" && drawing.points.length === 0 ? [doing.from, at] : null;
      return at;
    }
    if (doing.what === "move") {
      const wanted: SitePoint = [doing.grip[0] + hand[0] - doing.from[0], doing.grip[1] + hand[1] - doing.from[1]];
      const keys = new Set(
        movable(document, doing.refs)
          .concat(doing.refs)
          .map((ref) => `${ref.list}/${ref.name}`),
      );
      const to = this.point(sheet.page_from_site(wanted), free, keys);
      site.try_out(moves(document, doing.refs, between(doing.grip, to)));
      return to;
    }
    if (doing.what === "handle") {
      const { ref } = doing.handle;
      const at =
        doing.handle.kind === "corner" || doing.handle.kind === "between"
          ? this.point(page, free, new Set([`${ref.list}/${ref.name}`]))
          : hand;
      site.try_out(pulled(document, doing.handle, at, page, sheet));
      return at;
    }
    return hand;
  }

  up(event: PointerEvent, page: PagePoint): void {
    this.fingers.delete(event.pointerId);
    const doing = this.doing;
    this.doing = null;
    if (doing?.what === "draw") this.end_draw(doing.from, page, event.altKey);
    if (doing?.what === "frame" && this.frame && site.document)
      choice.take(...picked_within(site.document, ...this.frame));
    if (doing?.what === "pan" && !this.moved && !this.space && event.button === 0) choice.nothing();
    if (doing?.what === "move" && !this.moved && doing.next) choice.take(doing.next);
    if (doing?.what === "move") this.settle("move", doing.refs);
    if (doing?.what === "handle" && !this.moved) this.tap(doing.handle, page);
    if (doing?.what === "handle") this.settle(doing.handle.words, [doing.handle.ref]);
    this.frame = null;
    this.rectangle = null;
    this.pressed_at = null;
    this.snap = null;
  }

  /** A tap takes a corner in hand, or puts one between two and takes that. */
  private tap(handle: Handle, page: PagePoint): void {
    if (!site.document || (handle.kind !== "corner" && handle.kind !== "between")) return;
    if (handle.kind === "between") site.try_out(pulled(site.document, handle, handle.at, page, sheet));
    drawing.corner = handle.corner;
  }

  /** A pointer that the system took away: nothing was meant. */
  cancel(event: PointerEvent): void {
    this.fingers.delete(event.pointerId);
    this.doing = null;
    this.frame = null;
    this.rectangle = null;
    site.drop();
  }

  private settle(words: string, refs: readonly Ref[]): void {
    if (site.trial.length > 0) void site.settle(edit_words(words, { what: names_in_words(refs) }));
  }

  private end_draw(from: SitePoint, page: PagePoint, free: boolean): void {
    if (plan_scaling.on) return plan_scaling.show(sheet.site_from_page(page));
    const form = tool_named(drawing.tool)?.form;
    const to = this.moved ? this.point(page, free) : from;
    if (this.moved && form === "outline" && drawing.points.length === 0) return put_rectangle(from, to);
    if (this.moved && form !== "outline" && drawing.points.length === 0) put_point(from);
    put_point(to);
  }

  private pan(doing: { readonly last: PagePoint }, page: PagePoint): void {
    sheet.pan(page.x - doing.last.x, page.y - doing.last.y);
    this.doing = { what: "pan", last: page };
  }

  private begin_pinch(): void {
    site.drop();
    const [a, b] = [...this.fingers.values()];
    if (a && b) this.doing = { what: "pinch", ...pinch_of(a, b) };
    this.moved = true;
  }
  private pinch(doing: { readonly apart: number; readonly middle: PagePoint }): void {
    const [a, b] = [...this.fingers.values()];
    if (!a || !b) return;
    const now = pinch_of(a, b);
    sheet.pan(now.middle.x - doing.middle.x, now.middle.y - doing.middle.y);
    sheet.zoom(now.apart / doing.apart, now.middle);
    this.doing = { what: "pinch", ...now };
  }
}

function pinch_of(a: PagePoint, b: PagePoint): { apart: number; middle: PagePoint } {
  return { apart: Math.max(10, Math.hypot(a.x - b.x, a.y - b.y)), middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } };
}

export const hand = new Hand();
