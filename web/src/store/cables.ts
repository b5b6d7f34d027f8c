// SPDX-License-Identifier: GPL-3.0-or-later
// Cables of the site: what a new one would join, under which name and at which port; which are drawn. Where a cable lies
// and how long it is the program works out (laid.svelte.ts).
import { distance } from "../base/plane";
import { cables as stock } from "../../../data/cables.json";
import type { Feed, ListTypes, ProjectDocument, Run } from "../wire/document";
import type { Ref } from "./changes";
import { members } from "./changes";
import { end_of_run } from "./shapes";

/** Kinds of cable that the program knows, by data/cables.json. */
export const kCables: readonly { readonly name: string; readonly medium: string }[] = stock;

/** From a supply goes a cable of conductors, from a port one of pairs or fibre. */
export function cables_from(feed: Feed | null): string[] {
  const power = feed?.kind === "supply";
  return kCables.filter((cable) => (cable.medium === "conductors") === power).map((cable) => cable.name);
}
function carries_power(run: Run): boolean {
  return kCables.some((cable) => cable.name === run.cable && cable.medium === "conductors");
}

/** What a cable can start at. */
export function starts(document: ProjectDocument): Feed[] {
  return members(document, "site/feeds").filter((feed) => feed.kind !== "battery");
}

export function feed_named(document: ProjectDocument, name: string): Feed | null {
  return members(document, "site/feeds").find((feed) => feed.name === name) ?? null;
}

/** Ports of a feed that no other run uses; a supply and a battery have none. */
export function free_ports(document: ProjectDocument, feed: Feed, but?: string): number[] {
  const count = "ports" in feed ? feed.ports : 0;
  const runs = members(document, "site/runs").filter((run) => run.from === feed.name && run.name !== but);
  const used = new Set(runs.map((run) => run.port));
  return Array.from({ length: count }, (_, i) => i + 1).filter((port) => !used.has(port));
}

/** Cameras, then feeds, that no run of the kind leads to yet: one of network and one of power each. */
export function open_ends(document: ProjectDocument, from: Feed): string[] {
  const power = from.kind === "supply";
  const taken = new Set(
    members(document, "site/runs")
      .filter((run) => carries_power(run) === power)
      .map((run) => run.to),
  );
  const above = power ? new Set<string>() : hung_above(document, from.name);
  const feeds = starts(document).filter((feed) => feed.name !== from.name && !above.has(feed.name));
  return [...members(document, "cameras"), ...feeds].map((each) => each.name).filter((name) => !taken.has(name));
}

/** What a feed hangs on, all the way up: a cable to one of these would close a loop. */
function hung_above(document: ProjectDocument, name: string): Set<string> {
  const above = new Set<string>();
  const runs = members(document, "site/runs").filter((run) => !carries_power(run));
  for (let at = name; ;) {
    const up = runs.find((run) => run.to === at)?.from;
    if (up === undefined || above.has(up)) return above;
    above.add(up);
    at = up;
  }
}

/** `C1`, `C2`: the letters of `like` with the first number that is free. */
export function free_run_name(document: ProjectDocument, like = "C1", taken: readonly string[] = []): string {
  const names = new Set([...members(document, "site/runs").map((run) => run.name), ...taken]);
  const stem = like.replace(/\d+$/, "");
  for (let number = 1; ; ++number) {
    if (!names.has(`${stem}${number}`)) return `${stem}${number}`;
  }
}

/** The runs that begin or end at one of `refs`, or are one of them. */
export function runs_of(document: ProjectDocument, refs: readonly Ref[]): Run[] {
  const at = (list: string, name: string): boolean => refs.some((ref) => ref.list === list && ref.name === name);
  const ends = (name: string): boolean => at("site/feeds", name) || at("cameras", name);
  return members(document, "site/runs").filter(
    (run) => at("site/runs", run.name) || ends(run.from) || ends(run.to) || at_mount(document, refs, run),
  );
}
function at_mount(document: ProjectDocument, refs: readonly Ref[], run: Run): boolean {
  const camera = members(document, "cameras").find((each) => each.name === run.to);
  return refs.some((ref) => ref.list === "site/mounts" && ref.name === camera?.mount);
}

/** A cable to be filled in. */
export interface Drafted {
  readonly from: string;
  readonly to: string;
}

/** From the feed chosen, or to the camera or feed chosen: the other end is the nearest that is free. */
export function suggested_run(document: ProjectDocument, chosen: Ref | null): Drafted | null {
  const feeds = starts(document);
  const own = chosen?.list === "site/feeds" ? feeds.find((feed) => feed.name === chosen.name) : undefined;
  if (own && open_ends(document, own).length > 0)
    return { from: own.name, to: nearest(document, own.name, open_ends(document, own)) };
  const to = chosen?.list === "cameras" ? chosen.name : null;
  const free = feeds.filter((feed) => feed.kind === "supply" || free_ports(document, feed).length > 0);
  if (to !== null) {
    const able = free.filter((feed) => open_ends(document, feed).includes(to)).map((feed) => feed.name);
    if (able.length > 0) return { from: nearest(document, to, able), to };
  }
  const first = free.find((feed) => open_ends(document, feed).length > 0);
  return first ? { from: first.name, to: nearest(document, first.name, open_ends(document, first)) } : null;
}

function nearest(document: ProjectDocument, to: string, names: readonly string[]): string {
  const at = end_of_run(document, to);
  const away = (name: string): number => {
    const there = end_of_run(document, name);
    return at && there ? distance(at, there) : Infinity;
  };
  return [...names].sort((a, b) => away(a) - away(b))[0] ?? "";
}

export interface RunDraft extends Drafted {
  readonly name: string;
  readonly port: number | null;
  readonly cable: string;
}

/** Port, cable and name of a new run: the first port that is free, the cable used last to another end of the kind. */
export function drafted(document: ProjectDocument, ends: Drafted): RunDraft {
  const feed = feed_named(document, ends.from);
  const able = cables_from(feed);
  const to_feed = feed_named(document, ends.to) !== null;
  const last = members(document, "site/runs")
    .filter((run) => able.includes(run.cable) && (feed_named(document, run.to) !== null) === to_feed)
    .at(-1)?.cable;
  const port = feed ? (free_ports(document, feed)[0] ?? null) : null;
  const usual = able.find((name) => name.startsWith("Cat6 U/UTP, outdoor"));
  return { ...ends, name: free_run_name(document), port, cable: last ?? usual ?? able[0] ?? "" };
}

export function run_of(draft: RunDraft): ListTypes["site/runs"] {
  const { name, from, port, to, cable } = draft;
  return { name, from, ...(port !== null && { port }), to, cable };
}
