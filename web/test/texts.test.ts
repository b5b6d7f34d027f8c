import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { filled } from "../src/base/filled";
import { found } from "../src/base/table";

type Table = { [key: string]: string | Table };
const folder = new URL("../src/texts/", import.meta.url);
const read = (language: string): Table =>
  JSON.parse(readFileSync(new URL(`${language}.json`, folder), "utf8")) as Table;
const english = read("en");
const german = read("de");

function keys(table: Table, before = ""): string[] {
  return Object.entries(table).flatMap(([key, each]) =>
    typeof each === "string" ? [before + key] : keys(each, `${before}${key}.`),
  );
}
const holes = (words: string): string[] => (words.match(/\{\w+\}/g) ?? []).sort();

describe("texts", () => {
  it("both languages say the same things", () => {
    expect(keys(german).sort()).toEqual(keys(english).sort());
  });
  it("and fill in the same", () => {
    const unlike = keys(english).filter(
      (key) => holes(found(english, key)!).join() !== holes(found(german, key) ?? "").join(),
    );
    expect(unlike).toEqual([]);
  });
  it("every key that the source names has words", () => {
    const source = new URL("../src/", import.meta.url);
    const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((file) =>
      /\.(svelte|ts)$/.test(file),
    );
    const named = files.flatMap((file) =>
      [...readFileSync(new URL(file, source), "utf8").matchAll(/\b(text|edit_words)\("([\w.]+)"/g)].map(
        ([, by, key]) => (by === "edit_words" ? "edits." : "") + key!,
      ),
    );
    expect(named.length).toBeGreaterThan(50);
    expect([...new Set(named)].filter((key) => found(english, key) === null)).toEqual([]);
  });
  it("a value may hold anything, braces too", () => {
    expect(filled("{a} and {b}", { a: "{b}", b: "<i>" })).toBe("{b} and <i>");
  });
});
