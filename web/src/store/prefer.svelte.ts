// SPDX-License-Identifier: GPL-3.0-or-later
// How this person likes the page: kept by the browser, not in the document. Units are the document's own setting.
import type { Language } from "../base/language.svelte";
import { speak } from "../base/text.svelte";
import type { Units } from "../base/units";
import { site } from "./site.svelte";

export type Paper = "as the system" | "light" | "dark";

class Preferences {
  paper = $state<Paper>(kept("paper", ["as the system", "light", "dark"]));
  tone = $state(kept("tone", ["shown", "hidden"]) === "shown");
  readonly units = $derived<Units>(site.document?.settings?.units ?? "metres");

  set_paper(paper: Paper): void {
    this.paper = paper;
    keep("paper", paper);
    show(paper);
  }
  set_tone(shown: boolean): void {
    this.tone = shown;
    keep("tone", shown ? "shown" : "hidden");
  }
  async set_language(language: Language): Promise<void> {
    keep("language", language);
    await speak(language);
  }
  /** Once, before the first view. */
  async begin(): Promise<void> {
    show(this.paper);
    const browser: Language = navigator.language.startsWith("de") ? "de" : "en";
    await speak(kept<Language>("language", browser === "de" ? ["de", "en"] : ["en", "de"]));
  }
}

function show(paper: Paper): void {
  if (paper === "as the system") delete document.documentElement.dataset["paper"];
  else document.documentElement.dataset["paper"] = paper;
}

/** The first of `values` when nothing, or nothing known, was kept. */
function kept<Value extends string>(key: string, values: readonly [Value, ...Value[]]): Value {
  const found = globalThis.localStorage?.getItem(`sightfall ${key}`);
  return values.find((value) => value === found) ?? values[0];
}
function keep(key: string, value: string): void {
  globalThis.localStorage?.setItem(`sightfall ${key}`, value);
}

export const prefer = new Preferences();
