// SPDX-License-Identifier: GPL-3.0-or-later
// What lies open on the desk beside the sheet. Each comes when asked for and goes when closed; nothing stands there always.
import type { SitePoint } from "../base/plane";
import type { ConditionAsked } from "../wire/answers";
import { random_word } from "../wire/ask";
import type { ListName } from "../wire/document";
import type { Drafted } from "./cables";

/** A predicted picture laid on the sheet. Which one it is alters neither the document nor the verdicts. */
export interface Print {
  readonly id: string;
  readonly camera: string;
  readonly condition: ConditionAsked;
  readonly at?: SitePoint;
  readonly need?: string;
  readonly mover: "walker" | "car" | "target" | "none";
}
export type CardAsked = { readonly camera: string } | { readonly sheet: string };
export interface SceneAsked {
  readonly at?: SitePoint;
  readonly camera?: string;
}

class Desk {
  prints = $state.raw<readonly Print[]>([]);
  section = $state<string | null>(null);
  card = $state.raw<CardAsked | null>(null);
  scene = $state.raw<SceneAsked | null>(null);
  field = $state(false);
  acts_shown = $state(false);
  site_form = $state(false);
  /** The part of it that was asked for, such as `wind`. */
  site_form_at = $state<string | null>(null);
  /** A cable that is being filled in. */
  run_asked = $state.raw<Drafted | null>(null);
  /** A list of the document that is filled in by form. */
  list_form = $state<ListName | null>(null);
  history = $state(false);
  start_shown = $state(false);

  open_site_form(at: string | null = null): void {
    this.site_form_at = at;
    this.site_form = true;
  }
  lay_print(print: Omit<Print, "id">): void {
    this.prints = [...this.prints, { ...print, id: random_word() }];
  }
  change_print(id: string, change: Partial<Omit<Print, "id">>): void {
    this.prints = this.prints.map((print) => (print.id === id ? { ...print, ...change } : print));
  }
  take_print(id: string): void {
    this.prints = this.prints.filter((print) => print.id !== id);
  }
  clear(): void {
    this.prints = [];
    this.section = null;
    this.card = null;
    this.scene = null;
    this.run_asked = null;
    this.list_form = null;
  }
}

export const desk = new Desk();
