// SPDX-License-Identifier: GPL-3.0-or-later
// What the program brings along (sheets, level tables, materials) and the schema that forms are made from: read once.
import { has_text, text } from "../base/text.svelte";
import type { Json, Stock } from "../wire/answers";
import type { CameraSheet } from "../wire/document";
import * as server from "../wire/server";
import { site } from "./site.svelte";

export interface Level {
  readonly name: string;
  readonly px_per_m: number;
  /** As it is shown. */
  readonly called: string;
}

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
  /** The table in force where the user made it. */
  private readonly own_table = $derived.by(() => {
    const settings = site.document?.settings;
    return settings?.level_tables?.find((table) => table.name === settings.level_table);
  });
  /** Levels of the table in force, in px/m; the first table is the default. */
  readonly levels = $derived.by((): readonly Level[] => {
    if (this.own_table) return this.own_table.levels.map((level) => ({ ...level, called: level.name }));
    const tables = this.stock?.level_tables ?? [];
    const table = tables.find((each) => each.name === site.document?.settings?.level_table) ?? tables[0];
    const called = (name: string): string => this.level_called(name);
    return table?.levels.map(({ name, least_px_per_m: px_per_m }) => ({ name, px_per_m, called: called(name) })) ?? [];
  });
  /** The program's own levels are called as the language of the page has it, the user's as they were typed. */
  level_called(name: string): string {
    const key = `levels.${name}`;
    return !this.own_table && has_text(key) ? text(key) : name;
  }
}

export const stocked = new Stocked();
