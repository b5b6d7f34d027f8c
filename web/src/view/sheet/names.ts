// SPDX-License-Identifier: GPL-3.0-or-later
// Which names stand on the sheet, and where: where there is room for them, and always for what is selected.
//   Checked  test/view/names.test.ts
import type { SitePoint } from "../../base/plane";
import { box_of, centre_of, distance, middle, roomiest, segments } from "../../base/plane";
import type { Ref } from "../../store/changes";
import { members } from "../../store/changes";
import type { Drawn, DrawnList, Shape } from "../../store/shapes";
import { shape_of } from "../../store/shapes";
import type { ProjectDocument } from "../../wire/document";
import { are_over, frame_of_words, kLetter_px, kLine_px, type Frame } from "./frames";

export interface NameShown {
  readonly ref: Ref;
  readonly at: SitePoint;
  /** From there to the foot of its letters, on the page. */
  readonly down: number;
  readonly chosen: boolean;
}

const kFeedsNamed_px_per_m = 10;
/** From the foot of the letters up to their middle. */
const kMiddle_px = 4;
const kNamed: readonly DrawnList[] = [
  "cameras",
  "site/solids",
  "site/places",
  "site/veils",
  "site/lamps",
  "site/mounts",
  "site/neighbours",
  "site/feeds",
  "site/ways",
];

/** What is selected first, then in the order of the lists; a name that would lie over one before it is left out. */
export function names_shown(document: ProjectDocument, px_per_m: number, chosen: (ref: Ref) => boolean): NameShown[] {
  const cameras = places_of_cameras(document);
  const wanted = kNamed.flatMap((list) =>
    (members(document, list) as readonly Drawn[]).flatMap(
      (object) => name_of(document, list, object, { px_per_m, chosen, cameras }) ?? [],
    ),
  );
  const put: { readonly name: NameShown; readonly frame: Frame }[] = [];
  for (const name of wanted.sort((a, b) => Number(b.chosen) - Number(a.chosen))) {
    const frame = frame_of_name(name, px_per_m);
    if (name.chosen || !put.some((other) => are_over(frame, other.frame))) put.push({ name, frame });
  }
  return put.map((each) => each.name);
}

/** On the page, from where the site's origin is. */
export function frame_of_name({ ref, at, down }: NameShown, px_per_m: number): Frame {
  return frame_of_words(ref.name, at[0] * px_per_m, -at[1] * px_per_m + down - kMiddle_px);
}

interface Seen {
  readonly px_per_m: number;
  readonly chosen: (ref: Ref) => boolean;
  readonly cameras: readonly CameraPlace[];
}
interface CameraPlace {
  readonly name: string;
  readonly at: SitePoint;
}

/** An area's name stands in it, a line's at its middle, a symbol's under it. */
function name_of(document: ProjectDocument, list: DrawnList, object: Drawn, seen: Seen): NameShown | null {
  const shape = shape_of(document, object);
  const box = shape && box_of(shape.body ?? shape.points);
  if (!shape || !box) return null;
  const k = seen.px_per_m;
  const ref: Ref = { list, name: object.name };
  const chosen = seen.chosen(ref);
  const symbol = shape.form === "spot" && !shape.body;
  const room = Math.max(box.east - box.west, (shape.radius_m ?? 0) * 2) * k;
  const along = shape.form === "line" ? Math.hypot(box.east - box.west, box.north - box.south) * k : room;
  const always = list === "cameras" || (list === "site/feeds" && k > kFeedsNamed_px_per_m);
  const wanted = chosen || (symbol ? always : along > object.name.length * kLetter_px + 8);
  if (!wanted) return null;
  if (symbol) return { ref, at: centre_of(box), down: beside(shape, list, object, seen), chosen };
  if (shape.form === "line") return { ref, at: longest_middle(shape.points), down: -6, chosen };
  return {
    ref,
    at: shape.form === "outline" ? in_its_filling(object, shape) : centre_of(box),
    down: kMiddle_px,
    chosen,
  };
}

function longest_middle(points: readonly SitePoint[]): SitePoint {
  const longest = segments(points, false).sort((a, b) => distance(...b) - distance(...a))[0];
  return longest ? middle(...longest) : (points[0] ?? [0, 0]);
}

/** Known for as long as the object is the same: names are asked for at each turn of the wheel. */
const known = new WeakMap<Drawn, SitePoint>();

function in_its_filling(object: Drawn, shape: Shape): SitePoint {
  const before = known.get(object);
  if (before) return before;
  const at = roomiest(shape.points, shape.holes ?? [], Math.max(1, (object.name.length * kLetter_px) / kLine_px));
  known.set(object, at);
  return at;
}

/** Under a symbol, over it when it looks down the page; cameras of one mount one over the other. */
function beside(shape: Shape, list: DrawnList, object: Drawn, seen: Seen): number {
  const heading = shape.heading_deg ?? 0;
  const over = heading > 100 && heading < 260;
  const before = list === "cameras" ? earlier_there(shape, object.name, seen) : 0;
  return over ? -13 - 14 * before : 23 + 14 * before;
}

function places_of_cameras(document: ProjectDocument): CameraPlace[] {
  return members(document, "cameras").flatMap((camera) => {
    const at = shape_of(document, camera)?.points[0];
    return at ? [{ name: camera.name, at }] : [];
  });
}

/** How many cameras before that one stand where it does. */
function earlier_there(shape: Shape, name: string, { cameras, px_per_m }: Seen): number {
  const place = shape.points[0] ?? [0, 0];
  const index = cameras.findIndex((camera) => camera.name === name);
  return cameras.slice(0, index).filter(({ at }) => distance(at, place) * px_per_m < 8).length;
}
