// SPDX-License-Identifier: GPL-3.0-or-later
// The project document as it comes over the wire (schema/project.schema.json). Metres and degrees; a field at its default
// is left out.
import type { SitePoint } from "../base/plane";

export interface Named {
  readonly name: string;
}
interface Kind<K extends string> extends Named {
  readonly kind: K;
  readonly material?: string;
  readonly base_m?: number;
}
export interface Opening {
  readonly edge: number;
  readonly from_m: number;
  readonly width_m: number;
  readonly sill_m: number;
  readonly height_m: number;
}
interface Outlined {
  readonly outline: readonly SitePoint[];
  readonly holes?: readonly (readonly SitePoint[])[];
}
interface Lined {
  readonly line: readonly SitePoint[];
}
interface Oblong {
  readonly at: SitePoint;
  readonly heading_deg?: number;
  readonly across_m?: number;
  readonly along_m?: number;
}
export type Building = Kind<"building"> &
  Outlined & { readonly height_m: number; readonly openings?: readonly Opening[] };
export type Roof = Kind<"roof"> &
  Outlined & { readonly height_m: number; readonly thickness_m?: number; readonly overhang_m?: number };
export type Wall = Kind<"wall"> & Lined & { readonly height_m: number; readonly thickness_m?: number };
export type Block = Kind<"box"> & Oblong & { readonly height_m: number };
export type Vehicle = Kind<"vehicle"> & Oblong & { readonly height_m?: number };
export type Solid = Building | Roof | Wall | Block | Vehicle;

interface Foliage {
  readonly summer: number;
  readonly winter: number;
}
export type Fence = Kind<"mesh" | "railing"> & Lined & { readonly height_m: number; readonly passes: number };
export type Hedge = Kind<"hedge"> & Lined & Foliage & { readonly height_m: number; readonly thickness_m?: number };
export type Tree = Kind<"tree"> &
  Foliage & {
    readonly at: SitePoint;
    readonly crown_radius_m: number;
    readonly crown_base_m: number;
    readonly height_m: number;
  };
export type Veil = Fence | Hedge | Tree;

export interface Mount extends Named {
  readonly at: SitePoint;
  readonly height_m: number;
  readonly headings_deg?: readonly [number, number];
  readonly surface?: string;
  readonly access?: string;
  readonly sway_deg?: number;
  readonly sway_hz?: number;
}
export interface Lamp extends Named {
  readonly at: SitePoint;
  readonly height_m: number;
  readonly heading_deg?: number;
  readonly tilt_deg?: number;
  readonly light?: string;
  readonly photometry?: string;
  readonly lumens?: number;
  readonly draw_w?: number;
  readonly beam_deg?: number;
  readonly burns?: string;
}
export type Zone = Kind<"zone"> & Outlined & { readonly guarded?: boolean };
export type Line = Kind<"line"> & Lined & { readonly guarded?: boolean };
export type Route = Kind<"route"> &
  Lined & { readonly width_m?: number; readonly speed_m_s?: number; readonly guarded?: boolean };
export type Place = Zone | Line | Route;
export interface Neighbour extends Named {
  readonly at: SitePoint;
  readonly height_m: number;
  readonly width_m?: number;
  readonly facing_deg: number;
}
interface FeedOf<K extends string> extends Named {
  readonly kind: K;
  readonly at: SitePoint;
  readonly height_m?: number;
  readonly outdoors?: boolean;
  /** Name of the feed that carries it when the mains fail; no battery has one. */
  readonly battery?: string;
}
interface Ports {
  readonly ports: number;
  readonly powered?: number;
}
export type Feed =
  | (FeedOf<"switch" | "injector" | "recorder" | "router"> & Ports)
  | (FeedOf<"supply"> & { readonly voltage_v: number; readonly rating_w: number })
  | (FeedOf<"battery"> & { readonly voltage_v: number; readonly capacity_ah: number });
/** Where cables may lie. */
export type CableWay = Lined &
  Named & {
    readonly kind: "wall" | "trench" | "conduit" | "tray" | "overhead";
    readonly height_m?: number;
    readonly indoors?: boolean;
    readonly through_buildings?: boolean;
    readonly shaded?: boolean;
    readonly bore_mm?: number;
  };
