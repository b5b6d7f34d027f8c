// SPDX-License-Identifier: GPL-3.0-or-later
// Every act of the workbench is one record: its name, its keys, when it can be done and what it does. Buttons, keys and
// the list on `?` are made from these, so none can lack one of them.
//
// The words of an act stand in texts/*.json under `acts.ID`. A key is written as the browser names it, with `Ctrl+`,
// `Shift+` or `Alt+` before it in that order (`Ctrl` stands for Command too); a key that needs Shift to be typed, such as
// `?`, is written without it.

export type ActGroup = "site" | "draw" | "change" | "look" | "needs" | "light" | "pictures";

export interface Act {
  readonly id: string;
  readonly group: ActGroup;
  readonly keys: readonly string[];
  /** Whether its key is heard while the sheet has the focus alone (arrow keys) or anywhere outside a field. */
  readonly where?: "sheet" | "page";
  readonly can?: () => boolean;
  readonly run: () => void;
}

const registered = new Map<string, Act>();

/** A key taken twice in one place is our own mistake. */
export function add_acts(acts: readonly Act[]): void {
  for (const act of acts) {
    for (const other of registered.values()) {
      const shared = other.id === act.id ? undefined : act.keys.find((key) => other.keys.includes(key));
      if (shared) throw new Error(`the key ${shared} is taken by both ${other.id} and ${act.id}`);
    }
    registered.set(act.id, act);
  }
}

export function all_acts(): readonly Act[] {
  return [...registered.values()];
}
export function act(id: string): Act {
  const found = registered.get(id);
  if (!found) throw new Error(`there is no act ${id}`);
  return found;
}
export function can(id: string): boolean {
  return act(id).can?.() ?? true;
}
export function perform(id: string): void {
  if (can(id)) act(id).run();
}

export function key_of(event: KeyboardEvent): string {
  const named = event.key === " " ? "Space" : event.key;
  const letter = named.length === 1 ? named.toLowerCase() : named;
  const typed_with_shift = named.length === 1 && letter === named && letter.toUpperCase() === letter;
  const shift = event.shiftKey && !typed_with_shift ? "Shift+" : "";
  return `${event.ctrlKey || event.metaKey ? "Ctrl+" : ""}${shift}${event.altKey ? "Alt+" : ""}${letter}`;
}

/** True when an act took the key. */
export function pressed(event: KeyboardEvent): boolean {
  const key = key_of(event);
  const target = event.target;
  if (is_field(target) && !(event.ctrlKey && key === "Ctrl+/")) return false;
  const on_sheet = target instanceof Element && target.closest("[data-sheet]") !== null;
  const found = all_acts().find((each) => each.keys.includes(key) && (each.where !== "sheet" || on_sheet));
  if (!found || !(found.can?.() ?? true)) return false;
  found.run();
  return true;
}

function is_field(target: EventTarget | null): boolean {
  if (!(target instanceof Element)) return false;
  // While a dialog is open nothing else is heard, also where what had the focus in it has gone.
  if (target.ownerDocument.querySelector("dialog[open]")) return true;
  return target.closest("input:not([type=checkbox]):not([type=radio]):not([type=range]), select, textarea") !== null;
}
