// SPDX-License-Identifier: GPL-3.0-or-later
// Words on the page, looked up by a dotted key in one file a language (texts/en.json, texts/de.json). A word that is not
// translated yet is shown in English; `{name}` in a text is filled in. The schema and the program speak English: their
// words and sentences are translated where they are shown.
import english_words from "../texts/en.json";
import { edit_parts, edit_patterns } from "./edit_words";
import { filled } from "./filled";
import { language, take_language, type Language } from "./language.svelte";
import { digits_shown, number_shown } from "./numbers";
import { Sentences, type SentenceTable } from "./sentences";
import { found, type Table } from "./table";

export type TextKey = string;

const english: Table = english_words;

/** Words of the document's schema in another language: names of fields, what they mean, words to choose among. */
export interface SchemaTable {
  readonly names: { readonly [key: string]: string };
  readonly meanings: { readonly [key: string]: string };
  readonly words: { readonly [key: string]: string };
  /** Of data/materials.json. */
  readonly materials: { readonly [key: string]: string };
}

class Words {
  table = $state.raw<Table>(english);
  schema = $state.raw<SchemaTable | null>(null);
  sentences = $state.raw<Sentences | null>(null);
  /** Of edits; made when history is told first. */
  edits = $state.raw<(() => Sentences) | null>(null);
}
const words = new Words();

export async function speak(wanted: Language): Promise<void> {
  const german =
    wanted === "de"
      ? await Promise.all([
          import("../texts/de.json"),
          import("../texts/de_fields.json"),
          import("../texts/de_sentences.json"),
        ])
      : null;
  words.table = german ? german[0].default : english;
  words.schema = german ? german[1].default : null;
  take_language(wanted);
  const parts = german && { ...german[1].default.meanings, ...german[0].default.levels };
  words.sentences = german && parts && new Sentences(german[2].default, parts, digits_shown);
  words.edits = german && once(() => edits_in(german[0].default, german[1].default.names, german[2].default));
}

function edits_in(table: Table, names: SchemaTable["names"], sentences: SentenceTable): Sentences {
  const all = { ...sentences, sentences: { ...sentences.sentences, ...edit_patterns(table) } };
  return new Sentences(all, edit_parts(table, names), digits_shown);
}

function once<Value>(make: () => Value): () => Value {
  let made: Value | null = null;
  return () => (made ??= make());
}

/** Numbers among `values` are written as the language does. */
export function text(key: TextKey, values: Record<string, string | number> = {}): string {
  return filled(pattern_of(key), Object.fromEntries(Object.entries(values).map(([name, each]) => [name, shown(each)])));
}

function pattern_of(key: TextKey): string {
  return found(words.table, key) ?? found(english, key) ?? key;
}
function shown(value: string | number): string {
  return typeof value === "number" ? number_shown(value) : value;
}

/** Whether a key has words at all, such as the label of a field that the schema has and the texts may not. */
export function has_text(key: TextKey): boolean {
  return (found(words.table, key) ?? found(english, key)) !== null;
}

/** Null where the page speaks the schema's own language, or the word is not translated yet. */
export function schema_words(kind: keyof SchemaTable, key: string): string | null {
  return words.schema?.[kind][key] ?? null;
}

/** A sentence of the program in the language of the page; as it came where its pattern is not known. */
export function said(english: string): string {
  return plain(told(english));
}

/** What an edit is called (edit_words.ts), in the language of the page. */
export function edit_said(english: string): string {
  return words.edits?.().said(english) ?? english;
}

/** Words, with their language where that is not the page's: whoever reads them out must know (WCAG 3.1.2). */
export interface Told {
  readonly words: string;
  readonly lang?: Language;
}
/** What is shown by `widgets/Words.svelte`: words of the page's language, or piece by piece. */
export type Telling = string | readonly Told[];

export function told(english: string): readonly Told[] {
  const found = words.sentences ? words.sentences.said(english) : english;
  return [found === null ? in_english(english) : { words: found }];
}

/** Words that the program has in English alone, such as the name of a material. */
export function in_english(english: string): Told {
  return language() === "en" || english === "" ? { words: english } : { words: english, lang: "en" };
}

/** A text of the page with what the program says among its words. */
export function told_text(key: TextKey, values: Record<string, Telling>): readonly Told[] {
  const parts = pattern_of(key)
    .split(/(\{\w+\})/)
    .filter((part) => part !== "");
  return parts.flatMap((part) => pieces_of(values[part.slice(1, -1)] ?? part));
}
function pieces_of(telling: Telling): readonly Told[] {
  return typeof telling === "string" ? [{ words: telling }] : telling;
}

/** Where no language can be told, such as in a label. */
export function plain(telling: Telling): string {
  return pieces_of(telling)
    .map((piece) => piece.words)
    .join("");
}

/** An object of the document, by its list and name: the program writes `site.ways[0] "trench"`. */
export function said_place(english: string): string {
  if (words.sentences) return words.sentences.place(english) ?? english;
  const [, list = "", name = ""] = /^([\w.]+)\[\d+\] "(.*)"$/s.exec(english) ?? [];
  const key = `lists.${list.replaceAll(".", "_")}`;
  return has_text(key) ? `${text(key)}, "${name}"` : english;
}

/** A field of the document as the forms name it, `stream.codec` part by part; the program's own name in English. */
export function said_field(path: string): string {
  if (!words.sentences) return path;
  const name = (part: string): string => found(words.table, `fields.${part}`) ?? schema_words("names", part) ?? part;
  return path.replace(/[a-z]\w*/g, name).replaceAll(".", ", ");
}

/** What the program calls something after `names` that were given to things: those are left as they are. */
export function said_label(english: string, names: ReadonlySet<string>): string {
  return words.sentences?.label(english, names) ?? english;
}
