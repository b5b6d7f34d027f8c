// SPDX-License-Identifier: GPL-3.0-or-later
// What would be left hanging if an object of a list that is not drawn were taken away.
import { members } from "../store/changes";
import type { ListName, ProjectDocument } from "../wire/document";

const names = (all: readonly { readonly name: string }[]): string[] => all.map((each) => each.name);

/** Names of what leads to it; a document keeps one condition at least. */
export function used_by(document: ProjectDocument, list: ListName, name: string): string[] {
  if (list === "catalogue") return names(members(document, "cameras").filter((camera) => camera.sheet === name));
  if (list === "conditions") {
    const users = names(members(document, "needs").filter((need) => need.conditions?.includes(name)));
    return users.length === 0 && document.conditions.length === 1 ? [document.name] : users;
  }
  if (list !== "settings/level_tables") return [];
  return document.settings?.level_table === name ? [document.name] : [];
}
