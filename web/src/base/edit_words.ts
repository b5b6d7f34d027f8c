// SPDX-License-Identifier: GPL-3.0-or-later
// What an edit is called. The words stay in the history and go to every page, so they are English like all that goes over
// the wire; each page tells them in its own language (`edit_said`) by patterns, which are made of its texts.
//   Checked  test/base/edit_words.test.ts
import english_words from "../texts/en.json";
import { filled } from "./filled";
import type { Patterns } from "./sentences";
import { found, keys_of, type Table } from "./table";

const english: Table = english_words;

/** `values`: names as they are; what is said in words of its own in English. */
export function edit_words(key: string, values: Readonly<Record<string, string | number>> = {}): string {
  return filled(english_text(`edits.${key}`), values);
}

export function english_text(key: string): string {
  return found(english, key) ?? key;
}

/** What a field is called in English, where no place is told. */
export function english_label(name: string): string {
  return found(english, `fields.${name}`) ?? plain_words(name);
}

/** `slowest_shutter_s` in words, where the texts have none: slowest shutter. */
export function plain_words(name: string): string {
  return name
    .replace(/_(m|deg|mm|s|m_s|hz|w|v|ah|h|d|n|tb|gb|ms|mbps|db|px|nm|um|e|kg|c|kbps|w_sr|lux)$/, "")
    .replaceAll("_", " ");
}

/** What a name in an edit's words stands for: a thing, how many, what a remedy does. */
const kHoles: Readonly<Record<string, string>> = { what: "~what", remedy: "~remedy", count: "#count" };

/** What edits are called, as patterns of sentences. */
export function edit_patterns(other: Table): Patterns {
  const pattern = (words: string): string =>
    words.replace(/\{(\w+)\}/g, (_, name: string) => `{${kHoles[name] ?? name}}`);
  const pairs = keys_of(english, "edits").map((key): [string, string] => {
    const words = english_text(`edits.${key}`);
    return [pattern(words), found(other, `edits.${key}`) ?? words];
  });
  return Object.fromEntries(pairs);
}

/** What stands in them: things that are drawn, and values that are assumed, by the names of their fields. */
export function edit_parts(other: Table, names: Readonly<Record<string, string>>): Patterns {
  const fields = Object.entries(names).map(([name, said]) => [
    english_label(name),
    found(other, `fields.${name}`) ?? said,
  ]);
  const tools = keys_of(english, "tools").map((tool) => [
    english_text(`tools.${tool}.called`),
    found(other, `tools.${tool}.called`) ?? english_text(`tools.${tool}.called`),
  ]);
  return Object.fromEntries([...fields, ...tools]) as Patterns;
}
