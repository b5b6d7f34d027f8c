// SPDX-License-Identifier: GPL-3.0-or-later
// Texts by a dotted key.

export interface Table {
  readonly [key: string]: string | Table;
}

export function found(table: Table, key: string): string | null {
  let at: string | Table | undefined = table;
  for (const part of key.split(".")) at = typeof at === "object" ? at[part] : undefined;
  return typeof at === "string" ? at : null;
}

/** The keys that stand right under another. */
export function keys_of(table: Table, key: string): string[] {
  const at = table[key];
  return typeof at === "object" ? Object.keys(at) : [];
}
