// SPDX-License-Identifier: GPL-3.0-or-later
// What the server answers (docs/wire.md; the shapes are held by schema/wire.schema.json and schema/*_answer.schema.json).
import type { SitePoint } from "../base/plane";
import type { CameraSheet, Condition, ProjectDocument } from "./document";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json | undefined };

/** One object put in, altered or taken out. `was` null: new; `now` null: gone. */
export interface Change {
  readonly at: readonly string[];
  readonly was: unknown;
  readonly now: unknown;
  readonly index?: number;
}
export interface Conflict {
  readonly at: readonly string[];
  readonly was: unknown;
  readonly now: unknown;
  readonly found: unknown;
}
export interface Start {
  readonly open: boolean;
  readonly folder: string;
  readonly documents: readonly { readonly file: string; readonly name: string }[];
  readonly version: string;
}
export interface SiteAnswer {
  readonly revision: number;
  readonly file: string;
  readonly document: ProjectDocument;
  readonly undo: string | null;
  readonly redo: string | null;
}
export interface EditAnswer {
  readonly revision: number;
  readonly undo: string | null;
  readonly redo: string | null;
  readonly changes: readonly Change[];
}
/** told: what was done, line by line, in the program's words. */
export type ImportAnswer = EditAnswer & { readonly told: readonly string[] };
/** Of status 409. changes: all of them, as told for a site on which nothing stands. */
export interface ImportConflicts {
  readonly conflicts: readonly Conflict[];
  readonly changes: readonly Change[];
  readonly told: readonly string[];
}
/** content: base64. */
export interface Paper {
  readonly file: string;
  readonly what: string;
  readonly type: string;
  readonly content: string;
}
/** without_shape: texts with letters that no typeface of the server has. */
export interface PapersAnswer {
  readonly revision: number;
  readonly files: readonly Paper[];
  readonly without_shape: readonly string[];
}
export interface HistoryAnswer {
  readonly edits: readonly {
    readonly revision: number;
    readonly words: string;
    readonly when: string;
    readonly undone: boolean;
  }[];
  /** There were others before these. */
  readonly earlier: boolean;
  readonly most_kept: number;
}
export interface Stock {
  readonly sheets: readonly CameraSheet[];
  readonly level_tables: readonly {
    readonly name: string;
    readonly levels: readonly { readonly name: string; readonly least_px_per_m: number }[];
  }[];
  readonly materials: readonly string[];
  readonly lights: readonly string[];
  readonly subjects: readonly string[];
}
export interface Range {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
}
export type Verdict = "met" | "marginal" | "missed";
export interface Worst {
  readonly at: readonly [number, number, number];
  readonly condition: string;
  readonly camera: string | null;
  readonly density_px_per_m: number;
  readonly delivered_px_per_m: Range;
  readonly limit: string;
  readonly frames: { readonly asked: number; readonly predicted: Range } | null;
}
export interface Remedy {
  readonly mends: boolean;
  readonly camera: string;
  readonly text: string;
  readonly share_after: number;
  readonly verdict_after: Verdict;
  readonly spoils: readonly string[];
  readonly changes?: readonly Change[];
}
export interface JudgedNeed {
  readonly name: string;
  readonly verdict: Verdict;
  readonly share: number;
  readonly share_range: Range;
  readonly sampling_error: number;
  readonly required_share: number;
  readonly required_px_per_m: number;
  readonly limit: string | null;
  readonly worst: Worst | null;
  readonly remedy: Remedy | null;
  readonly settle: string | null;
  readonly samples: number;
  readonly conditions: readonly { readonly name: string; readonly share: number }[];
}
export interface Load {
  readonly part: "power" | "cable" | "network" | "storage" | "mount";
  readonly about: string;
  readonly text: string;
  readonly held: Verdict | "unknown";
  readonly remedy: string | null;
}
export interface CheckAnswer {
  readonly project: string;
  readonly level_table: string;
  readonly light: string;
  readonly stopped: boolean;
  readonly needs: readonly JudgedNeed[];
  readonly cautions: readonly { readonly about: string; readonly text: string }[];
  readonly assumptions: readonly { readonly what: string; readonly settle: string }[];
  readonly places_without_need: readonly string[];
  readonly watches: readonly { readonly camera: string; readonly sees: string }[];
  /** Null where the document says nothing of what carries its cameras. */
  readonly loads: readonly Load[] | null;
}
export type Ring = readonly SitePoint[];
export interface MapAnswer {
  readonly revision: number;
  readonly condition: string;
  readonly south_west: SitePoint;
  readonly step_m: number;
  readonly columns: number;
  readonly rows: number;
  readonly contours: readonly {
    readonly density_px_per_m: number;
    readonly required: boolean;
    readonly lines: readonly Ring[];
  }[];
  readonly seen: readonly Ring[];
  readonly missed: readonly Ring[];
  readonly tone: string;
  readonly tone_px_per_m: readonly [number, number];
}
export interface PlanAnswer {
  readonly picture: string;
  readonly columns: number;
  readonly rows: number;
}

/** A condition by its name, or one that is not in the document: an hour on the day band. */
export type ConditionAsked = string | Condition;

/** A run of cable as the program lays it; length_m with slack and loops, line from the feed without. */
export interface LaidRun {
  readonly run: string;
  readonly from: string;
  readonly to: string;
  readonly length_m: Range;
  readonly stated: boolean;
  readonly along: readonly string[];
  readonly open_m: number;
  /** Beside the longest of its kind; capacity_m null: that has none. */
  readonly reach: { readonly capacity_m: number | null; readonly held: Verdict | "unknown" };
  readonly line: readonly (readonly [number, number, number])[];
}
export interface CablesAnswer {
  readonly revision: number;
  readonly runs: readonly LaidRun[];
}

/** The first building that a way for cables leads into, and what the way must say of it. */
export interface WayAnswer {
  readonly building: string | null;
  readonly indoors: boolean;
  readonly through_buildings: boolean;
}

export interface MapQuestion {
  readonly condition: ConditionAsked;
  readonly cells: number;
  readonly need?: string;
  readonly bounds?: readonly [number, number, number, number];
  readonly changes?: readonly Change[];
}
export interface ServerError {
  readonly text: string;
  readonly file?: string | null;
  readonly object?: string | null;
  readonly field?: string | null;
}

export interface ServerEvents {
  hello: { readonly revision: number };
  edit: EditAnswer & { readonly tab: string; readonly words: string };
  opened: { readonly file: string };
  check:
    | { readonly revision: number; readonly stage: "verdicts" | "remedies"; readonly answer: CheckAnswer }
    | {
        readonly revision: number;
        readonly stage: "failed";
        readonly answer: { readonly errors: readonly ServerError[] };
      };
  /** About the document's file: it could not be written, or someone else made it what could not be taken in. */
  trouble: { readonly errors: readonly ServerError[] };
  progress: { readonly job: string; readonly share: number; readonly words: string };
}
