// SPDX-License-Identifier: GPL-3.0-or-later
// Forms are made from the schema that the server gives: which fields an object has, their units, ranges, choices and
// meaning. A field that the form cannot show (corners, which are drawn) is left out.
import { number_shown, read_number } from "../base/numbers";
import type { Json } from "../wire/answers";

export type Schema = { readonly [key: string]: Json | undefined };
export type Values = Readonly<Record<string, unknown>>;
export interface Field {
  readonly name: string;
  /** Where it stands in the document, without names and places in lists: `site.mounts.fixing.kind`. */
  readonly path: string;
  /** pair: two numbers; span: a number or two; numbers: as many as one likes; names: of other objects, in an order. */
  readonly kind:
    | "number"
    | "integer"
    | "text"
    | "date"
    | "time"
    | "choice"
    | "boolean"
    | "names"
    | "pair"
    | "span"
    | "numbers"
    | "group"
    | "list";
  /** As the schema tells it, without the unit. */
  readonly meaning: string;
  readonly unit: string | null;
  readonly least: number | null;
  readonly most: number | null;
  readonly longest: number;
  readonly usual: number | string | boolean | null;
  readonly required: boolean;
  readonly choices: readonly string[];
  /** Of a group, or of each object of a list. */
  readonly fields: readonly Field[];
}

export function schema_at(schema: Schema, list: string): Schema | null {
  let at: Schema | undefined = schema;
  for (const key of list.split("/")) at = inner(inner(at, "properties"), key);
  return inner(at, "items") ?? at ?? null;
}

/** The fields of an object of a list, or of a lone one; of an object with a `kind`, those of that kind. */
export function fields_at(schema: Schema | null, list: string, kind: string | null = null): Field[] {
  const own = schema && schema_at(schema, list);
  return own ? fields_of(own, kind, `${list.replaceAll("/", ".")}.`) : [];
}

function fields_of(schema: Schema, kind: string | null, path: string): Field[] {
  const kinds = kinds_in(schema);
  const own = kinds.length > 0 ? kinds.find((each) => kind_of(each) === kind) : schema;
  const properties = own && inner(own, "properties");
  if (!own || !properties) return [];
  const required = new Set(required_in(own));
  return Object.entries(properties).flatMap(
    ([name, part]) => field_of(path + name, part as Schema, required.has(name)) ?? [],
  );
}

/** The kinds that an object of the list can be, each with the fields it needs. */
export function kinds_at(schema: Schema, list: string): { kind: string; needs: string[]; has: string[] }[] {
  const own = schema_at(schema, list);
  return kinds_in(own).map((each) => ({
    kind: String(kind_of(each)),
    needs: required_in(each),
    has: Object.keys(inner(each, "properties") ?? {}),
  }));
}

function kinds_in(schema: Schema | null): readonly Schema[] {
  const one_of = schema?.["oneOf"];
  return Array.isArray(one_of) ? (one_of as Schema[]) : [];
}
function required_in(schema: Schema): string[] {
  return (schema["required"] as string[] | undefined) ?? [];
}
function kind_of(schema: Schema): Json | undefined {
  const kind = inner(inner(schema, "properties"), "kind");
  return kind?.["const"];
}

function field_of(path: string, part: Schema, required: boolean): Field | null {
  const name = path.split(".").at(-1) ?? path;
  const kind = form_of(name, part);
  if (!kind) return null;
  const { meaning, unit } = described(String(part["description"] ?? ""));
  const parts = kind === "group" ? part : kind === "list" ? (inner(part, "items") ?? {}) : null;
  return {
    name,
    path,
    kind,
    meaning,
    unit,
    least: number_in(part, "minimum"),
    most: number_in(part, "maximum"),
    longest: (part["maxLength"] as number | undefined) ?? 200,
    usual: (part["default"] as Field["usual"] | undefined) ?? null,
    required,
    choices: (part["enum"] as string[] | undefined) ?? [],
    fields: parts ? fields_of(parts, null, `${path}.`) : [],
  };
}

/** Places on the plan, which are drawn. */
const kDrawn = new Set(["at", "north_west", "south_west"]);

function form_of(name: string, part: Schema): Field["kind"] | null {
  if (part["const"] !== undefined || kDrawn.has(name)) return null;
  if (part["enum"]) return "choice";
  const either = kinds_in(part);
  if (either.length === 2 && either[0]?.["type"] === "number" && either[1]?.["type"] === "array") return "span";
  const type = part["type"];
  if (type === "number" || type === "integer" || type === "boolean") return type;
  if (type === "string") return part["pattern"] && (name === "date" || name === "time") ? name : "text";
  if (type === "object") return "group";
  const items = inner(part, "items");
  return type === "array" && items ? array_form(part, items) : null;
}
function array_form(part: Schema, items: Schema): Field["kind"] | null {
  if (items["type"] === "string") return "names";
  if (items["type"] === "object") return "list";
  if (items["type"] !== "number" && items["type"] !== "integer") return null;
  if (part["maxItems"] === 2) return "pair";
  return Number(part["maxItems"]) <= 100 ? "numbers" : null;
}

/** `of its top above the base [m]`: the meaning and the unit. */
export function described(description: string): { meaning: string; unit: string | null } {
  const found = /^(.*?)\s*\[([^\]]+)\]$/.exec(description);
  return { meaning: found?.[1] ?? description, unit: found?.[2] ?? null };
}

function inner(schema: Schema | null | undefined, key: string): Schema | undefined {
  const part = schema?.[key];
  return typeof part === "object" && part !== null && !Array.isArray(part) ? (part as Schema) : undefined;
}
function number_in(part: Schema, key: string): number | null {
  const value = part[key] ?? inner(part, "items")?.[key] ?? kinds_in(part)[0]?.[key];
  return typeof value === "number" ? value : null;
}

/** Fields that are needed or were given; the others can be folded away. */
export function parted(fields: readonly Field[], object: Values): { told: Field[]; untold: Field[] } {
  const is_told = (field: Field): boolean => field.required || object[field.name] !== undefined;
  return { told: fields.filter(is_told), untold: fields.filter((field) => !is_told(field)) };
}

/** The fields that are needed and not given, in what was begun too. */
export function lacking(fields: readonly Field[], object: Values): Field[] {
  return fields.flatMap((field) => {
    const value = object[field.name];
    if (value === undefined || (field.kind === "list" && field.required && (value as unknown[]).length === 0))
      return field.required ? [field] : [];
    if (field.kind === "group") return lacking(field.fields, value as Values);
    return field.kind === "list" ? (value as readonly Values[]).flatMap((item) => lacking(field.fields, item)) : [];
  });
}

/** The object with one field altered: left out when it is emptied or at its default. */
export function with_field(object: Values, field: Field, value: unknown): Values {
  const others = Object.entries(object).filter(([name]) => name !== field.name);
  const kept = value === null || value === field.usual ? others : Object.entries({ ...object, [field.name]: value });
  return Object.fromEntries(kept);
}

/**
 * Numbers as they are typed in a row: by spaces, semicolons, or commas with a space behind; null when one is none. A
 * comma without a space is the decimal mark where the language has it so; where it has not, it may part two numbers.
 */
export function read_numbers(typed: string): number[] | null {
  const numbers = typed
    .split(/[\s;]+|,\s+/)
    .filter((word) => word !== "")
    .map((word) => (word.includes(",") && !number_shown(0.5).includes(",") ? null : read_number(word)));
  return numbers.every((number) => number !== null) ? numbers : null;
}
