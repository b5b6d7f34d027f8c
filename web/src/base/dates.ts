// SPDX-License-Identifier: GPL-3.0-or-later
// Days and hours as the language of the page writes them: 15 Dec 2026 in English, 15.12.2026 in German. Hours run to 24
// in both.
//   Checked  test/base/dates.test.ts
import { locale } from "./language.svelte";

function words(date: Date, how: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat(locale(), how).format(date);
}

/** A day of the calendar, such as `2026-12-15`; what is none stays as it is. */
export function day_shown(day: string): string {
  const date = new Date(`${day}T00:00Z`);
  return Number.isNaN(date.valueOf()) ? day : words(date, { dateStyle: "medium", timeZone: "UTC" });
}

/** A moment, such as `2026-11-27T18:10:05Z`, by the clock of whoever reads it. */
export function moment_shown(when: string, zone?: string): string {
  const date = new Date(when);
  const how = { dateStyle: "medium", timeStyle: "medium", ...(zone && { timeZone: zone }) } as const;
  return Number.isNaN(date.valueOf()) ? when : words(date, how);
}
