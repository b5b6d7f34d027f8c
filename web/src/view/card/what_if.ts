// SPDX-License-Identifier: GPL-3.0-or-later
// What if a camera were set otherwise, or its infrared stronger: changes of the document for one answer alone.
//   Checked  test/view/axes.test.ts
import { altered, member } from "../../store/changes";
import type { CardAsked } from "../../store/desk.svelte";
import type { Change } from "../../wire/answers";
import type { Camera, CameraSheet, ProjectDocument } from "../../wire/document";

export interface WhatIf {
  readonly focus_m?: number;
  readonly shutter_s?: number;
  readonly focal_mm?: number;
  readonly infrared_draw_w?: number;
}

export function camera_of(document: ProjectDocument, asked: CardAsked): Camera | null {
  return "camera" in asked ? member(document, { list: "cameras", name: asked.camera }) : null;
}

export function sheet_of(document: ProjectDocument, asked: CardAsked): CameraSheet | null {
  const name = "sheet" in asked ? asked.sheet : camera_of(document, asked)?.sheet;
  return name === undefined ? null : member(document, { list: "catalogue", name });
}

/** The power drawn, where the sheet's infrared is known by it alone: a stated intensity would be in force instead. */
export function infrared_draw_w(sheet: CameraSheet | null): number | null {
  const infrared = sheet?.infrared;
  const draw = infrared?.["draw_w"];
  return typeof draw === "number" && infrared?.["intensity_w_sr"] === undefined ? draw : null;
}

export function changes_for(document: ProjectDocument, asked: CardAsked, what_if: WhatIf): Change[] {
  const { infrared_draw_w: draw_w, ...settings } = what_if;
  const camera = camera_of(document, asked);
  const sheet = sheet_of(document, asked);
  const changes: Change[] = [];
  if (camera && Object.keys(settings).length > 0) changes.push(altered("cameras", camera, { ...camera, ...settings }));
  if (sheet && draw_w !== undefined)
    changes.push(altered("catalogue", sheet, { ...sheet, infrared: { ...sheet.infrared, draw_w } }));
  return changes;
}
