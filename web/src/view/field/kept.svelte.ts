// SPDX-License-Identifier: GPL-3.0-or-later
// What was entered in the field, kept by the browser under the document's name: it outlives a lost link and a closed
// page.
//   Checked  test/view/field.test.ts; journeys/field.mjs: with the link cut
import { site } from "../../store/site.svelte";

/** How a subject at a mark was made out by eye on the live picture. */
export type Seen = "yes" | "no" | "unsure";
export interface Reading {
  readonly seen: Seen | null;
  readonly note: string;
  readonly when: string;
}
export type Readings = Readonly<Record<string, Reading>>;

const key_of = (file: string): string => `sightfall field ${file}`;

export function readings_in(stored: string | null): Readings {
  try {
    const read: unknown = JSON.parse(stored ?? "{}");
    return typeof read === "object" && read !== null ? (read as Readings) : {};
  } catch {
    return {};
  }
}

class Field {
  private file = $state("");
  readings = $state.raw<Readings>({});
  full = $state(false);

  open(): void {
    this.file = site.file;
    this.readings = readings_in(globalThis.localStorage?.getItem(key_of(this.file)) ?? null);
  }
  of(key: string): Reading {
    return this.readings[key] ?? { seen: null, note: "", when: "" };
  }
  enter(key: string, change: Partial<Pick<Reading, "seen" | "note">>): void {
    this.readings = { ...this.readings, [key]: { ...this.of(key), ...change, when: new Date().toISOString() } };
    try {
      globalThis.localStorage?.setItem(key_of(this.file), JSON.stringify(this.readings));
      this.full = false;
    } catch {
      this.full = true;
    }
  }
}

export const field = new Field();
export const mount_key = (camera: string, what: string): string => `mount ${camera} ${what}`;
export const mark_key = (route: string, camera: string, condition: string, number: number): string =>
  JSON.stringify([route, camera, condition, number]);

/** All readings as lines for another program: what, seen, note, when, parted by tabs. */
export function as_lines(readings: Readings): string {
  const clean = (words: string): string => words.replace(/[\t\r\n]+/g, " ");
  const lines = Object.entries(readings).map(([key, reading]) =>
    [key, reading.seen ?? "", reading.note, reading.when].map(clean).join("\t"),
  );
  return `${["what", "seen", "note", "when"].join("\t")}\n${lines.join("\n")}\n`;
}
