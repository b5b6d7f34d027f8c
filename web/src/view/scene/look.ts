// SPDX-License-Identifier: GPL-3.0-or-later
// Where the eye of the scene is put when the scene is asked for: beside a place and the camera that sees it, else ahead
// of the camera.
//   Checked  test/view/orbit.test.ts
import type { SceneAsked } from "../../store/desk.svelte";
import type { SceneAnswer } from "../asks";
import { ahead_of, beside, type Orbit } from "./orbit";

const kWhole: Orbit = { target: [0, 0, 0], distance: 60, heading: 30, down: 35 };

export function first_look(
  asked: SceneAsked,
  cameras: SceneAnswer["cameras"],
  ground_z: (at: readonly [number, number]) => number,
): Orbit {
  const camera = cameras.find((each) => each.name === asked.camera);
  const at = asked.at;
  if (at) return beside(camera?.eye ?? [at[0] - 20, at[1] - 20, 10], [at[0], at[1], ground_z(at) + 1.2]);
  if (!camera || camera.corners.length === 0) return kWhole;
  const aim = ahead_of(camera.eye, camera.corners, 12);
  return beside(camera.eye, [aim[0], aim[1], ground_z(aim) + 1]);
}
