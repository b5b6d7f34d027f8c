// SPDX-License-Identifier: GPL-3.0-or-later
// The questions that the views beside the drawing ask, and their answers (docs/wire.md, "What is worked out").
import type { SitePoint } from "../base/plane";
import type { Change, ConditionAsked, Range } from "../wire/answers";
import { get, post } from "../wire/ask";
import type { CurvePoint } from "./card/axes";
import type { DayAnswer } from "./dayband/band";
import type { SectionAnswer } from "./section/frame";

export interface Figures {
  readonly distance_m: number;
  readonly density_px_per_m: number;
  readonly delivered_px_per_m: Range;
  readonly level: string | null;
  readonly limit: string | null;
  readonly noise_ratio: number | null;
  readonly shutter_s: number | null;
  readonly gain_db: number | null;
  readonly infrared_power: number | null;
}
export interface PictureAnswer {
  readonly camera: string;
  readonly at: SitePoint;
  readonly compression: string;
  readonly png: string;
  readonly columns: number;
  readonly rows: number;
  readonly figures: Figures | null;
  readonly box: readonly [number, number, number, number] | null;
}
export type Mover = "walker" | "car" | "target" | "none";
export interface PictureQuestion {
  readonly camera?: string;
  readonly condition: ConditionAsked;
  readonly at?: SitePoint;
  readonly need?: string;
  readonly mover: Mover;
  readonly size: "preview" | "whole" | "crop";
  readonly id?: string;
  readonly changes?: readonly Change[];
}

export type Holds = "yes" | "no" | "depends" | "unknown";
export interface Claim {
  readonly claim: string;
  readonly stated: string;
  readonly computed: string | null;
  readonly assumption: string | null;
  readonly holds: Holds;
}
export interface Ends {
  readonly near_m: number | null;
  readonly far_m: number | null;
}
export interface CardAnswer {
  readonly camera: string;
  readonly light: string;
  readonly level_table: string;
  readonly focal_mm: number;
  readonly f_number: number;
  readonly view_deg: readonly [number, number];
  readonly mount_height_m: number | null;
  readonly tilt_deg: number | null;
  readonly focus: { readonly set_m: number | null; readonly one_pixel: Ends; readonly seventy_percent: Ends };
  readonly reach: {
    readonly day: Readonly<Record<string, readonly [number, number | null] | null>>;
    readonly night: Readonly<Record<string, readonly [number, number | null] | null>>;
  };
  readonly infrared: { readonly burns: boolean; readonly glows: boolean; readonly monochrome: boolean };
  readonly claims: readonly Claim[];
  readonly assumptions: readonly { readonly what: string; readonly settle: string }[];
  readonly cautions: readonly string[];
  readonly curve: readonly CurvePoint[];
}
export type CardQuestion = ({ readonly camera: string } | { readonly sheet: string }) & {
  readonly changes?: readonly Change[];
};

export interface SceneBody {
  readonly name: string;
  readonly kind: "ground" | "solid" | "veil" | "lamp" | "place" | "neighbour" | "boundary";
  readonly positions: readonly number[];
  readonly triangles: readonly number[];
}
export type Point3 = readonly [number, number, number];
export interface SceneQuestion {
  readonly parts: "all" | "cameras";
  readonly changes?: readonly Change[];
}
export interface SceneAnswer {
  /** Null where the cameras alone were asked for. */
  readonly bodies: readonly SceneBody[] | null;
  readonly cameras: readonly { readonly name: string; readonly eye: Point3; readonly corners: readonly Point3[] }[];
}

export interface SectionQuestion {
  readonly camera: string;
  readonly condition: ConditionAsked;
  readonly reach_m?: number;
  readonly changes?: readonly Change[];
}

export const picture = (question: PictureQuestion, signal?: AbortSignal): Promise<PictureAnswer> =>
  post("/api/picture", question, signal);
export const card = (question: CardQuestion, signal?: AbortSignal): Promise<CardAnswer> =>
  post("/api/card", question, signal);
export const day = (date: string, signal?: AbortSignal): Promise<DayAnswer> =>
  get(`/api/day?date=${encodeURIComponent(date)}`, signal);
export const scene = (question: SceneQuestion, signal?: AbortSignal): Promise<SceneAnswer> =>
  post("/api/scene", question, signal);
export const section = (question: SectionQuestion, signal?: AbortSignal): Promise<SectionAnswer> =>
  post("/api/section", question, signal);
