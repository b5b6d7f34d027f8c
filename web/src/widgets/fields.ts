// SPDX-License-Identifier: GPL-3.0-or-later
// Forms are made from the schema that the server gives: which fields an object has, their units, ranges, choices and
// meaning. A field that the form cannot show (corners, which are drawn) is left out.
import type { Json } from "../wire/answers";

export type Schema = { readonly [key: string]: Json | undefined };
export interface Field {
  readonly name: string;
  readonly kind: "number" | "integer" | "text" | "choice" | "boolean" | "names" | "pair" | "group";
  /** As the schema tells it, without the unit. */
  readonly meaning: string;
  readonly unit: string | null;
  readonly least: number | null;
  readonly most: number | null;
  readonly usual: number | string | boolean | null;
  readonly required: boolean;
  readonly choices: readonly string[];
  readonly fields: readonly Field[];
}

export function schema_at(schema: Schema, list: string): Schema | null {
  let at: Schema | undefined = schema;
  for (const key of list.split("/")) at = inner(inner(at, "properties"), key);
  return inner(at, "items") ?? at ?? null;
}

/** Of an object with a `kind`, the fields of that kind. */
export function fields_of(schema: Schema, kind: string | null): Field[] {
  const one_of = schema["oneOf"];
  const own = Array.isArray(one_of) ? (one_of as Schema[]).find((each) => kind_of(each) === kind) : schema;
  const properties = own && inner(own, "properties");
  if (!own || !properties) return [];
  const required = new Set((own["required"] as string[] | undefined) ?? []);
  return Object.entries(properties).flatMap(([name, part]) => field_of(name, part as Schema, required.has(name)) ?? []);
}

function kind_of(schema: Schema): Json | undefined {
  const kind = inner(inner(schema, "properties"), "kind");
  return kind?.["const"];
}

function field_of(name: string, part: Schema, required: boolean): Field | null {
  const kind = form_of(name, part);
  if (!kind) return null;
  const { meaning, unit } = described(String(part["description"] ?? ""));
  return {
    name,
    kind,
    meaning,
    unit,
    least: number_in(part, "minimum"),
    most: number_in(part, "maximum"),
    usual: (part["default"] as Field["usual"] | undefined) ?? null,
    required,
    choices: (part["enum"] as string[] | undefined) ?? [],
    fields: kind === "group" ? fields_of(part, null) : [],
  };
}

function form_of(name: string, part: Schema): Field["kind"] | null {
  if (name === "kind" || part["const"] !== undefined) return null;
  if (part["enum"]) return "choice";
  const type = part["type"];
  if (type === "number" || type === "integer" || type === "boolean") return type;
  if (type === "string") return "text";
  if (type === "object") return "group";
  const items = inner(part, "items");
  if (type !== "array" || !items) return null;
  if (items["type"] === "string") return "names";
  return items["type"] === "number" && part["maxItems"] === 2 && name !== "at" ? "pair" : null;
}

/** `of its top above the base [m]`: the meaning and the unit. */
function described(description: string): { meaning: string; unit: string | null } {
  const found = /^(.*?)\s*\[([^\]]+)\]$/.exec(description);
  return { meaning: found?.[1] ?? description, unit: found?.[2] ?? null };
}

function inner(schema: Schema | null | undefined, key: string): Schema | undefined {
  const part = schema?.[key];
  return typeof part === "object" && part !== null && !Array.isArray(part) ? (part as Schema) : undefined;
}
function number_in(part: Schema, key: string): number | null {
  const value = part[key] ?? inner(part, "items")?.[key];
  return typeof value === "number" ? value : null;
}

/** Fields that are needed or were given; the others can be folded away. */
export function parted(
  fields: readonly Field[],
  object: Readonly<Record<string, unknown>>,
): { told: Field[]; untold: Field[] } {
  const is_told = (field: Field): boolean => field.required || object[field.name] !== undefined;
  return { told: fields.filter(is_told), untold: fields.filter((field) => !is_told(field)) };
}

/** `slowest_shutter_s` in words, where the texts have none: slowest shutter. */
export function plain_words(name: string): string {
  return name.replace(/_(m|deg|mm|s|m_s|hz|w|db|px|nm|um|e|kg|c|kbps|w_sr|lux)$/, "").replaceAll("_", " ");
}
