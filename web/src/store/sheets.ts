// SPDX-License-Identifier: GPL-3.0-or-later
// Giving a camera another sheet: the sheet comes into the document's catalogue, and a focal length that its lens has not
// goes.
import type { Change } from "../wire/answers";
import type { Camera, CameraSheet, ProjectDocument } from "../wire/document";
import { altered, member, put_in } from "./changes";

export function with_sheet(
  document: ProjectDocument,
  was: Camera,
  now: Camera,
  sheets: readonly CameraSheet[],
): Change[] {
  const sheet = sheets.find((each) => each.name === now.sheet);
  const missing =
    sheet && !member(document, { list: "catalogue", name: sheet.name }) ? [put_in("catalogue", sheet)] : [];
  return [...missing, altered("cameras", was, sheet ? with_lens(now, sheet) : now)];
}

function with_lens(camera: Camera, sheet: CameraSheet): Camera {
  const { focal_mm, ...others } = camera;
  const [short, long] = typeof sheet.focal_mm === "number" ? [sheet.focal_mm, sheet.focal_mm] : sheet.focal_mm;
  return focal_mm !== undefined && focal_mm >= short && focal_mm <= long ? camera : others;
}
