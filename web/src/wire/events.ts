// SPDX-License-Identifier: GPL-3.0-or-later
// The stream of what happens at the server. When it breaks it is opened anew after a pause that grows to five seconds; the
// server's `hello` then says whether something was missed.
import type { ServerEvents } from "./answers";
import { tab } from "./ask";

export type Listener = { [Name in keyof ServerEvents]: (data: ServerEvents[Name]) => void } & {
  link: (up: boolean) => void;
};

export const kNames: readonly (keyof ServerEvents)[] = ["hello", "edit", "opened", "check", "trouble", "progress"];
const kLongestPause_ms = 5000;

/** Listens until the returned function is called. */
export function listen(
  listener: Listener,
  open: (path: string) => EventSource = (path) => new EventSource(path),
): () => void {
  let source: EventSource | null = null;
  let pause_ms = 250;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const connect = (): void => {
    source = open(`/api/events?tab=${tab}`);
    source.onopen = () => {
      pause_ms = 250;
      listener.link(true);
    };
    source.onerror = () => {
      source?.close();
      listener.link(false);
      waiting = setTimeout(connect, pause_ms);
      pause_ms = Math.min(kLongestPause_ms, pause_ms * 2);
    };
    for (const name of kNames) source.addEventListener(name, (event) => heard(listener, name, event));
  };
  connect();
  return () => {
    clearTimeout(waiting);
    source?.close();
  };
}

function heard<Name extends keyof ServerEvents>(listener: Listener, name: Name, event: MessageEvent<string>): void {
  const take = listener[name] as (data: ServerEvents[Name]) => void;
  take(JSON.parse(event.data) as ServerEvents[Name]);
}
