// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { pieces_of, Sentences } from "../../src/base/sentences";

const strung = { "{~one}; {~other}": "{one}; {other}" };
const of = (sentences: Record<string, string>, parts: Record<string, string> = {}): Sentences =>
  new Sentences({ strung, sentences, parts, labels: {}, places: {} });

describe("a sentence said in another language", () => {
  it("keeps the names it holds, whatever stands in them", () => {
    const table = of({
      'looks into "{window}" at {#density} px/m: turn it': "sieht mit {density} px/m in „{window}“: drehen",
    });
    for (const name of [
      "a.*b(c)[d]{e}\\f^g$|h?",
      'the "red" door',
      "кухня 台所 مطبخ",
      '" at 3 px/m: turn it',
      "{density}",
      "<script>alert(1)</script>",
      " ",
    ])
      expect(table.said(`looks into "${name}" at 13 px/m: turn it`)).toBe(`sieht mit 13 px/m in „${name}“: drehen`);
  });
  it("that fits nothing is not guessed at", () => {
    const table = of({ "focus at {#length} m": "auf {length} m scharf stellen" });
    for (const other of ["", "focus at m", "focus at 3 m now", "Focus at 3 m", "focus at three m"])
      expect(table.said(other)).toBeNull();
  });
  it("has its numbers as they came", () => {
    const table = of({ "{#low} to {#high} {unit}": "{low} bis {high} {unit}" });
    expect(table.said("-0.5 to +1.2e-05 px/m")).toBe("-0.5 bis +1.2e-05 px/m");
    expect(table.said("1.2.3 to 4 m")).toBeNull();
    expect(table.said("12 m to 4 m")).toBeNull();
  });
  it("has its numbers as the other language writes them, and names as they came", () => {
    const table = new Sentences(
      {
        strung,
        sentences: { '"{name}" gives {#low} to {#high} V': "„{name}“ gibt {low} bis {high} V" },
        parts: {},
        labels: {},
        places: {},
      },
      {},
      (english) => english.replace(".", ","),
    );
    expect(table.said('"pole 1.5" gives -0.50 to 1.2e-05 V')).toBe("„pole 1.5“ gibt -0,50 bis 1,2e-05 V");
  });
  it("is said by the pattern that tells most of it, in whatever order the file has them", () => {
    const entries = Object.entries({
      "use {sheet}": "{sheet} nehmen",
      "use {sheet} (price {#price})": "{sheet} nehmen (Preis {price})",
      "use {sheet} at {#focal} mm (price {#price})": "{sheet} bei {focal} mm nehmen (Preis {price})",
    });
    for (const all of [entries, entries.toReversed()]) {
      const table = of(Object.fromEntries(all));
      expect(table.said("use Elm at 4 mm (price 9)")).toBe("Elm bei 4 mm nehmen (Preis 9)");
      expect(table.said("use Elm at home (price 9)")).toBe("Elm at home nehmen (Preis 9)");
      expect(table.said("use Elm (price low)")).toBe("Elm (price low) nehmen");
    }
  });
  it("may hold a sentence, and that one another", () => {
    const table = of(
      { "{camera}: {~change}": "{camera}: {change}", "nothing feeds it": "nichts speist sie" },
      { "focus at {~length}": "auf {length} scharf stellen", "{#metres} m": "{metres} m", infinity: "unendlich" },
    );
    expect(table.said("yard: focus at infinity")).toBe("yard: auf unendlich scharf stellen");
    expect(table.said("yard: focus at 3.5 m")).toBe("yard: auf 3.5 m scharf stellen");
    expect(table.said("yard: nothing feeds it")).toBe("yard: nichts speist sie");
    expect(table.said("focus at infinity")).toBeNull();
  });
  it("is left whole where a part of it is not known", () => {
    const table = of({ "it rains": "es regnet" });
    expect(table.said("it rains; it rains; it rains")).toBe("es regnet; es regnet; es regnet");
    expect(table.said("it rains; it hails")).toBeNull();
  });
  it("is cut where its parts can be said, not within a name", () => {
    const table = of(
      { "use {~cable}": "{cable} nehmen", "lies in the sun": "liegt in der Sonne" },
      { '"{name}"': "„{name}“" },
    );
    expect(table.said('use "red; lies in the sun"; lies in the sun')).toBe(
      "„red; lies in the sun“ nehmen; liegt in der Sonne",
    );
    expect(table.said('lies in the sun; use "a"; "b"')).toBe('liegt in der Sonne; „a"; "b“ nehmen');
  });
  it("takes no long time over a name made to confuse it", () => {
    const table = of({
      "{a}, {b}, {c}, {d}, {e}: {#number}": "{a} {b} {c} {d} {e} {number}",
    });
    // One that tries every way to part it takes years, not seconds: the test's own time limit tells.
    expect(table.said(", ; ".repeat(100))).toBeNull();
  }, 60_000);
});

describe("a label made of names", () => {
  const table = new Sentences({
    strung: {},
    sentences: {},
    parts: {},
    labels: { "{@to} at {@feed}": "{to} an {feed}" },
    places: {},
  });
  it("is said where both are names that were given", () => {
    expect(table.label("gate at switch", new Set(["gate", "switch"]))).toBe("gate an switch");
    expect(table.label("gate at noon at switch", new Set(["gate at noon", "switch"]))).toBe("gate at noon an switch");
  });
  it("is left alone where it is one name, or no name is known", () => {
    expect(table.label("gate at switch", new Set(["gate at switch", "gate", "switch"]))).toBeNull();
    expect(table.label("gate at switch", new Set(["gate"]))).toBeNull();
  });
});

it("a pattern is cut at its holes, and braces that are none stay", () => {
  expect(pieces_of("an object {...} of {#count} {~items}")).toEqual([
    { literal: "an object {...} of " },
    { hole: "number", key: "count" },
    { literal: " " },
    { hole: "said", key: "items" },
  ]);
});