/** A cable from a feed to a camera or another feed. Where it lies follows from the ways; it has no points of its own. */
export interface Run extends Named {
  readonly from: string;
  readonly port?: number;
  readonly to: string;
  readonly cable: string;
  readonly along?: readonly string[];
  readonly length_m?: number;
  readonly surge_protected?: boolean;
}
export interface Wind {
  readonly basic_m_s: number;
  readonly category?: string;
}
export interface Keeping {
  readonly wanted_d?: number;
  readonly most_d?: number;
  readonly reason?: string;
}
export interface Plan {
  readonly picture: string;
  readonly columns: number;
  readonly rows: number;
  readonly metres_per_pixel: number;
  readonly north_west: SitePoint;
  readonly turn_deg?: number;
}
export interface Anchor {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly height_m?: number;
  readonly turn_deg?: number;
  readonly time_zone?: string;
}
export interface Site {
  readonly anchor?: Anchor;
  readonly terrain?: { readonly kind: "flat" | "grid" };
  readonly ground?: string;
  readonly solids?: readonly Solid[];
  readonly veils?: readonly Veil[];
  readonly mounts?: readonly Mount[];
  readonly lamps?: readonly Lamp[];
  readonly places?: readonly Place[];
  readonly boundary?: readonly SitePoint[];
  readonly neighbours?: readonly Neighbour[];
  readonly feeds?: readonly Feed[];
  readonly ways?: readonly CableWay[];
  readonly runs?: readonly Run[];
  readonly wind?: Wind;
  readonly plan?: Plan;
}
export interface Condition extends Named {
  readonly leaves: "on" | "off";
  readonly light?: string;
  readonly date?: string;
  readonly time?: string;
  readonly sky?: string;
  readonly air?: string;
  readonly visibility_m?: number;
  readonly lamps?: readonly string[];
}
export interface Need extends Named {
  readonly subject: string;
  readonly place: string;
  readonly level: string;
  readonly conditions?: readonly string[];
  readonly share?: number;
  readonly once_a_passage?: number;
  readonly facing?: "camera" | "travel" | "heading";
  readonly facing_deg?: number;
  readonly height_m?: number;
  readonly speed_m_s?: number;
  readonly shutter_s?: number;
  readonly detector_height_px?: number;
  readonly colour?: boolean;
}
export interface Camera extends Named {
  readonly sheet: string;
  readonly mount: string;
  readonly heading_deg: number;
  readonly tilt_deg?: number;
  readonly roll_deg?: number;
  readonly focal_mm?: number;
  readonly focus_m?: number;
  readonly shutter_s?: number;
  readonly slowest_shutter_s?: number;
  readonly largest_gain_db?: number;
  readonly f_number?: number;
  readonly frame_rate?: number;
  readonly infrared?: string;
  readonly picture?: string;
}
export interface CameraSheet extends Named {
  readonly about?: string;
  readonly pixels: readonly [number, number];
  readonly focal_mm: number | readonly [number, number];
  readonly infrared?: Readonly<Record<string, number | boolean>>;
  readonly price?: number;
}
export interface LevelTable extends Named {
  readonly levels: readonly { readonly name: string; readonly px_per_m: number }[];
}
export interface Settings {
  readonly level_table?: string;
  readonly level_tables?: readonly LevelTable[];
  readonly units?: "metres" | "feet";
  readonly currency?: string;
  readonly house_network?: string;
  readonly mains?: string;
  readonly sample_spacing_m?: number;
  readonly typical?: Readonly<Record<string, Readonly<Record<string, number | string>>>>;
}
export interface ProjectDocument {
  readonly sightfall: number;
  readonly name: string;
  readonly about?: string;
  readonly site: Site;
  readonly conditions: readonly Condition[];
  readonly needs?: readonly Need[];
  readonly cameras?: readonly Camera[];
  readonly catalogue?: readonly CameraSheet[];
  readonly keeping?: Keeping;
  readonly settings?: Settings;
}

/** Lists whose members have names: what a change's `at` can lead to, but for its last word. */
export const kLists = [
  "site/solids",
  "site/veils",
  "site/mounts",
  "site/lamps",
  "site/places",
  "site/neighbours",
  "site/feeds",
  "site/ways",
  "site/runs",
  "cameras",
  "needs",
  "conditions",
  "catalogue",
  "settings/level_tables",
] as const;
/** The boundary stands alone and has no name, but is drawn, selected and altered like a list of at most one. */
export type Boundary = Named & Outlined;
export type ListName = (typeof kLists)[number] | "site/boundary";

export interface ListTypes {
  "site/solids": Solid;
  "site/veils": Veil;
  "site/mounts": Mount;
  "site/lamps": Lamp;
  "site/places": Place;
  "site/neighbours": Neighbour;
  "site/feeds": Feed;
  "site/ways": CableWay;
  "site/runs": Run;
  "site/boundary": Boundary;
  cameras: Camera;
  needs: Need;
  conditions: Condition;
  catalogue: CameraSheet;
  "settings/level_tables": LevelTable;
}
