// SPDX-License-Identifier: GPL-3.0-or-later
// The language that the page speaks, and whose usage its numbers and dates follow.

export type Language = "en" | "de";

class Spoken {
  now = $state<Language>("en");
}
const spoken = new Spoken();
const kLocales: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

export function language(): Language {
  return spoken.now;
}

export function locale(): string {
  return kLocales[spoken.now];
}

export function take_language(wanted: Language): void {
  spoken.now = wanted;
  if (typeof document !== "undefined") document.documentElement.lang = wanted;
}
