// SPDX-License-Identifier: GPL-3.0-or-later
// Making one kind of thing another: a switch a recorder, a trench a conduit. What both kinds have is kept.
import type { Drawn } from "../store/shapes";
import type { ListName } from "../wire/document";
import type { Schema } from "./fields";
import { kinds_at } from "./fields";

/** For what the new kind needs and the old one has not. Common practice, no published source; the form asks for more. */
const kStarts: Readonly<Record<string, number>> = {
  ports: 8,
  voltage_v: 12,
  rating_w: 60,
  capacity_ah: 18,
  bore_mm: 40,
  height_m: 2,
  passes: 0.75,
  summer: 0.03,
  winter: 0.5,
  across_m: 1.8,
  along_m: 4.5,
};

/** The kinds that a thing can become, its own among them: those that are drawn alike. None where there is no choice. */
export function kinds_open_to(schema: Schema, list: ListName, object: Drawn): string[] {
  const has = new Set([...Object.keys(object), ...Object.keys(kStarts)]);
  const able = kinds_at(schema, list).filter((each) => each.needs.every((field) => has.has(field)));
  return able.length > 1 ? able.map((each) => each.kind) : [];
}

export function with_kind<Object extends Drawn>(schema: Schema, list: ListName, object: Object, kind: string): Object {
  const of = kinds_at(schema, list).find((each) => each.kind === kind);
  if (!of) return object;
  const kept = Object.entries(object).filter(([field]) => of.has.includes(field));
  const missing = of.needs.filter((field) => !(field in object)).map((field) => [field, kStarts[field]]);
  return { ...Object.fromEntries([...kept, ...missing]), kind } as Object;
}
