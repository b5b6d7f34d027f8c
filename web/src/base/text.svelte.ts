// SPDX-License-Identifier: GPL-3.0-or-later
// Words on the page, looked up by a dotted key in one file a language (texts/en.json, texts/de.json). A word that is not
// translated yet is shown in English; `{name}` in a text is filled in.
import english_words from "../texts/en.json";

export type TextKey = string;
interface Table {
  readonly [key: string]: string | Table;
}
export type Language = "en" | "de";

const english: Table = english_words;

/** Words of the document's schema in another language: names of fields, what they mean, words to choose among. */
export interface SchemaTable {
  readonly names: { readonly [key: string]: string };
  readonly meanings: { readonly [key: string]: string };
  readonly words: { readonly [key: string]: string };
}

class Words {
  language = $state<Language>("en");
  table = $state.raw<Table>(english);
  schema = $state.raw<SchemaTable | null>(null);
}
const words = new Words();

export function language(): Language {
  return words.language;
}

export async function speak(wanted: Language): Promise<void> {
  const german =
    wanted === "de" ? await Promise.all([import("../texts/de.json"), import("../texts/de_fields.json")]) : null;
  words.table = german ? german[0].default : english;
  words.schema = german ? german[1].default : null;
  words.language = wanted;
  if (typeof document !== "undefined") document.documentElement.lang = wanted;
}

export function text(key: TextKey, values: Record<string, string | number> = {}): string {
  return filled(found(words.table, key) ?? found(english, key) ?? key, values);
}

/** Whether a key has words at all, such as the label of a field that the schema has and the texts may not. */
export function has_text(key: TextKey): boolean {
  return (found(words.table, key) ?? found(english, key)) !== null;
}

/** Null where the page speaks the schema's own language, or the word is not translated yet. */
export function schema_words(kind: keyof SchemaTable, key: string): string | null {
  return words.schema?.[kind][key] ?? null;
}

export function found(table: Table, key: TextKey): string | null {
  let at: string | Table | undefined = table;
  for (const part of key.split(".")) at = typeof at === "object" ? at[part] : undefined;
  return typeof at === "string" ? at : null;
}

export function filled(pattern: string, values: Record<string, string | number>): string {
  return pattern.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}
