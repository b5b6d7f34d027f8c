// SPDX-License-Identifier: GPL-3.0-or-later
// A need while it is being filled in: every field there, none of them left out; and back to what the document keeps.
//   Checked  test/view/sentence.test.ts
import type { Level } from "../../store/stock.svelte";
import type { Need, Place } from "../../wire/document";
import type { PlaceKind } from "./sentence";

export interface Draft {
  name: string;
  subject: string;
  place: string;
  level: string;
  always: boolean;
  conditions: readonly string[];
  share_percent: number;
  once_a_passage: number | null;
  facing: "camera" | "travel" | "heading";
  facing_deg: number | null;
  colour: boolean;
  height_m: number | null;
  speed_m_s: number | null;
  shutter_s: number | null;
  detector_height_px: number | null;
}

const kShare = 0.95;

interface Choices {
  readonly places: readonly Place[];
  readonly levels: readonly Level[];
}

export function draft_of(need: Need | null, choices: Choices): Draft {
  const middle = choices.levels[Math.floor((choices.levels.length - 1) / 2)];
  return {
    name: need?.name ?? "",
    subject: need?.subject ?? "person",
    place: need?.place ?? choices.places[0]?.name ?? "",
    level: need?.level ?? middle?.name ?? "",
    always: need ? need.conditions === undefined : true,
    conditions: need?.conditions ?? [],
    share_percent: Math.round((need?.share ?? kShare) * 1000) / 10,
    once_a_passage: need?.once_a_passage ?? null,
    facing: need?.facing ?? "camera",
    facing_deg: need?.facing_deg ?? null,
    colour: need?.colour ?? false,
    height_m: need?.height_m ?? null,
    speed_m_s: need?.speed_m_s ?? null,
    shutter_s: need?.shutter_s ?? null,
    detector_height_px: need?.detector_height_px ?? null,
  };
}

/** What is kept: fields at their default are left out, and so is what the place cannot have. */
export function need_of(draft: Draft, kind: PlaceKind): Need {
  const passage = kind === "route" ? draft.once_a_passage : null;
  const facing = kind !== "route" && draft.facing === "travel" ? "camera" : draft.facing;
  const share = Number((draft.share_percent / 100).toFixed(4));
  return without_nothing({
    name: draft.name,
    subject: draft.subject,
    place: draft.place,
    level: draft.level,
    conditions: draft.always || draft.conditions.length === 0 ? null : draft.conditions,
    share: share === kShare ? null : share,
    once_a_passage: passage,
    facing: facing === "camera" ? null : facing,
    facing_deg: facing === "heading" ? (draft.facing_deg ?? 0) : null,
    height_m: draft.height_m,
    speed_m_s: draft.speed_m_s,
    shutter_s: draft.shutter_s,
    detector_height_px: draft.detector_height_px,
    colour: draft.colour ? true : null,
  });
}

type Filled<T> = { [K in keyof T]-?: Exclude<T[K], undefined> | null };

function without_nothing(filled: Filled<Need>): Need {
  return Object.fromEntries(Object.entries(filled).filter(([, value]) => value !== null)) as unknown as Need;
}
