// SPDX-License-Identifier: GPL-3.0-or-later
// What happens at the server, told over a WebSocket: of those a browser opens as many as there are pages, while a server of
// HTTP/1.1 gets six connections from all of them. When it breaks it is opened anew after a pause that grows to five seconds;
// the server's `hello` then says whether something was missed.
import type { ServerEvents } from "./answers";

export type Listener = { [Name in keyof ServerEvents]: (data: ServerEvents[Name]) => void } & {
  link: (up: boolean) => void;
};
type Name = keyof ServerEvents;

export const kNames: readonly Name[] = ["hello", "edit", "opened", "check", "trouble", "progress"];
const kLongestPause_ms = 5000;

const at_server = (): WebSocket => new WebSocket(`${location.origin.replace(/^http/, "ws")}/api/events`);

/** Listens until the returned function is called. */
export function listen(listener: Listener, open: () => WebSocket = at_server): () => void {
  let socket: WebSocket;
  let pause_ms = 250;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  const connect = (): void => {
    socket = open();
    socket.onopen = () => {
      pause_ms = 250;
      listener.link(true);
    };
    socket.onclose = () => {
      if (stopped) return;
      listener.link(false);
      waiting = setTimeout(connect, pause_ms);
      pause_ms = Math.min(kLongestPause_ms, pause_ms * 2);
    };
    socket.onmessage = ({ data }: MessageEvent<string>) => {
      const { event, data: told } = JSON.parse(data) as { event: Name; data: ServerEvents[Name] };
      if (kNames.includes(event)) (listener[event] as (data: ServerEvents[Name]) => void)(told);
    };
  };
  connect();
  return () => {
    stopped = true;
    clearTimeout(waiting);
    socket.close();
  };
}
