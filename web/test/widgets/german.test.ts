// SPDX-License-Identifier: GPL-3.0-or-later
// The forms speak German: each name, meaning and word of the schema that a form shows has one there, and none is left
// over. A meaning is translated by its English words, so that one that changes is asked for anew.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { found } from "../../src/base/table";
import english from "../../src/texts/en.json";
import german from "../../src/texts/de_fields.json";
import { kLists } from "../../src/wire/document";
import type { Field } from "../../src/widgets/fields";
import { fields_at, kinds_at } from "../../src/widgets/fields";

const read = (path: string): unknown => JSON.parse(readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8"));
const schema = read("schema/project.schema.json") as never;
const flat = (fields: readonly Field[]): Field[] => fields.flatMap((field) => [field, ...flat(field.fields)]);
const alone = ["site/anchor", "site/wind", "site/plan", "keeping", "settings"];
const lists = [...kLists, ...alone];
const kinds = lists.flatMap((list) => kinds_at(schema, list).map((each) => ({ list, kind: each.kind })));
const fields = flat([
  ...lists.flatMap((list) => fields_at(schema, list)),
  ...kinds.flatMap(({ list, kind }) => fields_at(schema, list, kind)),
  ...fields_at(schema, "site").filter((field) => field.name === "ground"),
]);
const in_texts = (name: string): boolean => found(english, `fields.${name}`) !== null;

const unlike = (wanted: Iterable<string>, there: object): { missing: string[]; stale: string[] } => {
  const all = new Set(wanted);
  const has = new Set(Object.keys(there));
  return { missing: [...all].filter((key) => !has.has(key)), stale: [...has].filter((key) => !all.has(key)) };
};
const none = { missing: [], stale: [] };

describe("the German of the forms", () => {
  it("has every name that the texts have not", () => {
    const names = fields.map((field) => field.name).filter((name) => !in_texts(name));
    expect(unlike(names, german.names)).toEqual(none);
  });
  it("has every meaning", () => {
    const meanings = fields.map((field) => field.meaning).filter((meaning) => meaning !== "");
    expect(unlike(meanings, german.meanings)).toEqual(none);
  });
  it("has every word to choose among, some told apart by where they stand", () => {
    const words = new Set([...fields.flatMap((field) => field.choices), ...kinds.map((each) => each.kind)]);
    const wheres = new Set<string>([...fields.map((field) => field.name), ...lists]);
    const apart = Object.keys(german.words).filter((key) => key.includes(":"));
    const led = apart.filter((key) => wheres.has(key.split(":")[0]!) && words.has(key.split(":")[1]!));
    expect(unlike([...words, ...led], german.words)).toEqual(none);
  });
});

it("materials have their German", () => {
  const names = JSON.stringify(read("data/materials.json")).match(/(?<="name":")[^"]+/g) ?? [];
  expect(names.length).toBeGreaterThan(10);
  expect(unlike(names, german.materials)).toEqual(none);
});

it("what is called otherwise where it stands is a field there", () => {
  const paths = new Set(fields.map((field) => field.path.replaceAll(".", "_")));
  expect(Object.keys(english.fields_at).filter((key) => !paths.has(key))).toEqual([]);
});

it("and what a field is called by its name is one, in both languages", () => {
  const names = new Set(fields.map((field) => field.name));
  expect(Object.keys(english.fields).filter((name) => !names.has(name))).toEqual([]);
});
