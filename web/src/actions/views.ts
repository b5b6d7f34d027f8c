// SPDX-License-Identifier: GPL-3.0-or-later
// Acts of the views beside the drawing: needs, light, pictures. What they are about is the camera selected, else the
// worst place of the need chosen.
import type { SitePoint } from "../base/plane";
import { choice } from "../store/choice.svelte";
import { desk } from "../store/desk.svelte";
import { judged } from "../store/judged.svelte";
import { margin } from "../store/margin.svelte";
import { sheet } from "../store/sheet.svelte";
import { site } from "../store/site.svelte";
import { tried } from "../store/tried.svelte";
import { walks } from "../store/walks.svelte";
import type { Worst } from "../wire/answers";
import type { Condition, Need } from "../wire/document";
import type { Mover } from "../view/asks";
import { condition_of, minutes_by_key, moment_of } from "../view/dayband/band";
import { mover_of } from "../view/prints/mover";
import { add_acts } from "./acts";

interface About {
  readonly camera: string;
  readonly at?: SitePoint;
  readonly need?: string;
  readonly mover: Mover;
}

function chosen_need(): Need | null {
  return site.document?.needs?.find((each) => each.name === choice.need) ?? null;
}
function worst(): Worst | null {
  return choice.need === null ? null : (judged.need(choice.need)?.worst ?? null);
}

function about(): About | null {
  const selected = choice.camera;
  if (selected) return { camera: selected.name, mover: "walker" };
  const need = chosen_need();
  const place = worst();
  const camera = place?.camera ?? site.document?.cameras?.[0]?.name;
  if (!need || !place || !camera) return null;
  return { camera, at: [place.at[0], place.at[1]], need: need.name, mover: mover_of(need.subject) };
}
const is_about = (): boolean => about() !== null;

function lay_picture(): void {
  const of = about();
  const condition = choice.condition;
  if (of && condition) desk.lay_print({ ...of, condition });
}
function open_scene(): void {
  const of = about();
  if (of) desk.scene = { camera: of.camera, ...(of.at && { at: of.at }) };
}

/** Chosen, its worst place in sight, and seen in the condition in which it is worst. */
export function choose_need(name: string): void {
  choice.take_need(name);
  const place = worst();
  if (!place) return;
  choice.take_condition(place.condition);
  sheet.show([place.at[0], place.at[1]]);
}
/** The plan again, wherever it was moved to and whatever lies over it, about the worst place of the need chosen. */
export function show_worst(): void {
  const place = worst();
  if (!place) return;
  desk.scene = null;
  choice.take_condition(place.condition);
  sheet.centre([place.at[0], place.at[1]]);
}
function step_need(by: number): void {
  const needs = site.document?.needs ?? [];
  const index = needs.findIndex((each) => each.name === choice.need);
  const start = index < 0 && by < 0 ? 0 : index;
  const next = needs[(start + by + needs.length) % needs.length];
  if (next) choose_need(next.name);
}

function shown_condition(): Condition | null {
  const shown = choice.condition;
  if (typeof shown !== "string") return shown;
  return site.document?.conditions.find((each) => each.name === shown) ?? null;
}
function has_hour(): boolean {
  const condition = shown_condition();
  return condition?.date !== undefined && condition.time !== undefined;
}
function step_hour(key: string): void {
  const condition = shown_condition();
  if (!condition || !has_hour()) return;
  const moment = moment_of(condition, { date: "", minutes: 0, leaves: "on", sky: "clear" });
  choice.take_condition(condition_of({ ...moment, minutes: minutes_by_key(key, moment.minutes) ?? moment.minutes }));
}
function next_condition(): void {
  const conditions = site.document?.conditions ?? [];
  const index = conditions.findIndex((each) => each.name === choice.condition);
  const next = conditions[(index + 1) % conditions.length];
  if (next) choice.take_condition(next.name);
}

function way_of_need(): Need | null {
  const need = chosen_need();
  const place = site.document?.site.places?.find((each) => each.name === need?.place);
  return need && place && place.kind !== "zone" ? need : null;
}
function walk_need(): void {
  const need = way_of_need();
  const of = about();
  const condition = worst()?.condition ?? choice.condition;
  if (need && of && condition)
    walks.open({ route: need.place, camera: of.camera, condition, mover: mover_of(need.subject) });
}

/** On a narrow page the slip of what is selected would lie over the form. */
function add_need(): void {
  if (globalThis.innerWidth <= 832) choice.nothing();
  margin.adding = true;
}

const remedy = () => (choice.need === null ? null : (judged.need(choice.need)?.remedy ?? null));
const has_needs = (): boolean => (site.document?.needs?.length ?? 0) > 0;

add_acts([
  {
    id: "add_need",
    group: "needs",
    keys: ["a"],
    can: () => (site.document?.site.places?.length ?? 0) > 0,
    run: add_need,
  },
  { id: "next_need", group: "needs", keys: ["j"], can: has_needs, run: () => step_need(1) },
  { id: "previous_need", group: "needs", keys: ["Shift+j"], can: has_needs, run: () => step_need(-1) },
  { id: "show_worst", group: "needs", keys: ["Shift+n"], can: () => worst() !== null, run: show_worst },
  {
    id: "try_remedy",
    group: "needs",
    keys: ["y"],
    can: () => (remedy()?.changes?.length ?? 0) > 0,
    run: () => {
      const found = remedy();
      if (found && choice.need !== null) void tried.try_out(choice.need, found);
    },
  },
  {
    id: "take_remedy_back",
    group: "needs",
    keys: ["Shift+y"],
    can: () => choice.need !== null && tried.of(choice.need) !== null,
    run: () => choice.need !== null && void tried.take_back(choice.need),
  },
  { id: "hour_later", group: "light", keys: ["i"], can: has_hour, run: () => step_hour("ArrowRight") },
  { id: "hour_earlier", group: "light", keys: ["u"], can: has_hour, run: () => step_hour("ArrowLeft") },
  { id: "next_condition", group: "light", keys: ["o"], run: next_condition },
  { id: "lay_picture", group: "pictures", keys: ["p"], can: is_about, run: lay_picture },
  { id: "open_scene", group: "pictures", keys: ["3"], can: is_about, run: open_scene },
  {
    id: "open_section",
    group: "pictures",
    keys: ["s"],
    can: is_about,
    run: () => (desk.section = about()?.camera ?? null),
  },
  {
    id: "open_card",
    group: "pictures",
    keys: ["d"],
    can: is_about,
    run: () => {
      const of = about();
      if (of) desk.card = { camera: of.camera };
    },
  },
  {
    id: "walk_need",
    group: "pictures",
    keys: ["Shift+w"],
    can: () => way_of_need() !== null && is_about(),
    run: walk_need,
  },
  { id: "go_to_field", group: "look", keys: ["e"], run: () => (desk.field = true) },
]);
