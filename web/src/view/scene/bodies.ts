// SPDX-License-Identifier: GPL-3.0-or-later
// What stands in the scene: bodies with their edges, a chosen camera's pyramid, a person.
import {
  Box2,
  BufferGeometry,
  CapsuleGeometry,
  DoubleSide,
  EdgesGeometry,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  SphereGeometry,
  Vector3,
} from "three";
import type { Point3, SceneAnswer, SceneBody } from "../asks";

export interface Inks {
  readonly paper: string;
  readonly raised: string;
  readonly wash: string;
  readonly ink: string;
  readonly soft: string;
  readonly hair: string;
  readonly accent: string;
}

export function inks(style: CSSStyleDeclaration): Inks {
  const of = (name: string): string => style.getPropertyValue(name).trim();
  return {
    paper: of("--paper"),
    raised: of("--paper-raised"),
    wash: of("--wash"),
    ink: of("--ink"),
    soft: of("--ink-soft"),
    hair: of("--hair"),
    accent: of("--accent"),
  };
}

/** Faces that meet at less than this are one face to the eye. */
const kFlat_deg = 20;

export function body_of(body: SceneBody, inks: Inks): { faces: Mesh; edges: LineSegments } {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new Float32BufferAttribute(body.positions, 3));
  geometry.setIndex([...body.triangles]);
  const flat = geometry.toNonIndexed();
  flat.computeVertexNormals();
  const veil = body.kind === "veil";
  const ground = body.kind === "ground";
  // what is only drawn on the site, and does not stand there
  const drawn = body.kind === "place" || body.kind === "neighbour" || body.kind === "boundary";
  const faces = new Mesh(
    flat,
    new MeshLambertMaterial({
      color: ground ? inks.paper : drawn ? inks.soft : inks.wash,
      side: DoubleSide,
      transparent: veil || drawn,
      opacity: veil || drawn ? 0.3 : 1,
      depthWrite: !veil && !drawn,
      // edges lie on the faces: these step back a little
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    }),
  );
  const line = new LineBasicMaterial({ color: ground ? inks.hair : veil || drawn ? inks.soft : inks.ink });
  const edges = new LineSegments(new EdgesGeometry(geometry, kFlat_deg), line);
  geometry.dispose();
  return { faces, edges };
}

const kPyramid_m = 15;

/** Thin lines from the eye through the picture's corners, as far as the place looked at. */
export function pyramid(camera: SceneAnswer["cameras"][number], to: Point3 | null, inks: Inks): LineSegments {
  const eye = new Vector3(...camera.eye);
  const length = to ? Math.max(kPyramid_m, eye.distanceTo(new Vector3(...to))) : kPyramid_m;
  const far = camera.corners.map((corner) => new Vector3(...corner).normalize().multiplyScalar(length).add(eye));
  const points: Vector3[] = [];
  far.forEach((corner, i) => points.push(eye, corner, corner, far[(i + 1) % far.length] ?? corner));
  const geometry = new BufferGeometry().setFromPoints(points);
  return new LineSegments(geometry, new LineBasicMaterial({ color: inks.accent }));
}

/** A person of 1.75 m. */
export function figure(foot: Point3, inks: Inks): Group {
  const person = new Group();
  const skin = new MeshLambertMaterial({ color: inks.accent });
  const body = new Mesh(new CapsuleGeometry(0.2, 1.06, 4, 12), skin);
  body.rotation.x = Math.PI / 2;
  body.position.z = 0.73;
  const head = new Mesh(new SphereGeometry(0.125, 16, 12), skin);
  head.position.z = 1.625;
  person.add(body, head);
  person.position.set(...foot);
  return person;
}

const kGrid_m = 10;

/** Lines every ten metres, laid on the ground. */
export function grid(box: Box2, ground_z: (at: readonly [number, number]) => number, inks: Inks): LineSegments {
  const points: Vector3[] = [];
  const on = (x: number, y: number): Vector3 => new Vector3(x, y, ground_z([x, y]) + 0.02);
  for (let x = Math.ceil(box.min.x / kGrid_m) * kGrid_m; x <= box.max.x; x += kGrid_m)
    for (let y = Math.ceil(box.min.y / kGrid_m) * kGrid_m; y <= box.max.y; y += kGrid_m) {
      if (x + kGrid_m <= box.max.x) points.push(on(x, y), on(x + kGrid_m, y));
      if (y + kGrid_m <= box.max.y) points.push(on(x, y), on(x, y + kGrid_m));
    }
  return new LineSegments(new BufferGeometry().setFromPoints(points), new LineBasicMaterial({ color: inks.hair }));
}
