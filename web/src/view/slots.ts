// SPDX-License-Identifier: GPL-3.0-or-later
// The rooms of the page that are fetched apart from it: each is the `Main.svelte` of its folder, takes no properties and
// reads the stores.
import type { Component } from "svelte";

export type Room = "margin" | "dayband" | "prints" | "scene" | "card" | "section" | "field";

const found = import.meta.glob<{ default: Component }>("./*/Main.svelte");

export function room(name: Room): (() => Promise<{ default: Component }>) | null {
  return found[`./${name}/Main.svelte`] ?? null;
}
