import { readFileSync, readdirSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { edit_words, english_label, english_text } from "../../src/base/edit_words";
import { edit_said, speak } from "../../src/base/text.svelte";

const draw = (tool: string): string => edit_words("draw", { what: english_text(`tools.${tool}.called`) });

describe("what edits are called", () => {
  beforeAll(() => speak("de"));
  afterAll(() => speak("en"));

  it("stays English, whatever the page speaks", async () => {
    expect(draw("building")).toBe("draw building");
    await speak("en");
    expect(edit_said(draw("building"))).toBe("draw building");
    await speak("de");
  });
  it("is told in the language of the page, which may be another than when it was made", () => {
    expect(edit_said(draw("building"))).toBe("Gebäude zeichnen");
    expect(edit_said(edit_words("move", { what: '"gate pole"' }))).toBe("„gate pole“ verschieben");
    expect(edit_said(edit_words("remove", { what: edit_words("several", { count: 1200 }) }))).toBe(
      "1200 Dinge entfernen",
    );
    expect(edit_said(edit_words("run", { from: "switch", to: "gate" }))).toBe(
      "ein Kabel von „switch“ zu „gate“ führen",
    );
    expect(edit_said(edit_words("import_terrain", { name: "hill.tif" }))).toBe("Gelände aus hill.tif");
    expect(edit_said("changed outside")).toBe("außerhalb geändert");
  });
  it("names what is assumed as the forms do", () => {
    const german = JSON.parse(readFileSync(new URL("../../src/texts/de_fields.json", import.meta.url), "utf8")) as {
      names: Record<string, string>;
    };
    const [field, own] = Object.entries(german.names).find(([name]) => name.startsWith("peukert"))!;
    expect(edit_said(edit_words("typical", { what: english_label(field) }))).toBe(`anders annehmen: ${own}`);
  });
  it("tells a remedy as the margin does", () => {
    // Of schema/examples/answers/check.json.
    expect(edit_said(edit_words("remedy", { remedy: "yard: move the mount up to 6.4 m above ground" }))).toBe(
      "ausprobieren: yard: die Befestigung auf 6,4 m über dem Boden hinaufsetzen",
    );
  });
  it("is left as it came where it fits no pattern", () => {
    expect(edit_said("„Tor“ verschieben")).toBe("„Tor“ verschieben");
  });
  it("is nowhere kept in the language of the page", () => {
    const source = new URL("../../src/", import.meta.url);
    const kept = readdirSync(source, { recursive: true, encoding: "utf8" })
      .filter((file) => /\.(svelte|ts)$/.test(file))
      .filter((file) =>
        /\b(edit|edit_or_why|settle|draw_way)\(\s*text\(/.test(readFileSync(new URL(file, source), "utf8")),
      );
    expect(kept).toEqual([]);
  });
});
