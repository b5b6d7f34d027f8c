// SPDX-License-Identifier: GPL-3.0-or-later
// What the program brings along (sheets, level tables, materials) and the schema that forms are made from: read once.
import type { Json, Stock } from "../wire/answers";
import type { CameraSheet } from "../wire/document";
import * as server from "../wire/server";
import { site } from "./site.svelte";

class Stocked {
  stock = $state.raw<Stock | null>(null);
  schema = $state.raw<{ readonly [key: string]: Json } | null>(null);

  async read(): Promise<void> {
    [this.stock, this.schema] = await Promise.all([server.stock(), server.schema()]);
  }
  /** The document's own sheets, then those in stock that it has not. */
  readonly sheets = $derived.by((): readonly CameraSheet[] => {
    const own = site.document?.catalogue ?? [];
    const names = new Set(own.map((sheet) => sheet.name));
    return [...own, ...(this.stock?.sheets ?? []).filter((sheet) => !names.has(sheet.name))];
  });
  /** Levels of the table in force, in px/m; the first table is the default. */
  readonly levels = $derived.by((): readonly { readonly name: string; readonly px_per_m: number }[] => {
    const settings = site.document?.settings;
    const own = settings?.level_tables?.find((table) => table.name === settings.level_table);
    if (own) return own.levels;
    const tables = this.stock?.level_tables ?? [];
    const table = tables.find((each) => each.name === settings?.level_table) ?? tables[0];
    return table?.levels.map((level) => ({ name: level.name, px_per_m: level.least_px_per_m })) ?? [];
  });
}

export const stocked = new Stocked();
