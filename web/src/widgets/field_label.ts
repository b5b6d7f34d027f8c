// SPDX-License-Identifier: GPL-3.0-or-later
// The words of a form's fields: of the schema, which is English, or of the language of the page.
import { plain_words } from "../base/edit_words";
import { has_text, in_english, schema_words, text, type Told } from "../base/text.svelte";
import type { Field } from "./fields";

/** What a field of the document is called on the page, by its name alone. */
export function field_label(name: string): string {
  if (has_text(`fields.${name}`)) return text(`fields.${name}`);
  return schema_words("names", name) ?? plain_words(name);
}

/** What a field is called where it stands: `turn_deg` of a plan is not that of the site. */
export function label_of(field: Field): string {
  const here = `fields_at.${field.path.replaceAll(".", "_")}`;
  return has_text(here) ? text(here) : field_label(field.name);
}

export function meaning_of(field: Field): string {
  return schema_words("meanings", field.meaning) ?? field.meaning;
}

/** What stands for a field that is left empty: the schema says it in a clause of the meaning. */
export function unset_of(field: Field): string {
  for (const clause of meaning_of(field).split("; ")) {
    const [, before, after] = kUnset.exec(clause) ?? [];
    const stands = before ?? after;
    if (stands) return stands.replace(/`(\w+)`/g, (_, name: string) => `"${field_label(name)}"`);
  }
  return text("form.unset");
}
const kUnset = /^(?:(.+?),? when absent|(?:when absent|ohne Angabe) (.+))/;

const kMaterials = new Set(["site.solids.material", "site.ground"]);
const kCables = "site.runs.cable";

/** What can be chosen: a word of the schema, a material, a kind of cable, or the name of an object, which is left alone. */
export function choice_told(name: string, field: Field): Told {
  if (field.choices.includes(name)) return { words: word_shown(name, field.name) };
  if (field.path === kCables) return in_english(name);
  const material = kMaterials.has(field.path) ? schema_words("materials", name) : name;
  return material === null ? in_english(name) : { words: material };
}

/** A word that the document knows as a choice; `where`, a field or a list, tells apart what one word says in two. */
export function word_shown(word: string, where: string): string {
  return schema_words("words", `${where}:${word}`) ?? schema_words("words", word) ?? word;
}
