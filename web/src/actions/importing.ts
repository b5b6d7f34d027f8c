// SPDX-License-Identifier: GPL-3.0-or-later
// Buildings and ground from maps: the file goes to the server, which makes one edit of what it finds in it.
import { edit_words } from "../base/edit_words";
import { text, told, type Told } from "../base/text.svelte";
import type { Chosen } from "../store/clashes";
import { clashes_of, kPlaceOfSite, settled } from "../store/clashes";
import type { MapKind, Refusal, Waiting } from "../store/importing.svelte";
import { importing } from "../store/importing.svelte";
import { failure_in_words } from "../store/notes.svelte";
import { site } from "../store/site.svelte";
import type { ImportConflicts } from "../wire/answers";
import { WireError, tab } from "../wire/ask";
import * as server from "../wire/server";
import { add_acts } from "./acts";
import { fit_site } from "./look";
import { one_map } from "./map_files";
import { open_new } from "./opening";

export interface MapField {
  readonly name: string;
  readonly kind: "number" | "text";
  readonly usual?: string;
  readonly least?: number;
  readonly most?: number;
}

/** Wide enough for most sites, and for what stands around them. Common practice, no published source. */
const kUsualDistance_m = "250";
const kWithin: MapField = { name: "within_m", kind: "number", usual: kUsualDistance_m, least: 1, most: 20000 };
const kCrs: MapField = { name: "crs", kind: "text" };

/** What is asked at once, and what only some files need. */
export const kFields: Readonly<
  Record<MapKind, { readonly first: readonly MapField[]; readonly more: readonly MapField[] }>
> = {
  footprints: {
    first: [{ name: "height_m", kind: "number", least: 0.1, most: 1000 }, kWithin],
    more: [
      { name: "height_field", kind: "text" },
      { name: "base_field", kind: "text" },
      { name: "layer", kind: "text" },
      kCrs,
    ],
  },
  terrain: {
    first: [kWithin, { name: "step_m", kind: "number", least: 0.05, most: 10000 }],
    more: [{ name: "fill_m", kind: "number", least: -500, most: 9000 }, kCrs],
  },
};
/** Of a site without an anchor. */
export const kPlace: readonly MapField[] = [
  { name: "latitude_deg", kind: "number", least: -90, most: 90 },
  { name: "longitude_deg", kind: "number", least: -180, most: 180 },
];
export const kEndings: Readonly<Record<MapKind, string>> = {
  footprints: ".geojson,.json,.gpkg,.osm,.pbf,.zip,.shp,.shx,.dbf,.prj,.cpg",
  terrain: ".tif,.tiff,.asc,.hgt,.dt0,.dt1,.dt2",
};

/** A new site, and the files asked about one after the other. */
export async function open_with_maps(name: string, maps: readonly Waiting[]): Promise<void> {
  await open_new(name);
  importing.begin(maps);
}

/** The file whose turn it is, with what the form says; empty fields are left out. */
export async function take_map(values: Readonly<Record<string, string>>): Promise<void> {
  const { now } = importing;
  if (!now || now.files.length === 0 || importing.running) return;
  const aborter = new AbortController();
  const id = importing.started(() => aborter.abort());
  const of_site = site.file;
  let words = "";
  try {
    const file = await one_map(now.files);
    if (typeof file === "string") return importing.refused(id, { words: file, field: null });
    aborter.signal.throwIfAborted();
    words = edit_words(`import_${now.kind}`, { name: shortened(file.name) });
    const filled = Object.entries(values).filter(([, value]) => value !== "");
    const query = { name: file.name, words, id, ...Object.fromEntries(filled) };
    const answer = await server.import_map(now.kind, query, file, aborter.signal);
    site.heard_edit({ ...answer, tab, words });
    importing.ended(id, answer.told);
    fit_site();
  } catch (failure) {
    const clashing = conflicts_of(failure);
    if (clashing) importing.clashed(id, { site: of_site, words, values, ...clashing });
    else importing.refused(id, refusal_of(failure));
  }
}

function conflicts_of(failure: unknown): ImportConflicts | null {
  return failure instanceof WireError && failure.conflicts.length > 0 ? (failure.body as ImportConflicts) : null;
}

/** What was chosen where something stands already, as one edit. */
export async function settle_map(chosen: (clash_key: string) => Chosen): Promise<void> {
  const { clashing, settling } = importing;
  const document = site.document;
  if (!clashing || !document || settling) return;
  if (clashing.site !== site.file) return importing.leave_clash({ words: text("import.another_site"), field: null });
  const elsewhere = clashes_of(document, clashing.changes).some((clash) => clash.kind === "place");
  if (elsewhere && chosen(kPlaceOfSite) === "mine") {
    importing.leave_clash();
    return take_map({ ...clashing.values, ...Object.fromEntries(kPlace.map(({ name }) => [name, ""])) });
  }
  importing.settling = true;
  const changes = settled(document, clashing.changes, chosen);
  const why = await site.edit_or_why(clashing.words, changes);
  // Without words: another page was quicker, and the choice is offered as for any edit (view/Conflicts).
  if (why !== null) return importing.leave_clash(why ? { words: why, field: null } : null);
  const put_in = changes.filter(({ was }) => was === null).length;
  const counts = { put_in, replaced: changes.length - put_in, left: clashing.changes.length - changes.length };
  importing.settled(clashing, text("import.clash.done", counts));
  fit_site();
}

/** The server calls fields by their names on the wire; the page calls them as they are labelled. */
export function refusal_of(failure: unknown): Refusal {
  if (failure instanceof DOMException && failure.name === "AbortError")
    return { words: text("import.stopped"), field: null };
  if (!(failure instanceof WireError)) return { words: failure_in_words(failure), field: null };
  const named = failure.errors.find((error) => all_fields.has(error.field ?? ""));
  const lines = failure.errors.flatMap(({ field, object, text: words }, i): Told[] => {
    const named_within = field && words.includes(field);
    const label = field && all_fields.has(field) ? text(`import.fields.${field}`) : field;
    const where = [object, named_within ? null : label].filter((part) => part).join(", ");
    const before = { words: (i > 0 ? "\n" : "") + (where ? `${where}: ` : "") };
    return [before, ...told(words)].map((each) => ({ ...each, words: labelled(each.words) }));
  });
  return { words: lines.length > 0 ? lines : failure_in_words(failure), field: named?.field ?? null };
}

const all_fields: ReadonlySet<string> = new Set(
  [...Object.values(kFields).flatMap(({ first, more }) => [...first, ...more]), ...kPlace].map(({ name }) => name),
);
function labelled(words: string): string {
  return words.replace(/\b[a-z]+_(m|deg|field)\b/g, (name) =>
    all_fields.has(name) ? `"${text(`import.fields.${name}`)}"` : name,
  );
}

/** The words of an edit have room for so much of a name. */
function shortened(name: string): string {
  const kMost = 40;
  return name.length > kMost ? `${name.slice(0, kMost - 3)}...` : name;
}

const begin = (kind: MapKind) => (): void => importing.begin([{ kind, files: [] }]);
add_acts([
  { id: "import_footprints", group: "site", keys: ["Shift+m"], run: begin("footprints") },
  { id: "import_terrain", group: "site", keys: ["Shift+g"], run: begin("terrain") },
]);
