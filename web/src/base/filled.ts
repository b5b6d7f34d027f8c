// SPDX-License-Identifier: GPL-3.0-or-later

/** `{name}` in a pattern is filled in; what a value holds is left as it is, braces too. */
export function filled(pattern: string, values: Readonly<Record<string, string | number>>): string {
  return pattern.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}
