// SPDX-License-Identifier: GPL-3.0-or-later
// Handles of the one object that is selected: its corners, places between them, its heading, a camera's lens.
import type { SitePoint } from "../../base/plane";
import { along_heading, distance, heading_deg, middle, rounded, segments } from "../../base/plane";
import type { PagePoint } from "../../base/window";
import type { Change } from "../../wire/answers";
import type { Camera, ProjectDocument } from "../../wire/document";
import type { Ref } from "../../store/changes";
import { member } from "../../store/changes";
import type { Corner } from "../../store/corners";
import { rings_of, with_corner, with_corner_moved } from "../../store/corners";
import { change_of } from "../../store/editing";
import { drawn, is_drawn, shape_of, turns, with_heading } from "../../store/shapes";

export interface Handle {
  readonly kind: "corner" | "between" | "heading" | "lens";
  readonly ref: Ref;
  /** Of a corner, and of the one that would come between two. */
  readonly corner: Corner;
  readonly at: SitePoint;
  /** Key of texts/edits. */
  readonly words: string;
}
export interface Places {
  page_from_site(p: SitePoint): PagePoint;
  readonly window: { readonly px_per_m: number };
}

/** How far out the end of a heading's tick lies on the page: a longer lens has a longer tick. */
const kShortest_px = 46;
const kLongest_px = 110;

export function handles_of(document: ProjectDocument, ref: Ref, px_per_m: number): Handle[] {
  const object = drawn(document, ref);
  const shape = object && shape_of(document, object);
  if (!object || !shape || !is_drawn(ref.list) || shape.form === "tie") return [];
  if (shape.form !== "spot")
    return rings_of(shape).flatMap((points, ring) => corners_of(ref, points, ring, shape.form === "outline"));
  const [at] = shape.points;
  if (!at || !turns(ref.list, object)) return [];
  const camera = "sheet" in object ? object : null;
  const range = camera && focal_range(document, camera);
  const tip = along_heading(at, shape.heading_deg ?? 0, tick_px(camera, range) / px_per_m);
  const kind = range && range[1] > range[0] ? "lens" : "heading";
  return [{ kind, ref, corner: { ring: 0, index: 0 }, at: tip, words: kind === "lens" ? "aim" : "turn" }];
}

function corners_of(ref: Ref, points: readonly SitePoint[], ring: number, closed: boolean): Handle[] {
  const handle = (kind: "corner" | "between", at: SitePoint, index: number): Handle => ({
    kind,
    ref,
    corner: { ring, index },
    at,
    words: "reshape",
  });
  return [
    ...segments(points, closed).map(([a, b], index) => handle("between", middle(a, b), index + 1)),
    ...points.map((at, index) => handle("corner", at, index)),
  ];
}

export function focal_range(document: ProjectDocument, camera: Camera): readonly [number, number] | null {
  const focal = member(document, { list: "catalogue", name: camera.sheet })?.focal_mm;
  if (focal === undefined) return null;
  return typeof focal === "number" ? [focal, focal] : focal;
}

function tick_px(camera: Camera | null, range: readonly [number, number] | null): number {
  if (!camera || !range || range[1] <= range[0]) return kShortest_px;
  const share = Math.log((camera.focal_mm ?? range[0]) / range[0]) / Math.log(range[1] / range[0]);
  return kShortest_px + share * (kLongest_px - kShortest_px);
}

function focal_of(px: number, range: readonly [number, number]): number {
  const share = Math.min(1, Math.max(0, (px - kShortest_px) / (kLongest_px - kShortest_px)));
  return rounded(range[0] * (range[1] / range[0]) ** share, 0.1);
}

/** What pulling a handle to a place changes. */
export function pulled(
  document: ProjectDocument,
  handle: Handle,
  at: SitePoint,
  page: PagePoint,
  places: Places,
): Change[] {
  return change_of(document, handle.ref, (object) => {
    const shape = shape_of(document, object);
    const centre = shape?.points[0];
    if (!shape || !centre) return object;
    if (handle.kind === "corner") return with_corner_moved(object, shape, handle.corner, () => at);
    if (handle.kind === "between") return with_corner(object, shape, handle.corner, at);
    const turned = distance(centre, at) > 0 ? with_heading(object, heading_deg(centre, at)) : object;
    const range = "sheet" in turned ? focal_range(document, turned) : null;
    if (handle.kind !== "lens" || !range) return turned;
    const from = places.page_from_site(centre);
    const focal_mm = focal_of(Math.hypot(page.x - from.x, page.y - from.y), range);
    return { ...turned, focal_mm };
  });
}
