import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  cables_from,
  drafted,
  feed_named,
  free_ports,
  free_run_name,
  open_ends,
  run_of,
  runs_of,
  suggested_run,
} from "../../src/store/cables";
import { free_name, member, members, with_changes } from "../../src/store/changes";
import { copied, moves, pasted, removals } from "../../src/store/editing";
import { picked } from "../../src/store/pick";
import { shape_of, site_box } from "../../src/store/shapes";
import { snapped, snapping_of } from "../../src/store/snap";
import type { ProjectDocument } from "../../src/wire/document";

const demo = JSON.parse(
  readFileSync(new URL("../../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"),
) as ProjectDocument;
const feed = (name: string) => feed_named(demo, name)!;
const run = (document: ProjectDocument, name: string) => member(document, { list: "site/runs", name });

describe("feeds, ways and cables on the sheet", () => {
  it("a feed is a spot, a way a line, a run a tie between what it joins", () => {
    expect(shape_of(demo, feed("shop switch"))).toMatchObject({ form: "spot", points: [[58, 26]] });
    const way = member(demo, { list: "site/ways", name: "gate trench" })!;
    expect(shape_of(demo, way)).toMatchObject({
      form: "line",
      points: [
        [43.9, 20],
        [38.5, 20],
      ],
    });
    const tie = shape_of(demo, run(demo, "C1")!);
    expect(tie).toMatchObject({
      form: "tie",
      points: [
        [58, 26],
        [38.5, 20],
      ],
    });
    expect(shape_of(demo, { name: "x", from: "shop switch", to: "nowhere", cable: "y" })).toBe(null);
  });
  it("feeds and ways are picked, runs only where they are drawn, along their lines", () => {
    expect(picked(demo, [58, 26], 0.3)[0]).toEqual({ list: "site/feeds", name: "shop switch" });
    expect(picked(demo, [41, 20.1], 0.3).map((ref) => ref.name)).toContain("gate trench");
    const half_way = [48.25, 23] as const;
    const runs = (lines?: ReadonlyMap<string, readonly (readonly [number, number])[]>) =>
      picked(demo, half_way, 0.3, lines).filter((ref) => ref.list === "site/runs");
    const tie = shape_of(demo, run(demo, "C1")!)!.points;
    expect(runs()).toEqual([]);
    expect(runs(new Map([["C1", tie]]))).toEqual([{ list: "site/runs", name: "C1" }]);
    expect(runs(new Map([["C1", [tie[0]!, [58, 20], tie[1]!]]]))).toEqual([]);
  });
  it("new points snap onto feeds and ways, not onto ties", () => {
    const to = snapping_of(demo);
    expect(snapped([58.1, 26.1], to, 0.3)).toMatchObject({ at: [58, 26], kind: "end" });
    expect(snapped([41.2, 20.1], to, 0.3).kind).toBe("edge");
    expect(to.edges.some(([a, b]) => a[0] === 58 && a[1] === 26 && b[0] === 38.5 && b[1] === 20)).toBe(false);
  });
  it("they move and stay whole; a run has nothing to move", () => {
    const after = with_changes(
      demo,
      moves(
        demo,
        [
          { list: "site/feeds", name: "router" },
          { list: "site/ways", name: "gate trench" },
          { list: "site/runs", name: "C1" },
        ],
        [1, 2],
      ),
    );
    expect(feed_named(after, "router")?.at).toEqual([60.2, 28]);
    expect(member(after, { list: "site/ways", name: "gate trench" })?.line[0]).toEqual([44.9, 22]);
    expect(run(after, "C1")).toBe(run(demo, "C1"));
  });
  it("a site of feeds alone is not empty", () => {
    const bare = { ...demo, site: { feeds: demo.site.feeds! }, cameras: [] } as ProjectDocument;
    expect(site_box(bare)?.west).toBe(22);
  });
});

describe("taking away", () => {
  it("a feed takes its runs along, and what its battery carried names it no longer", () => {
    const after = with_changes(demo, removals(demo, [{ list: "site/feeds", name: "shop switch" }]));
    expect(members(after, "site/runs").map((each) => each.name)).toEqual(["C6", "C7", "C8", "N2"]);
    const dark = with_changes(demo, removals(demo, [{ list: "site/feeds", name: "shop battery" }]));
    expect(members(dark, "site/feeds").some((each) => each.battery !== undefined)).toBe(false);
    expect(members(dark, "site/runs").length).toBe(members(demo, "site/runs").length);
  });
  it("a mount takes its camera along, and that its cable", () => {
    const mount = member(demo, { list: "cameras", name: "till" })!.mount;
    const after = with_changes(demo, removals(demo, [{ list: "site/mounts", name: mount }]));
    expect(run(after, "C3")).toBe(null);
  });
  it("a way is unlisted where a run was led along it", () => {
    const led = with_changes(demo, [
      {
        at: ["site", "runs", "C1"],
        was: run(demo, "C1"),
        now: { ...run(demo, "C1")!, along: ["shop tray", "gate trench"] },
      },
    ]);
    const after = with_changes(led, removals(led, [{ list: "site/ways", name: "gate trench" }]));
    expect(run(after, "C1")).toEqual(run(demo, "C1"));
    const both = removals(led, [
      { list: "site/ways", name: "gate trench" },
      { list: "site/feeds", name: "shop switch" },
    ]);
    expect(both.filter((change) => change.at.at(-1) === "C1").map((change) => change.now)).toEqual([null]);
  });
});

describe("copies", () => {
  it("of what a cable joins are joined by a new cable; from the old feed at its next free port", () => {
    const refs = [
      { list: "cameras", name: "till" },
      { list: "cameras", name: "yard" },
      { list: "site/runs", name: "C3" },
      { list: "site/runs", name: "C4" },
    ] as const;
    const after = with_changes(demo, pasted(demo, copied(demo, refs), [3, 3]).changes);
    expect(run(after, "C9")).toMatchObject({ from: "shop switch", port: 6, to: "till 2" });
    expect(run(after, "C10")).toMatchObject({ from: "shop switch", port: 7, to: "yard 2" });
  });
  it("of a feed and its battery hang together", () => {
    const refs = [
      { list: "site/feeds", name: "recorder" },
      { list: "site/feeds", name: "shop battery" },
    ] as const;
    const after = with_changes(demo, pasted(demo, copied(demo, refs), [3, 3]).changes);
    expect(feed_named(after, "recorder 2")).toMatchObject({ at: [61.6, 29], battery: "shop battery 2" });
  });
  it("of a run alone are none: two cannot lead to one thing", () => {
    expect(pasted(demo, copied(demo, [{ list: "site/runs", name: "C1" }]), [3, 3]).changes).toEqual([]);
  });
});

describe("a new cable", () => {
  it("has the next free name and port", () => {
    expect(free_run_name(demo)).toBe("C9");
    expect(free_run_name(demo, "N1")).toBe("N3");
    expect(free_ports(demo, feed("shop switch"))).toEqual([6, 7]);
    expect(free_ports(demo, feed("shop switch"), "C1")).toEqual([1, 6, 7]);
    expect(free_ports(demo, feed("shop battery"))).toEqual([]);
  });
  it("leads to what no other of its kind leads to, and closes no loop", () => {
    expect(open_ends(demo, feed("shed switch"))).toEqual([]);
    const bare = with_changes(
      demo,
      removals(demo, [
        { list: "site/runs", name: "C1" },
        { list: "site/runs", name: "N2" },
      ]),
    );
    // The shop's switch and the recorder carry it: a cable to one of these would close a loop.
    expect(open_ends(bare, feed("shed switch"))).toEqual(["gate faces", "router"]);
  });
  it("of power goes to what network leads to already", () => {
    const supply = { kind: "supply", name: "12 V", at: [40, 20], voltage_v: 12, rating_w: 60 } as const;
    const with_supply = with_changes(demo, [{ at: ["site", "feeds", "12 V"], was: null, now: supply }]);
    expect(open_ends(with_supply, supply)).toContain("gate faces");
    expect(suggested_run(with_supply, { list: "site/feeds", name: "12 V" })?.to).toBe("gate faces");
    const draft = drafted(with_supply, { from: "12 V", to: "gate faces" });
    expect(draft.port).toBe(null);
    expect(cables_from(supply)).toContain(draft.cable);
    expect(cables_from(feed("shop switch"))).not.toContain(draft.cable);
    expect("port" in run_of(draft)).toBe(false);
  });
  it("to a camera comes from the nearest feed with a free port", () => {
    const bare = with_changes(demo, removals(demo, [{ list: "site/runs", name: "C6" }]));
    const ends = suggested_run(bare, { list: "cameras", name: "drive" });
    expect(ends).toEqual({ from: "shed switch", to: "drive" });
    expect(run_of(drafted(bare, ends!))).toEqual({
      name: "C6",
      from: "shed switch",
      port: 1,
      to: "drive",
      cable: "Cat6 U/UTP, outdoor",
    });
  });
  it("is drawn with what it begins or ends at", () => {
    const names = (list: "site/feeds" | "cameras" | "site/mounts", name: string) =>
      runs_of(demo, [{ list, name }]).map((each) => each.name);
    expect(names("site/feeds", "shed switch")).toEqual(["C6", "C7", "C8", "F1"]);
    expect(names("cameras", "till")).toEqual(["C3"]);
    expect(names("site/mounts", member(demo, { list: "cameras", name: "till" })!.mount)).toEqual(["C3"]);
  });
  it("no camera is named like a feed", () => {
    expect(free_name(demo, "cameras", "router")).toBe("router 2");
  });
});
