// SPDX-License-Identifier: GPL-3.0-or-later
// What the references of the document can lead to, by the path of their field: what the forms offer.
import type { ProjectDocument } from "../wire/document";
import { kCables, starts } from "../store/cables";
import { members } from "../store/changes";
import { stocked } from "../store/stock.svelte";
import type { Field } from "./fields";
import { fields_at } from "./fields";

const names = (all: readonly { readonly name: string }[]): string[] => all.map((each) => each.name);

export function field_choices(document: ProjectDocument): Readonly<Record<string, readonly string[]>> {
  const materials = stocked.stock?.materials ?? [];
  const feeds = members(document, "site/feeds");
  const tables = [...names(members(document, "settings/level_tables")), ...names(stocked.stock?.level_tables ?? [])];
  return {
    "cameras.sheet": names(stocked.sheets),
    "cameras.mount": names(members(document, "site/mounts")),
    "site.solids.material": materials,
    "site.feeds.battery": names(feeds.filter((feed) => feed.kind === "battery")),
    "site.runs.from": names(starts(document)),
    "site.runs.to": [...names(members(document, "cameras")), ...names(starts(document))],
    "site.runs.cable": names(kCables),
    "site.runs.along": names(members(document, "site/ways")),
    "conditions.lamps": names(members(document, "site/lamps")),
    "settings.level_table": [...new Set(tables)],
    "catalogue.estimates.name": names(typical_fields()),
  };
}

/** The assumptions that can be replaced, in the order of the schema. */
export function typical_fields(): readonly Field[] {
  return fields_at(stocked.schema, "settings").find((field) => field.name === "typical")?.fields ?? [];
}
