// SPDX-License-Identifier: GPL-3.0-or-later
// What is opened comes into sight, which on a phone it is not by itself; what lies over the sheet takes the focus as well,
// and gives it back to where it came from when it is put away.

export function comes_into_sight(node: HTMLElement): void {
  const drawing = node.closest("main");
  if (drawing) drawing.scrollIntoView({ block: "nearest" });
  else node.scrollIntoView({ block: "center" });
}

export function takes_focus(node: HTMLElement): () => void {
  const before = document.activeElement;
  node.focus({ preventScroll: true });
  comes_into_sight(node);
  return () => {
    const lost = document.activeElement === null || document.activeElement === document.body;
    if (lost && before instanceof HTMLElement && before.isConnected) before.focus();
  };
}
