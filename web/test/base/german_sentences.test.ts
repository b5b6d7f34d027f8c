// SPDX-License-Identifier: GPL-3.0-or-later
// The program's sentences have their German: those of the golden answers and errors, those in the sources that a page is
// told, those of the usual values. None is left over that the program no longer says.
import { readFileSync, readdirSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pieces_of, Sentences } from "../../src/base/sentences";
import { plain, said, said_field, said_label, speak, told, told_text } from "../../src/base/text.svelte";
import fields from "../../src/texts/de_fields.json";
import words from "../../src/texts/de.json";
import german from "../../src/texts/de_sentences.json";
import { in_words } from "../../src/wire/ask";

const root = new URL("../../../", import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), "utf8");
const files_in = (folder: string, ending: string): string[] =>
  readdirSync(new URL(folder, root))
    .filter((file) => file.endsWith(ending))
    .map((file) => `${folder}/${file}`);
const sentences = new Sentences(german, { ...fields.meanings, ...words.levels });
const patterns = Object.values(german).flatMap((table) => Object.entries(table));
const english = patterns.map(([pattern]) => pattern).filter((pattern) => !(pattern in german.places));
const not_said = (texts: Iterable<string>): string[] =>
  [...new Set(texts)].filter((text) => sentences.said(text) === null);

