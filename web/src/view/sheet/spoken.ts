// SPDX-License-Identifier: GPL-3.0-or-later
// What a screen reader is told of the sheet: the tool in hand, what is selected, where the cursor is.
import { tool_named } from "../../actions/tools";
import { text } from "../../base/text.svelte";
import { shown_length } from "../../base/units";
import { choice } from "../../store/choice.svelte";
import { corner_at } from "../../store/corners";
import { drawing } from "../../store/drawing.svelte";
import { prefer } from "../../store/prefer.svelte";
import { sheet } from "../../store/sheet.svelte";
import { drawn, shape_of } from "../../store/shapes";
import { site } from "../../store/site.svelte";

const place = (at: readonly [number, number]): { x: string; y: string } => ({
  x: shown_length(at[0], prefer.units),
  y: shown_length(at[1], prefer.units),
});

export function spoken_state(): string {
  const tool = tool_named(drawing.tool);
  if (tool) {
    const what = text(`tools.${tool.name}.called`);
    const count = drawing.points.length;
    const at = sheet.cursor ? text("sheet.spoken.cursor", place(sheet.cursor)) : "";
    return `${text("sheet.spoken.drawing", { what, count })} ${at}`;
  }
  const [only, ...others] = choice.refs;
  if (!only) return sheet.cursor ? text("sheet.spoken.cursor", place(sheet.cursor)) : text("sheet.spoken.nothing");
  if (others.length > 0) return text("sheet.spoken.several", { count: choice.refs.length });
  const object = site.document && drawn(site.document, only);
  if (object && "cable" in object)
    return text("sheet.spoken.run", { name: only.name, from: object.from, to: object.to });
  const shape = object && site.document && shape_of(site.document, object);
  const corner = drawing.corner ?? { ring: 0, index: 0 };
  const at = shape && corner_at(shape, corner);
  const where = at ? place(at) : { x: "", y: "" };
  if (corner.ring > 0) return text("sheet.spoken.in_hole", { name: only.name, hole: corner.ring, ...where });
  return text("sheet.spoken.one", { name: only.name, ...where });
}
