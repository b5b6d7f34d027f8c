// SPDX-License-Identifier: GPL-3.0-or-later
// Tilt and height of the camera in the section while they are being set: shown at once as trial changes, one edit when
// let go or when no key has come for a while.
import { edit_words } from "../../base/edit_words";
import { altered, member } from "../../store/changes";
import { desk } from "../../store/desk.svelte";
import { site } from "../../store/site.svelte";
import type { Change } from "../../wire/answers";
import type { Camera, Mount } from "../../wire/document";
import type { Frame, Paper } from "./frame";

const kKeysRest_ms = 700;

export class Setting {
  /** The paper under a handle that is held. */
  held = $state.raw<{ readonly paper: Paper; readonly frame: Frame } | null>(null);
  private resting: ReturnType<typeof setTimeout> | undefined;

  readonly camera = $derived.by((): Camera | null =>
    site.shown && desk.section ? member(site.shown, { list: "cameras", name: desk.section }) : null,
  );
  readonly mount = $derived.by((): Mount | null =>
    site.shown && this.camera ? member(site.shown, { list: "site/mounts", name: this.camera.mount }) : null,
  );

  tilt(tilt_deg: number): void {
    const was =
      site.document && this.camera ? member(site.document, { list: "cameras", name: this.camera.name }) : null;
    if (was) this.put(altered("cameras", was, { ...was, tilt_deg }));
  }
  height(height_m: number): void {
    const was =
      site.document && this.mount ? member(site.document, { list: "site/mounts", name: this.mount.name }) : null;
    if (was) this.put(altered("site/mounts", was, { ...was, height_m }));
  }

  /** Together with what is tried already, but for the same object. */
  private put(change: Change): void {
    const others = site.trial.filter((each) => each.at.join("/") !== change.at.join("/"));
    site.try_out([...others, change]);
  }
  settle(): void {
    clearTimeout(this.resting);
    if (site.trial.length > 0) void site.settle(edit_words("section", { camera: this.camera?.name ?? "" }));
  }
  settle_soon(): void {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.settle(), kKeysRest_ms);
  }
  drop(): void {
    clearTimeout(this.resting);
    site.drop();
  }
}