describe("a pattern", () => {
  const holes = (pattern: string): string[] =>
    pieces_of(pattern).flatMap((piece) => ("hole" in piece ? [piece.key] : []));
  it("has the same holes in both languages; a thing's number in its list is left out beside its name", () => {
    const kept = (pattern: string): string => {
      const keys = holes(pattern);
      return keys
        .filter((key) => key !== "index" || !keys.includes("name"))
        .sort()
        .join();
    };
    expect(patterns.filter(([pattern, other]) => kept(pattern) !== kept(other))).toEqual([]);
    const signed = patterns.filter(([, other]) => /\{[#~@]\w+\}/.test(other));
    expect(signed).toEqual([]);
  });
  it("has words between its holes, and each hole once", () => {
    const wrong = english.filter((pattern) => {
      const pieces = pieces_of(pattern);
      const meet = pieces.some((piece, i) => "hole" in piece && "hole" in (pieces[i + 1] ?? { literal: "" }));
      return meet || new Set(holes(pattern)).size < holes(pattern).length;
    });
    expect(wrong).toEqual([]);
  });
});

/** Texts of an answer by their paths, such as `.needs[].settle`. */
function texts_in(value: unknown, path = ""): { path: string; text: string }[] {
  if (typeof value === "string") return [{ path, text: value }];
  if (Array.isArray(value)) return value.flatMap((each) => texts_in(each, `${path}[]`));
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => texts_in(each, `${path}.${key}`));
}

describe("what golden answers say", () => {
  const kSaid =
    /^(\.answer)?(\.light|\.(cautions|errors)\[\]\.text|\.cautions\[\]|\.claims\[\]\.(claim|stated|computed|assumption)|\.needs\[\]\.(settle|remedy\.text)|\.loads\[\]\.(text|remedy)|\.assumptions\[\]\.(what|settle))$|^\.(files\[\]\.what|told\[\]|words)$|\.remedy$|\.flags\[\]$/;
  /** Words at other places, and why they stay as they are. */
  const kKept = [
    /\b(name|about|project|camera|sheet|mount|set|route|cable)$/, // given by a person, or of the catalogue
    /\.changes\[\]\.at\[\]$|\.conflicts\[\]\.at\[\]$|\.spoils\[\]$/, // names of things
    /\blimit$|\.lights\[\]$|\.materials\[\]$/, // words that the page has by themselves (texts, "views.limit")
    /^\.(undo|redo)$|^\.edits\[\]\.words$/, // of an edit, as the page that made it called it
    /\.type$|\.supply$/, // a file's type; the sheet's own words
    /\.light\[\]\.from$/, // a kind of light, which no page shows
    /\.rule$|\.access\[\]$|\.first_to_fail$/, // of `loads`, which the page is not told
    /\.object$/, // tried below
  ];
  /** Of `loads` and `walk` the page asks nothing; remedies and flags are those that the check's answer tells. */
  const kNotAsked = /^\.(power|cable|network|storage|mount|overlook)\.cautions\[\]\.text$|^\.assumptions\[\]/;
  const kRequests = /edits_request|event_edit|yard\.sightfall/;
  const answers = [...files_in("schema/examples/answers", ".json"), ...files_in("schema/examples/wire", ".json")]
    .filter((file) => !kRequests.test(file))
    .flatMap((file) => texts_in(JSON.parse(read(file))).map((each) => ({ ...each, file })))
    .filter(({ file, path }) => !(file.endsWith("/loads.json") && kNotAsked.test(path)))
    // of where cables lie the page shows the lines and lengths
    .filter(({ file, path }) => !(file.endsWith("/answer_cables.json") && path === ".cautions[].text"));

  it("is said in German", () => {
    const told = answers.filter(({ path, text }) => kSaid.test(path) && text !== "");
    expect(told.length).toBeGreaterThan(30);
    expect(not_said(told.map(({ text }) => text))).toEqual([]);
  });
  it("stands where it is known to stand", () => {
    const worded = answers.filter(({ text }) => /\p{L}+ \p{L}+/u.test(text));
    const unknown = worded.filter(({ path }) => !kSaid.test(path) && !kKept.some((kept) => kept.test(path)));
    expect(unknown).toEqual([]);
  });
});

/** Literals of the C++ statements that hold `wanted`, those side by side joined, cut at what is filled in. */
function literals_of(source: string, wanted = /./): string[] {
  const code = source.replace(/^\s*#include.*$/gm, "").replace(/'(\\.|[^'\\\n])'/g, " ");
  const kToken = /R"\(([\s\S]*?)\)"|"((?:[^"\\\n]|\\.)*)"|\/\/.*|(\S)/g;
  const all: string[] = [];
  let [statement, open, joined] = ["", false, [] as string[]];
  for (const [, raw, plain, other] of code.matchAll(kToken)) {
    const words = raw ?? plain?.replace(/\\(["\\])/g, "$1");
    if (words !== undefined) joined.push((open ? (joined.pop() ?? "") : "") + words);
    if (words !== undefined || other !== undefined) open = words !== undefined;
    statement += other ?? "";
    if (other !== ";") continue;
    if (wanted.test(statement)) all.push(...joined);
    [statement, joined] = ["", []];
  }
  const kOpen = "\u0001";
  return all.flatMap((literal) =>
    literal
      .replaceAll("{{", kOpen)
      .split(/\{[^{}]*\}/)
      .map((piece) => piece.replaceAll(kOpen, "{").replaceAll("}}", "}")),
  );
}

describe("what the sources say", () => {
  const kWhole = /./;
  const kMends = /remedy|mismatch|\bdepth\b|\bmore\b/;
  const kRefuses = /refused|failure|error/;
  const kTold: readonly [RegExp, RegExp][] = [
    [/^need\/(cautions|lamp_cautions|sun_hours|changes|station|station_light|remedy)\./, kWhole],
    [/^card\/(card|claims|night_claims)\./, kWhole],
    [/^loads\/(asks|run_rules)\./, kWhole],
    [/^loads\/(power\w*|network|storage|mounting|cabling)\./, kMends],
    [/^loads\/power_ports\./, /\breturn/],
    [/^papers\/(papers|addresses)\./, kWhole],
    [/^import\/summary\./, kWhole],
    [/^file\/(rules\w*|project|shape|reader|words|clock)\./, kWhole],
    [/^serve\/(desk|guard|plan_upload|site_folder|open_site)\./, kWhole],
    [/^serve\/answer_\w+\./, kRefuses],
  ];
  /** What no page is told, or nobody who uses one as it is meant. */
  const kNotTold = [
    /^this kind has no longest length|^length beside the longest of/, // rules of `loads`
    /^found (another host|a page of another site|a WebSocket without Origin|no word of the page's own)/, // to a stranger
    /^default-src/,
    /^(a|or a) switch on the way|where both buildings share one earth$|^where each has an earth of its own/, // what would do as well: `loads` and papers alone
    /^it says no more$/, // in place of another program's words
    /^(dark night|gate pole)$/, // names
  ];
  const sources = readdirSync(new URL("src", root), { recursive: true, encoding: "utf8" }).filter(
    (file) => /\.(cpp|h)$/.test(file) && !file.includes("_test."),
  );
  const known = english.flatMap((pattern) =>
    pieces_of(pattern).map((piece) => ("literal" in piece ? piece.literal : "")),
  );
  const all = known.join("\n");
  /** As it stands in a pattern, or in two that are put together. */
  const is_known = (words: string): boolean =>
    all.includes(words) ||
    [...words].some((_, i) => i > 1 && all.includes(words.slice(0, i)) && all.includes(words.slice(i)));

  it("has its German where the page is told it", () => {
    const lacking = kTold.flatMap(([which, wanted]) =>
      sources
        .filter((file) => which.test(file) && file.endsWith(".cpp"))
        .flatMap((file) =>
          literals_of(read(`src/${file}`), wanted).map((words) => ({ file, words: words.replace(/^\W+|\W+$/g, "") })),
        )
        .filter(({ words }) => /[a-z]+ [a-z]+/.test(words) && !kNotTold.some((not) => not.test(words)))
        .filter(({ words }) => !is_known(words)),
    );
    expect(lacking).toEqual([]);
  });
  it("is what the German is of", () => {
    const told = sources.flatMap((file) => literals_of(read(`src/${file}`))).join("\n") + read("data/typical.json");
    const pairs = (words: string): string[] => {
      const each = words.match(/[\p{L}'-]+/gu) ?? [];
      return each.slice(1).map((word, i) => `${each[i]!} ${word}`);
    };
    const kOfLibrary = /^hole/; // geometry's own words for a flaw
    const said_somewhere = new Set(told.split("\n").flatMap(pairs));
    const stale = english.filter((pattern) => {
      const own = pieces_of(pattern).flatMap((piece) => ("literal" in piece ? pairs(piece.literal) : []));
      const found = own.filter((each) => said_somewhere.has(each)).length;
      return own.length > 1 && found < own.length / 2 && !kOfLibrary.test(pattern);
    });
    expect(stale).toEqual([]);
  });
});

describe("what the usual values say", () => {
  const usual = Object.values(JSON.parse(read("data/typical.json")) as Record<string, unknown>).filter(
    (entry): entry is { meaning: string; settle: string; unit: string } =>
      typeof entry === "object" && entry !== null && "settle" in entry,
  );
  it("is said in German, with what would settle it", () => {
    expect(usual.length).toBeGreaterThan(50);
    const told = usual.map(
      ({ meaning, settle, unit }) => `${meaning} (0.5 to 2${unit === "1" ? "" : ` ${unit}`}): ${settle}`,
    );
    expect(not_said(told)).toEqual([]);
    expect(not_said(usual.map(({ settle }) => settle))).toEqual([]);
  });
});

it("the errors of every bad document are said in German", () => {
  const lines = files_in("schema/examples/bad", ".txt").flatMap((file) =>
    read(file)
      .split("\n")
      .filter((line) => line !== ""),
  );
  expect(lines.length).toBeGreaterThan(200);
  // A line tells file, object and field before the words; a name may hold a colon, too.
  const is_said = (line: string): boolean =>
    [...line.matchAll(/: /g)].some((colon) => sentences.said(line.slice(colon.index + 2)) !== null);
  expect(lines.filter((line) => !is_said(line))).toEqual([]);
});

it("progress is told in German", () => {
  const told = readdirSync(new URL("src", root), { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".cpp") && !/_test\.|^cli/.test(file))
    .flatMap((file) => [
      ...read(`src/${file}`).matchAll(/progress_?\.tell\([^;"]*"([^"]+)"\)|for_each_need\("([^"]+)"/g),
    ])
    .map((match) => match[1] ?? match[2] ?? "");
  expect(told.length).toBeGreaterThan(8);
  expect(not_said(told)).toEqual([]);
});

describe("the page in German", () => {
  beforeAll(() => speak("de"));
  afterAll(() => speak("en"));

  it.each([
    [
      "drive: use Rowan long motor zoom 8 MP at 12.8 mm (price 540), turned to heading 124, tilt 8 degrees, focus at 23.2 m",
      "drive: Rowan long motor zoom 8 MP bei 12,8 mm nehmen (Preis 540), auf Richtung 124 Grad gedreht, Neigung 8 Grad, auf 23,2 m scharf gestellt",
    ],
    [
      'at least 106 m of 100 m: use "fibre, two multimode OM3, outdoor", which carries no power',
      "mindestens 106 m von 100 m: „fibre, two multimode OM3, outdoor“ nehmen, die keinen Strom trägt",
    ],
    [
      'leads in copper from "propagation shed" to "fuel store": protect both ends against surges, and ask an electrician whether each has an earth of its own',
      "führt in Kupfer von „propagation shed“ nach „fuel store“: beide Enden gegen Überspannung schützen und eine Elektrofachkraft fragen, ob jedes seine eigene Erdung hat",
    ],
    [
      "11.2 of 12.95 W, class 3; 11.8 (11.73 to 11.92) of 15.4 W at the port",
      "11,2 von 12,95 W, Klasse 3; 11,8 (11,73 bis 11,92) von 15,4 W am Anschluss",
    ],
    [
      "in clear weather the sun stands in the picture 241 h a year, March to September, 03:40 to 06:20 solar time; within 10 degrees of its edge 190 h a year, May, 05:20 to 07:00 solar time",
      "bei klarem Wetter steht die Sonne im Bild: 241 h im Jahr, März bis September, 03:40 bis 06:20 Sonnenzeit; höchstens 10 Grad neben seinem Rand: 190 h im Jahr, Mai, 05:20 bis 07:00 Sonnenzeit",
    ],
    [
      "gate: infrared intensity not stated, taken as 3 W/sr on the axis (2.1 to 3.8): 4.4 W drawn, 35 % of it radiated, half as strong 20 degrees off the axis",
      "gate: Stärke des Infrarots nicht angegeben, als 3 W/sr auf der Achse angenommen (2,1 bis 3,8): 4,4 W Verbrauch, 35 % davon abgestrahlt, halb so stark 20 Grad neben der Achse",
    ],
    [
      "found [1.5, 2], less than 0.01 m from the point before it; leave one of them out",
      "gefunden: [1,5; 2], weniger als 0,01 m vom Punkt davor; lassen Sie einen der beiden weg",
    ],
    [
      "found a flaw: self-intersection at (12.5, 7.25); allowed is an outline that does not cross or touch itself, with holes that lie inside it and apart from one another",
      "ein Mangel: kreuzt sich selbst bei (12,5; 7,25); erlaubt ist ein Umriss, der sich nicht kreuzt oder berührt, mit Löchern, die darin und getrennt voneinander liegen",
    ],
    [
      "a face there has 62 px/m (40 to 81): below overview",
      "ein Gesicht hat dort 62 px/m (40 bis 81): unter Übersicht",
    ],
    ["a face there has 62 px/m (40 to 81): the inner yard", "ein Gesicht hat dort 62 px/m (40 bis 81): the inner yard"],
    ["24.1 degrees or 26.3 degrees or 30 degrees", "24,1 Grad oder 26,3 Grad oder 30 Grad"],
  ])("says: %s", (told, wanted) => {
    expect(said(told)).toBe(wanted);
  });
  it("calls loads by their names", () => {
    const names = new Set(["car park", "shop switch", "C1", "shop, its pole", "gate at noon"]);
    expect(said_label("car park at shop switch port 5", names)).toBe("car park an shop switch, Anschluss 5");
    expect(said_label("C1 (shop switch to car park)", names)).toBe("C1 (shop switch zu car park)");
    expect(said_label("shop, its pole", names)).toBe("shop, its pole");
    expect(said_label("gate at noon", names)).toBe("gate at noon");
  });
  it("calls what is wrong by its place", () => {
    const wrong = {
      text: "found 400; allowed is a number from -360 to 360 deg",
      object: 'cameras[1] "lane"',
      field: "heading_deg",
    };
    expect(plain(in_words([wrong]))).toBe(
      "Kamera „lane“, Richtung: gefunden: 400; erlaubt: eine Zahl von -360 bis 360 Grad",
    );
    expect(said_field("stream.bit_rate_kbps")).toBe("Datenstrom, Datenrate");
    expect(said_field("of_no_form[2]")).toBe("of_no_form[2]");
  });
  it("shows what it does not know as it came, and says that it is English", () => {
    for (const other of ["a sentence of a newer program", "{~one}", "toString"]) {
      expect(said(other)).toBe(other);
      expect(told(other)).toEqual([{ words: other, lang: "en" }]);
    }
    expect(told("")).toEqual([{ words: "" }]);
    expect(told("ask the maker")).toEqual([{ words: "den Hersteller fragen" }]);
  });
  it("names the language of just what is English", () => {
    expect(told_text("views.margin.settle", { how: told("weigh it twice") })).toEqual([
      { words: "So wird es gewiss: " },
      { words: "weigh it twice", lang: "en" },
      { words: "." },
    ]);
    expect(in_words([{ text: "found a hole in it", object: 'cameras[1] "lane"' }])).toEqual([
      { words: "Kamera „lane“: " },
      { words: "found a hole in it", lang: "en" },
    ]);
  });
});

it("in English nothing is said otherwise", async () => {
  await speak("en");
  expect([said("judging needs"), said_field("heading_deg")]).toEqual(["judging needs", "heading_deg"]);
  expect(told("judging needs")).toEqual([{ words: "judging needs" }]);
});

it("in English what is wrong is called by its list on the page and its name", async () => {
  await speak("en");
  const wrong = { text: "found 2 of them", object: 'site.ways[0] "by the "barn""', field: "line" };
  expect(plain(in_words([wrong]))).toBe('Cable ways, "by the "barn"", line: found 2 of them');
  expect(plain(in_words([{ text: "missing", object: "site.anchor" }]))).toBe("site.anchor: missing");
  expect(plain(in_words([{ text: "missing", object: "cameras[3]" }]))).toBe("cameras[3]: missing");
});
