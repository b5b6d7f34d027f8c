// SPDX-License-Identifier: GPL-3.0-or-later
import { afterAll, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { choice_told } from "../../src/widgets/field_label";
import type { Field } from "../../src/widgets/fields";

afterAll(() => speak("en"));

const field = (path: string, choices: string[] = []): Field =>
  ({ name: path.split(".").at(-1)!, path, choices }) as unknown as Field;

it("what can be chosen is said in German, or names its language; names that were given have none", async () => {
  const both = () => [
    choice_told("conduit", field("site.ways.kind", ["conduit"])),
    choice_told("brick", field("site.solids.material")),
    choice_told("unobtainium", field("site.ground")),
    choice_told("Cat6 U/UTP, outdoor", field("site.runs.cable")),
    choice_told("brick", field("site.runs.from")),
  ];
  expect(both().map(({ lang }) => lang)).toEqual(Array(5).fill(undefined));
  await speak("de");
  expect(both()).toEqual([
    { words: "Rohr" },
    { words: "Ziegel" },
    { words: "unobtainium", lang: "en" },
    { words: "Cat6 U/UTP, outdoor", lang: "en" },
    { words: "brick" },
  ]);
});
