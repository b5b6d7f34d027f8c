// SPDX-License-Identifier: GPL-3.0-or-later
import { readFileSync } from "node:fs";
import { afterAll, expect, it } from "vitest";
import { speak } from "../../src/base/text.svelte";
import { choice_told, unset_of } from "../../src/widgets/field_label";
import { fields_at, type Field } from "../../src/widgets/fields";

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

it("an empty field says what stands for it, as far as the schema does", async () => {
  const schema = JSON.parse(
    readFileSync(new URL("../../../schema/project.schema.json", import.meta.url), "utf8"),
  ) as never;
  const unset = (list: string, name: string, kind: string | null = null) =>
    unset_of(fields_at(schema, list, kind).find((each) => each.name === name)!);
  const all = () => [
    unset("cameras", "focal_mm"),
    unset("cameras", "largest_gain_db"),
    unset("cameras", "focus_m"),
    unset("conditions", "lamps"),
    unset("site/mounts", "held_by"),
    unset("site/lamps", "beam_deg"),
    unset("needs", "detector_height_px"),
  ];
  await speak("en");
  expect(all()).toEqual([
    "the sheet's shortest",
    "the sheet's, else the usual one",
    "estimated",
    'each as its "burns" says',
    "a pole, else the larger pull of both",
    "a matt surface's",
    "as usual",
  ]);
  await speak("de");
  expect(all()).toEqual([
    "die kürzeste des Datenblatts",
    "die des Datenblatts, sonst die übliche",
    "geschätzt",
    "jede, wie es bei ihr steht",
    "ein Mast, sonst der größere Zug von beiden",
    "die einer matten Fläche",
    "wie üblich",
  ]);
});
