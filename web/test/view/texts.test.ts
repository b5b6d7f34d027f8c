// SPDX-License-Identifier: GPL-3.0-or-later
// Every text that a view asks for is there, in each language, with the same values to fill in; and none is left over.
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import german from "../../src/texts/de.json";
import english from "../../src/texts/en.json";

type Table = { readonly [key: string]: string | Table };
function flat(table: Table, before = ""): Map<string, string> {
  const found = new Map<string, string>();
  for (const [key, value] of Object.entries(table)) {
    if (typeof value === "string") found.set(before + key, value);
    else for (const [inner, words] of flat(value, `${before}${key}.`)) found.set(inner, words);
  }
  return found;
}
const root = new URL("../../src/", import.meta.url);
const sources = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((path) => /\.(ts|svelte)$/.test(path))
  .map((path) => readFileSync(new URL(path, root), "utf8"));
const literal = new Set(
  sources.flatMap((source) => [...source.matchAll(/"(views\.[a-z0-9_.]+)"/g)].map((hit) => hit[1] ?? "")),
);
const patterns = [
  ...new Set(sources.flatMap((source) => [...source.matchAll(/`(views\.[^`]*)`/g)].map((hit) => hit[1] ?? ""))),
].map(
  (pattern) =>
    new RegExp(
      `^${pattern
        .replace(/\$\{[^}]*\}+/g, "\u0000")
        .replaceAll(".", "\\.")
        .replaceAll("\u0000", "[a-z0-9_]+")}$`,
    ),
);
const of_views = (table: Table): Map<string, string> =>
  new Map([...flat(table)].filter(([key]) => key.startsWith("views.")));
const texts = { english: of_views(english), german: of_views(german) };
const filled_in = (words: string): string[] => [...words.matchAll(/\{(\w+)\}/g)].map((hit) => hit[1] ?? "").toSorted();

describe("texts of the views", () => {
  it("are all there", () => {
    expect([...literal].filter((key) => !texts.english.has(key))).toEqual([]);
    for (const pattern of patterns)
      expect(
        [...texts.english.keys()].some((key) => pattern.test(key)),
        String(pattern),
      ).toBe(true);
  });
  it("are all used", () => {
    const used = (key: string): boolean => literal.has(key) || patterns.some((pattern) => pattern.test(key));
    expect([...texts.english.keys()].filter((key) => !used(key))).toEqual([]);
  });
  it("are the same in both languages but for their words", () => {
    expect([...texts.german.keys()]).toEqual([...texts.english.keys()]);
    for (const [key, words] of texts.english)
      expect(filled_in(texts.german.get(key) ?? ""), key).toEqual(filled_in(words));
  });
});
