// SPDX-License-Identifier: GPL-3.0-or-later
// Papers of the open site: asked of the server, which makes what the command line makes.
import { text } from "../base/text.svelte";
import { failure_in_words } from "../store/notes.svelte";
import { papering } from "../store/papering.svelte";
import * as server from "../wire/server";
import type { PapersQuestion } from "../wire/server";
import { add_acts } from "./acts";

export type PapersAsked = Omit<PapersQuestion, "id">;

export async function make_papers(asked: PapersAsked): Promise<void> {
  if (papering.making) return;
  const aborter = new AbortController();
  const id = papering.started(() => aborter.abort());
  try {
    papering.ended(id, await server.papers({ ...asked, id }, aborter.signal));
  } catch (failure) {
    const stopped = failure instanceof DOMException && failure.name === "AbortError";
    papering.refused(id, stopped ? text("papers.stopped") : failure_in_words(failure));
  }
}

add_acts([{ id: "make_papers", group: "site", keys: ["Shift+q"], run: () => (papering.shown = true) }]);
