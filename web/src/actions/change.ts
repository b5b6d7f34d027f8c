// SPDX-License-Identifier: GPL-3.0-or-later
// Acts on what is selected: moving, turning, copying, taking away, walking from one object to the next.
import type { SitePoint } from "../base/plane";
import { between, box_of, centre_of, moved } from "../base/plane";
import { edit_words } from "../base/edit_words";
import type { Change } from "../wire/answers";
import type { ListTypes } from "../wire/document";
import type { Ref } from "../store/changes";
import { members } from "../store/changes";
import { choice } from "../store/choice.svelte";
import type { Corner } from "../store/corners";
import {
  can_lose_corner,
  corner_after,
  corner_at,
  has_corners,
  next_corner,
  with_corner,
  with_corner_moved,
  without_corner,
  without_hole,
} from "../store/corners";
import { drawing } from "../store/drawing.svelte";
import type { Copied } from "../store/editing";
import { change_of, copied, moves, pasted, removals } from "../store/editing";
import type { Drawn, Shape } from "../store/shapes";
import { drawn, is_drawn, kDrawnLists, shape_of, turns, with_heading } from "../store/shapes";
import { sheet } from "../store/sheet.svelte";
import { site } from "../store/site.svelte";
import { add_acts } from "./acts";

let copies: readonly Copied[] = [];

const some = (): boolean => choice.refs.length > 0;

export function names_in_words(refs: readonly Ref[]): string {
  const [first] = refs;
  return refs.length === 1 && first ? `"${first.name}"` : edit_words("several", { count: refs.length });
}

function do_it(key: string, refs: readonly Ref[], changes: readonly Change[]): void {
  if (changes.length > 0) void site.edit(edit_words(key, { what: names_in_words(refs) }), changes);
}

/** With the keys: the corner in hand when there is one, else all that is selected. */
function nudge(by: SitePoint): void {
  const document = site.document;
  if (!document) return;
  const corner = drawing.corner;
  const only = choice.only;
  if (corner === null || !only) return do_it("move", choice.refs, moves(document, choice.refs, by));
  const changes = change_of(document, only, (object) => {
    const shape = shape_of(document, object);
    return shape ? with_corner_moved(object, shape, corner, (p) => moved(p, by)) : object;
  });
  do_it("reshape", [only], changes);
}

function move_cursor(dx: number, dy: number): void {
  const { centre } = sheet.window;
  sheet.cursor = moved(sheet.cursor ?? [Math.round(centre[0]), Math.round(centre[1])], [dx, dy]);
  sheet.show(sheet.cursor);
}

function step(dx: number, dy: number, fine: boolean): void {
  const metres = fine ? 0.1 : 0.5;
  const by: SitePoint = [dx * metres, dy * metres];
  if (drawing.tool === null && some()) nudge(by);
  else move_cursor(by[0], by[1]);
}

function turn(degrees: number): void {
  const document = site.document;
  if (!document) return;
  const refs = choice.refs.filter((ref) => {
    const object = drawn(document, ref);
    return object && is_drawn(ref.list) && turns(ref.list, object);
  });
  const changes = refs.flatMap((ref) =>
    change_of(document, ref, (object) => {
      const heading = shape_of(document, object)?.heading_deg ?? 0;
      return with_heading(object, (heading + degrees + 360) % 360);
    }),
  );
  do_it("turn", refs, changes);
}

function paste(onto: SitePoint | null): void {
  const document = site.document;
  if (!document || copies.length === 0) return;
  const points = copies.flatMap(({ object }) => shape_of(document, object)?.points ?? []);
  const box = box_of(points);
  const by: SitePoint = box && onto ? between(centre_of(box), onto) : [2, -2];
  const put = pasted(document, copies, by);
  do_it("paste", put.refs, put.changes);
  choice.take(...put.refs);
}

function duplicate(): void {
  if (!site.document) return;
  copies = copied(site.document, choice.refs);
  paste(null);
}

/** The one object selected and the corner of it that is in hand. */
function in_hand(): { ref: Ref; object: Drawn; shape: Shape; corner: Corner } | null {
  const document = site.document;
  const ref = choice.only;
  const corner = drawing.corner;
  const object = document && ref && drawn(document, ref);
  const shape = object ? shape_of(document, object) : null;
  const there = corner !== null && has_corners(shape) && corner_at(shape, corner) !== null;
  return ref && object && there ? { ref, object, shape, corner } : null;
}

