// SPDX-License-Identifier: GPL-3.0-or-later
// Words on the page, looked up by a dotted key in two files a language: texts/en.json, and texts/views.en.json for what
// stands beside the drawing. A word that is not translated yet is shown in English; `{name}` in a text is filled in.
import english_page from "../texts/en.json";
import english_views from "../texts/views.en.json";

export type TextKey = string;
interface Table {
  readonly [key: string]: string | Table;
}
export type Language = "en" | "de";

const english: Table = joined(english_page, english_views);

class Words {
  language = $state<Language>("en");
  table = $state.raw<Table>(english);
}
const words = new Words();

export function language(): Language {
  return words.language;
}

export async function speak(wanted: Language): Promise<void> {
  words.table = wanted === "de" ? await german() : english;
  words.language = wanted;
  if (typeof document !== "undefined") document.documentElement.lang = wanted;
}

/** The words of acts stand in both files. */
function joined(page: { readonly acts: Table }, views: { readonly acts: Table }): Table {
  return { ...page, ...views, acts: { ...page.acts, ...views.acts } };
}

async function german(): Promise<Table> {
  const [page, views] = await Promise.all([import("../texts/de.json"), import("../texts/views.de.json")]);
  return joined(page.default, views.default);
}

export function text(key: TextKey, values: Record<string, string | number> = {}): string {
  return filled(found(words.table, key) ?? found(english, key) ?? key, values);
}

/** Whether a key has words at all, such as the label of a field that the schema has and the texts may not. */
export function has_text(key: TextKey): boolean {
  return (found(words.table, key) ?? found(english, key)) !== null;
}

export function found(table: Table, key: TextKey): string | null {
  let at: string | Table | undefined = table;
  for (const part of key.split(".")) at = typeof at === "object" ? at[part] : undefined;
  return typeof at === "string" ? at : null;
}

export function filled(pattern: string, values: Record<string, string | number>): string {
  return pattern.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}
