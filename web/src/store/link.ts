// SPDX-License-Identifier: GPL-3.0-or-later
// Ties the stores to the server: what the page reads first, and what each event does.
import { WireError } from "../wire/ask";
import { listen } from "../wire/events";
import * as server from "../wire/server";
import { desk } from "./desk.svelte";
import { drawing } from "./drawing.svelte";
import { importing } from "./importing.svelte";
import { judged } from "./judged.svelte";
import { map } from "./map.svelte";
import { notes } from "./notes.svelte";
import { papering } from "./papering.svelte";
import { plan_scaling } from "./plan_scaling.svelte";
import { site } from "./site.svelte";
import { stocked } from "./stock.svelte";
import { under_way } from "./under_way.svelte";

/** "open": a site is there; "start": none is; "pair": the server wants its code first. */
export type Begun = "open" | "start" | "pair";

/** The site is seen as soon as it is there, whether or not what forms are made from has come. */
async function read_open(): Promise<boolean> {
  const { open } = await server.start();
  if (open) await site.read_anew();
  return open;
}

export async function begin(): Promise<Begun> {
  try {
    const [open] = await Promise.all([read_open(), stocked.read()]);
    return open ? "open" : "start";
  } catch (failure) {
    if (failure instanceof WireError && failure.status === 401) return "pair";
    throw failure;
  }
}

export function follow(): () => void {
  return listen({
    hello: ({ revision }) => {
      if (site.document && revision !== site.revision) void site.read_anew();
    },
    edit: (event) => site.heard_edit(event),
    opened: ({ file }) => {
      if (file !== site.file) void read_another();
    },
    check: (event) => judged.heard(event),
    trouble: ({ errors }) => notes.failed(new WireError(500, errors)),
    progress: (event) => {
      judged.heard_progress(event);
      importing.heard_progress(event);
      papering.heard_progress(event);
      under_way.heard_progress(event);
    },
    link: (up) => (site.linked = up),
  });
}

export async function read_another(): Promise<void> {
  judged.forget();
  map.forget();
  desk.clear();
  drawing.take(null);
  plan_scaling.end();
  desk.start_shown = false;
  await site.read_anew();
}
