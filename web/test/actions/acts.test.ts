import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Act } from "../../src/actions/acts";
import { key_of } from "../../src/actions/acts";
import { found } from "../../src/base/table";

let acts: readonly Act[] = [];
beforeAll(async () => {
  await import("../../src/actions/all");
  acts = (await import("../../src/actions/acts")).all_acts();
});
const texts = (file: string): never =>
  JSON.parse(readFileSync(new URL(`../../src/texts/${file}.json`, import.meta.url), "utf8")) as never;

describe("acts", () => {
  it("each has words in both languages", () => {
    expect(acts.length).toBeGreaterThan(40);
    for (const language of ["en", "de"]) {
      const table = texts(language);
      expect(acts.filter((act) => found(table, `acts.${act.id}`) === null).map((act) => act.id)).toEqual([]);
    }
  });
  it("each has a key", () => {
    expect(acts.filter((act) => act.keys.length === 0).map((act) => act.id)).toEqual([]);
  });
  it("keys are written as the keyboard gives them", () => {
    const key = (init: object): string =>
      key_of({ ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...init } as KeyboardEvent);
    expect(key({ key: "Z", ctrlKey: true, shiftKey: true })).toBe("Ctrl+Shift+z");
    expect(key({ key: "z", metaKey: true })).toBe("Ctrl+z");
    expect(key({ key: "?", shiftKey: true })).toBe("?");
    expect(key({ key: " " })).toBe("Space");
    expect(key({ key: "ArrowUp", shiftKey: true })).toBe("Shift+ArrowUp");
    expect(key({ key: "L", shiftKey: true })).toBe("Shift+l");
  });
});
