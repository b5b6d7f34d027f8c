// SPDX-License-Identifier: GPL-3.0-or-later
// What is opened over the sheet takes the focus, and gives it back to where it came from when it is put away.

export function takes_focus(node: HTMLElement): () => void {
  const before = document.activeElement;
  node.focus({ preventScroll: true });
  return () => {
    const lost = document.activeElement === null || document.activeElement === document.body;
    if (lost && before instanceof HTMLElement && before.isConnected) before.focus({ preventScroll: true });
  };
}
