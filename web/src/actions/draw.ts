// SPDX-License-Identifier: GPL-3.0-or-later
// Acts of drawing: taking a tool, putting points, ending.
import type { SitePoint } from "../base/plane";
import { distance, rounded_point } from "../base/plane";
import { edit_words, english_text } from "../base/edit_words";
import { no_length, read_length } from "../base/units";
import { choice } from "../store/choice.svelte";
import { drawing, typed_point } from "../store/drawing.svelte";
import { notes } from "../store/notes.svelte";
import { plan_scaling } from "../store/plan_scaling.svelte";
import { prefer } from "../store/prefer.svelte";
import { sheet } from "../store/sheet.svelte";
import { site } from "../store/site.svelte";
import { on_the_side_of } from "../store/snap";
import { add_acts } from "./acts";
import { kTools, least_points, tool_named } from "./tools";

/** Put the next point; a tool that has all it needs then makes its object. */
export function put_point(hand: SitePoint): void {
  const p = rounded_point(hand, 0.001);
  const tool = tool_named(drawing.tool);
  if (!tool) return;
  const last = drawing.points.at(-1);
  const first = drawing.points[0];
  const enough = drawing.points.length >= least_points(tool.form);
  if (last && distance(last, p) < 1e-6) return finish();
  if (tool.form === "outline" && enough && first && distance(first, p) < 1e-6) return finish();
  drawing.put(p);
  if (tool.form === "spot" || (tool.form === "aimed" && drawing.points.length === 2)) finish();
}

/** An outline between two corners, as the hand draws it in one pull. */
export function put_rectangle(a: SitePoint, b: SitePoint): void {
  if (Math.abs(a[0] - b[0]) < 1e-6 || Math.abs(a[1] - b[1]) < 1e-6) return;
  drawing.points = [a, [b[0], a[1]], b, [a[0], b[1]]];
  finish();
}

export function finish(): void {
  const tool = tool_named(drawing.tool);
  const document = site.document;
  if (!tool || !document || drawing.points.length < least_points(tool.form)) return;
  const [at, to] = drawing.points;
  const hung = tool.on_wall && tool.form === "aimed" && at && to;
  const made = tool.make(document, hung ? [on_the_side_of(to, at, document), to] : drawing.points);
  drawing.begin_anew();
  if (!made) return;
  const words = made.words ?? edit_words("draw", { what: english_text(`tools.${tool.name}.called`) });
  void (made.draws_way ? site.draw_way(words, made.changes) : site.edit(words, made.changes));
  if (made.ref) choice.take(made.ref);
  drawing.take(null);
}

/** What was drawn with the tool before is kept when it is whole. */
function take_tool(name: string): void {
  const before = drawing.tool;
  finish();
  drawing.take(before === name ? null : name);
}

/** Enter: the typed length, else a point at the cursor, else the end of the line. */
export function enter(): void {
  const from = drawing.points.at(-1);
  const typed = from && drawing.typed ? typed_point(drawing.typed, from, sheet.cursor, prefer.units) : null;
  if (typed) put_point(typed);
  else if (drawing.typed && read_length(drawing.typed.split("<")[0] ?? "", prefer.units) === null)
    notes.tell(no_length(drawing.typed));
  else if (!drawing.typed && sheet.cursor) put_point(sheet.cursor);
}

/** Esc: what is being tried, then the points, then the tool, then the selection. */
export function give_up(): void {
  if (site.trial.length > 0) site.drop();
  else if (plan_scaling.on) plan_scaling.end();
  else if (drawing.typed) drawing.typed = "";
  else if (drawing.points.length > 0) drawing.begin_anew();
  else if (drawing.tool) drawing.take(null);
  else if (drawing.corner !== null) drawing.corner = null;
  else choice.nothing();
}

const busy_drawing = (): boolean => drawing.tool !== null;

const whole = (): boolean => {
  const tool = tool_named(drawing.tool);
  return tool !== null && drawing.points.length >= least_points(tool.form);
};

add_acts([
  ...kTools.map((tool) => ({
    id: `draw_${tool.name}`,
    group: "draw" as const,
    keys: [tool.key],
    run: () => take_tool(tool.name),
  })),
  { id: "finish_drawing", group: "draw", keys: ["Shift+Enter"], can: whole, run: finish },
  { id: "put_point", group: "draw", keys: ["Enter"], where: "sheet", can: busy_drawing, run: enter },
  {
    id: "take_point_back",
    group: "draw",
    keys: ["Backspace"],
    where: "sheet",
    can: busy_drawing,
    run: () => drawing.back(),
  },
  { id: "give_up", group: "change", keys: ["Escape"], run: give_up },
  {
    id: "scale_plan",
    group: "draw",
    keys: ["Shift+p"],
    can: () => site.document?.site.plan !== undefined,
    run: () => plan_scaling.begin(),
  },
]);
