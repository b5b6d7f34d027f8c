// SPDX-License-Identifier: GPL-3.0-or-later
// The server's requests by name (docs/wire.md). Those of prints, scene, section, card and day stand beside the views
// that ask for them.
import type {
  CablesAnswer,
  Change,
  EditAnswer,
  HistoryAnswer,
  ImportAnswer,
  Json,
  MapAnswer,
  MapQuestion,
  PapersAnswer,
  PlanAnswer,
  SiteAnswer,
  Start,
  Stock,
  WayAnswer,
} from "./answers";
import type { SitePoint } from "../base/plane";
import { get, post, post_file, put_file } from "./ask";

export type OpenQuestion =
  | { readonly file: string }
  | { readonly demo: true; readonly as: string }
  | { readonly new: { readonly name: string; readonly as: string } };

export const start = (): Promise<Start> => get("/api/start");
export const site = (): Promise<SiteAnswer> => get("/api/site");
export const open_site = (question: OpenQuestion): Promise<SiteAnswer> => post("/api/open", question);
export const pair = (code: string): Promise<unknown> => post("/api/pair", { code });
export const edits = (words: string, changes: readonly Change[]): Promise<EditAnswer> =>
  post("/api/edits", { words, changes });
export const undo = (): Promise<EditAnswer> => post("/api/undo", {});
export const redo = (): Promise<EditAnswer> => post("/api/redo", {});
export const history = (): Promise<HistoryAnswer> => get("/api/history");
export const schema = (): Promise<{ readonly [key: string]: Json }> => get("/api/schema");
export const stock = (): Promise<Stock> => get("/api/stock");
export const map = (question: MapQuestion, signal?: AbortSignal): Promise<MapAnswer> =>
  post("/api/map", question, signal);
export const cables = (changes: readonly Change[], signal?: AbortSignal): Promise<CablesAnswer> =>
  post("/api/cables", changes.length > 0 ? { changes } : {}, signal);
export const way = (line: readonly SitePoint[]): Promise<WayAnswer> => post("/api/way", { line });
export const put_plan = (file: File, page: number): Promise<PlanAnswer> =>
  put_file(`/api/plan?name=${encodeURIComponent(file.name)}&page=${page}`, file);
export const import_map = (
  kind: "footprints" | "terrain",
  query: Readonly<Record<string, string>>,
  file: File,
  signal: AbortSignal,
): Promise<ImportAnswer> => post_file(`/api/import/${kind}?${new URLSearchParams(query).toString()}`, file, signal);
export interface PapersQuestion {
  readonly id: string;
  readonly date?: string;
  readonly by?: string;
  readonly paper: "a4" | "letter";
  readonly network?: string;
  readonly pictures: boolean;
  readonly masks: boolean;
}
export const papers = (question: PapersQuestion, signal: AbortSignal): Promise<PapersAnswer> =>
  post("/api/papers", question, signal);
export const plan_path = (picture: string): string => `/api/plan/${encodeURIComponent(picture)}`;
