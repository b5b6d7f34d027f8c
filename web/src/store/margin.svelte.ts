// SPDX-License-Identifier: GPL-3.0-or-later
// Whether a new need is being filled in.
class Margin {
  adding = $state(false);
}

export const margin = new Margin();
