// SPDX-License-Identifier: GPL-3.0-or-later
// A key as it stands on the keyboard.
const kShown: Record<string, string> = {
  ArrowUp: "↑",
  ArrowDown: "↓",
  ArrowLeft: "←",
  ArrowRight: "→",
  Escape: "Esc",
  Delete: "Del",
  Backspace: "⌫",
};

export function key_shown(key: string): string {
  const parts = key === "+" ? ["+"] : key.split(/\+(?=.)/);
  return parts.map((part) => kShown[part] ?? (part.length === 1 ? part.toUpperCase() : part)).join(" ");
}
