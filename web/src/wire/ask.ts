// SPDX-License-Identifier: GPL-3.0-or-later
// One request to the server, typed. What goes wrong is thrown as a WireError: its texts are the server's words, in the
// language of the page.
import { plain, said_field, said_place, told, type Told } from "../base/text.svelte";
import type { Conflict, ServerError } from "./answers";

/** A name that nothing else has. crypto.randomUUID is not there on a page that came over a network without encryption. */
export const random_word = (): string =>
  Array.from(crypto.getRandomValues(new Uint32Array(4)), (word) => word.toString(36)).join("");

/** Names this page to the server; a new one each time the page is loaded. */
export const tab = random_word();

/** Status 0: nobody answered. */
export class WireError extends Error {
  constructor(
    readonly status: number,
    readonly errors: readonly ServerError[],
    readonly conflicts: readonly Conflict[] = [],
    /** The answer as it came: an import tells of its conflicts more than an edit. */
    readonly body: unknown = null,
  ) {
    super(plain(in_words(errors)));
  }
}

/** A line for each. */
export function in_words(errors: readonly ServerError[]): readonly Told[] {
  return errors.flatMap((error, i) => {
    const where = [said_place(error.object ?? ""), said_field(error.field ?? "")].filter((part) => part).join(", ");
    return [{ words: (i > 0 ? "\n" : "") + (where ? `${where}: ` : "") }, ...told(error.text)];
  });
}

export function get<Answer>(path: string, signal?: AbortSignal): Promise<Answer> {
  return answered<Answer>(path, { method: "GET", ...(signal && { signal }) });
}

export function post<Answer>(path: string, body: unknown, signal?: AbortSignal): Promise<Answer> {
  const headers = { "Content-Type": "application/json", "X-Sightfall-Tab": tab };
  return answered<Answer>(path, { method: "POST", headers, body: JSON.stringify(body), ...(signal && { signal }) });
}

export function put_file<Answer>(path: string, file: Blob): Promise<Answer> {
  return answered<Answer>(path, { method: "PUT", headers: { "X-Sightfall-Tab": tab }, body: file });
}

export function post_file<Answer>(path: string, file: Blob, signal: AbortSignal): Promise<Answer> {
  return answered<Answer>(path, { method: "POST", headers: { "X-Sightfall-Tab": tab }, body: file, signal });
}

async function answered<Answer>(path: string, request: RequestInit): Promise<Answer> {
  let response: Response;
  try {
    response = await fetch(path, request);
  } catch (failure) {
    if (failure instanceof DOMException && failure.name === "AbortError") throw failure;
    throw new WireError(0, []);
  }
  const body: unknown = await response.json().catch(() => null);
  if (response.ok) return body as Answer;
  // The program always answers in JSON: what comes without is from something between, and the program is not there.
  throw body === null && response.status >= 500 ? new WireError(0, []) : refused(response.status, body);
}

function refused(status: number, body: unknown): WireError {
  const told = (body ?? {}) as { errors?: ServerError[]; conflicts?: Conflict[] };
  return new WireError(status, told.errors ?? [], told.conflicts ?? [], body);
}