function add_corner(): void {
  const held = in_hand();
  const at = held && next_corner(held.shape, held.corner);
  if (!held || !at || !site.document) return;
  const { ref, shape } = held;
  const corner: Corner = { ...held.corner, index: held.corner.index + 1 };
  const changes = change_of(site.document, ref, (object) => with_corner(object, shape, corner, at));
  do_it("reshape", [ref], changes);
  drawing.corner = corner;
}

const loses_corner = (): boolean => {
  const held = in_hand();
  return held !== null && can_lose_corner(held.shape, held.corner.ring);
};

function remove_corner(): void {
  const held = in_hand();
  if (!held || !site.document || !loses_corner()) return;
  const { ref, shape, corner } = held;
  const changes = change_of(site.document, ref, (object) => without_corner(object, shape, corner));
  drawing.corner = null;
  do_it("reshape", [ref], changes);
}

const in_hole = (): boolean => (in_hand()?.corner.ring ?? 0) > 0;

function remove_hole(): void {
  const held = in_hand();
  if (!held || !site.document || held.corner.ring === 0) return;
  const changes = change_of(site.document, held.ref, (object) => without_hole(object, held.corner.ring));
  drawing.corner = null;
  do_it("remove_hole", [held.ref], changes);
}

/** A hole's last three corners go with it, not with what it is cut out of. */
function remove(): void {
  const document = site.document;
  if (!document) return;
  if (loses_corner()) return remove_corner();
  if (in_hole()) return remove_hole();
  const refs = choice.refs;
  do_it("remove", refs, removals(document, refs));
}

function everything(): Ref[] {
  const document = site.document;
  if (!document) return [];
  return kDrawnLists.flatMap((list) =>
    (members(document, list as keyof ListTypes) as readonly Drawn[]).map((object): Ref => ({
      list,
      name: object.name,
    })),
  );
}

function walk(steps: number): void {
  const all = everything();
  if (all.length === 0) return;
  const at = choice.only ? all.findIndex((ref) => ref.list === choice.only?.list && ref.name === choice.only.name) : -1;
  const next = all[(at + steps + all.length + (at < 0 && steps < 0 ? 1 : 0)) % all.length];
  if (!next || !site.document) return;
  choice.take(next);
  drawing.corner = null;
  const object = drawn(site.document, next);
  const p = object && shape_of(site.document, object)?.points[0];
  if (p) sheet.show(p);
}

function walk_corners(): void {
  const document = site.document;
  const object = document && choice.only && drawn(document, choice.only);
  const shape = object ? shape_of(document, object) : null;
  if (has_corners(shape)) drawing.corner = corner_after(shape, drawing.corner);
}

const kArrows: readonly (readonly [string, number, number])[] = [
  ["ArrowUp", 0, 1],
  ["ArrowDown", 0, -1],
  ["ArrowLeft", -1, 0],
  ["ArrowRight", 1, 0],
];

add_acts([
  ...kArrows.flatMap(([key, dx, dy]) => [
    {
      id: `step_${key}`,
      group: "change" as const,
      keys: [key],
      where: "sheet" as const,
      run: () => step(dx, dy, false),
    },
    {
      id: `fine_step_${key}`,
      group: "change" as const,
      keys: [`Shift+${key}`],
      where: "sheet" as const,
      run: () => step(dx, dy, true),
    },
  ]),
  { id: "turn_right", group: "change", keys: ["]"], can: some, run: () => turn(5) },
  { id: "turn_left", group: "change", keys: ["["], can: some, run: () => turn(-5) },
  { id: "next_object", group: "change", keys: ["."], run: () => walk(1) },
  { id: "previous_object", group: "change", keys: [","], run: () => walk(-1) },
  { id: "next_corner", group: "change", keys: ["k"], can: () => choice.only !== null, run: walk_corners },
  { id: "add_corner", group: "change", keys: ["Insert", "Shift+i"], can: () => in_hand() !== null, run: add_corner },
  { id: "remove_corner", group: "change", keys: ["Shift+Delete", "Shift+x"], can: loses_corner, run: remove_corner },
  { id: "remove_hole", group: "change", keys: ["Alt+Delete", "Shift+e"], can: in_hole, run: remove_hole },
  { id: "select_all", group: "change", keys: ["Ctrl+a"], run: () => choice.take(...everything()) },
  {
    id: "copy",
    group: "change",
    keys: ["Ctrl+c"],
    can: some,
    run: () => {
      if (site.document) copies = copied(site.document, choice.refs);
    },
  },
  { id: "paste", group: "change", keys: ["Ctrl+v"], can: () => copies.length > 0, run: () => paste(sheet.cursor) },
  { id: "duplicate", group: "change", keys: ["Ctrl+d"], can: some, run: duplicate },
  { id: "remove", group: "change", keys: ["Delete"], can: some, run: remove },
]);
