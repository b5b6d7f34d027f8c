// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences of the program said in another language. They come over the wire in English, filled in already; a table gives
// each sentence's pattern and the same pattern in the other language. What fits no pattern is not guessed at.
//   Pattern  `{what}` stands for words that are kept as they are, such as a name somebody gave; `{#what}` for a number,
//            which is written as the other language does; `{~what}` for something that is said by a pattern of its own;
//            `{@what}` for one of the names given along. The other language has `{what}` for each.
//   Choice   sentences strung together are parted first; then the pattern with the most letters of its own wins; where a
//            name holds a pattern's words, the shortest name that lets the whole fit
//   Checked  test/base/sentences.test.ts
import { filled } from "./filled";

export interface SentenceTable {
  /** How whole sentences are strung together: each of them must be one. */
  readonly strung: Patterns;
  /** What is said for itself. */
  readonly sentences: Patterns;
  /** What is said within another sentence only. */
  readonly parts: Patterns;
  /** What things are called after the names that they were given. */
  readonly labels: Patterns;
  /** Where in the document something is, such as `cameras[1] "yard"`. */
  readonly places: Patterns;
}
export type Patterns = Readonly<Record<string, string>>;

type Hole = "words" | "number" | "said" | "name";
type Piece = { readonly literal: string } | { readonly hole: Hole; readonly key: string };
interface Pattern {
  readonly pieces: readonly Piece[];
  readonly other: string;
  /** Letters of its own, then holes that must be said: what is told more closely is tried first. */
  readonly weight: number;
}

const kHoles: Readonly<Record<string, Hole>> = { "#": "number", "~": "said", "@": "name", "": "words" };
const kNumber = /[+-]?(?:\d+(?:\.\d+)?(?:e[+-]?\d+)?|inf|nan)/y;
const kMostKept = 2000;

/** A pattern cut at its holes. */
export function pieces_of(pattern: string): Piece[] {
  return pattern
    .split(/(\{[#~@]?\w+\})/)
    .filter((part) => part !== "")
    .map((part) => {
      const hole = /^\{([#~@]?)(\w+)\}$/.exec(part);
      return hole ? { hole: kHoles[hole[1] ?? ""] ?? "words", key: hole[2] ?? "" } : { literal: part };
    });
}

function patterns_of(...tables: readonly Patterns[]): Pattern[] {
  const all = tables.flatMap((table) => Object.entries(table)).filter(([pattern]) => pattern.includes("{"));
  const patterns = all.map(([pattern, other]) => {
    const pieces = pieces_of(pattern);
    const weights = pieces.map((piece) =>
      "literal" in piece ? 100 * piece.literal.length : piece.hole === "said" ? 1 : 0,
    );
    return { pieces, other, weight: weights.reduce((sum, each) => sum + each, 0) };
  });
  return patterns.sort((a, b) => b.weight - a.weight);
}

type Say = (english: string) => string | null;
const kNoNames: ReadonlySet<string> = new Set();

export class Sentences {
  private readonly labels: readonly Pattern[];
  private readonly places: readonly Pattern[];
  private readonly exact_places: ReadonlyMap<string, string>;
  private readonly part: Say;
  private readonly whole: Say;

  /** `more`: parts that stand in another table, without holes. `digits`: a number as the other language writes it. */
  constructor(
    table: SentenceTable,
    more: Patterns = {},
    private readonly digits = (english: string): string => english,
  ) {
    const strung = patterns_of(table.strung);
    const sentences = patterns_of(table.sentences);
    const parts = patterns_of(table.sentences, table.parts);
    const exact = new Map(Object.entries(table.sentences));
    const exact_parts = new Map([...Object.entries(more), ...Object.entries(table.parts), ...exact]);
    this.part = kept((english) => exact_parts.get(english) ?? this.fitting(english, parts, this.part));
    this.whole = kept(
      (english) =>
        exact.get(english) ?? this.fitting(english, strung, this.whole) ?? this.fitting(english, sentences, this.part),
    );
    this.labels = patterns_of(table.labels);
    this.places = patterns_of(table.places);
    this.exact_places = new Map(Object.entries(table.places));
  }

  /** Null where no pattern fits. */
  said(english: string): string | null {
    return this.whole(english);
  }

  place(english: string): string | null {
    return this.exact_places.get(english) ?? this.fitting(english, this.places, this.part);
  }

  /** A label made of names that things were given; null where it is a name alone, or no pattern fits. */
  label(english: string, names: ReadonlySet<string>): string | null {
    return names.has(english) ? null : this.fitting(english, this.labels, this.part, names);
  }

  private fitting(english: string, patterns: readonly Pattern[], said: Say, names = kNoNames): string | null {
    for (const pattern of patterns) {
      const values = new Fit(pattern.pieces, english, { said, names, digits: this.digits }).values();
      if (values) return filled(pattern.other, values);
    }
    return null;
  }
}

/** What was said is said again at once: the page asks for the same words at each turn. */
function kept(say: Say): Say {
  const known = new Map<string, string | null>();
  return (english) => {
    const before = known.get(english);
    if (before !== undefined) return before;
    const found = say(english);
    if (known.size >= kMostKept) known.clear();
    known.set(english, found);
    return found;
  };
}

/** What a hole may hold, and how it is told in the other language. */
interface Filling {
  readonly said: Say;
  readonly names: ReadonlySet<string>;
  readonly digits: (english: string) => string;
}

/** One pattern held against one text. Every place at which a hole may end is tried, each once. */
class Fit {
  private readonly failed = new Set<number>();
  private readonly found: Record<string, string> = {};

  constructor(
    private readonly pieces: readonly Piece[],
    private readonly text: string,
    private readonly fill: Filling,
  ) {}

  values(): Record<string, string> | null {
    return this.from(0, 0) ? this.found : null;
  }

  private from(piece: number, at: number): boolean {
    const here = this.pieces[piece];
    if (!here) return at === this.text.length;
    const key = at * this.pieces.length + piece;
    if (this.failed.has(key)) return false;
    const fits =
      "literal" in here
        ? this.text.startsWith(here.literal, at) && this.from(piece + 1, at + here.literal.length)
        : this.ends(here.hole, piece, at).some((end) => this.takes(here.hole, here.key, piece, at, end));
    if (!fits) this.failed.add(key);
    return fits;
  }

  /** Where a hole may end: before the words that follow it. */
  private ends(hole: Hole, piece: number, at: number): number[] {
    if (hole === "number") {
      kNumber.lastIndex = at;
      return kNumber.test(this.text) ? [kNumber.lastIndex] : [];
    }
    const next = this.pieces[piece + 1];
    if (!next || !("literal" in next)) return at < this.text.length ? [this.text.length] : [];
    const ends: number[] = [];
    for (let end = this.text.indexOf(next.literal, at + 1); end > 0; end = this.text.indexOf(next.literal, end + 1))
      ends.push(end);
    return ends;
  }

  /** What follows is held against the text first: saying a part costs more. */
  private takes(hole: Hole, key: string, piece: number, at: number, end: number): boolean {
    const words = this.text.slice(at, end);
    if (hole === "name" && !this.fill.names.has(words)) return false;
    if (!this.from(piece + 1, end)) return false;
    const told = hole === "said" ? this.fill.said(words) : hole === "number" ? this.fill.digits(words) : words;
    if (told === null) return false;
    this.found[key] = told;
    return true;
  }
}
