// SPDX-License-Identifier: GPL-3.0-or-later
// The site in 3D, drawn as in ink: faces of paper, edges as lines. Drawn when something has changed, never by itself.
// This file and bodies.ts are all that know three; they are fetched when a scene is first opened.
import {
  AmbientLight,
  Box2,
  Box3,
  BufferGeometry,
  Color,
  DirectionalLight,
  Group,
  LineSegments,
  Mesh,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import type { Point3, SceneAnswer, SceneBody } from "../asks";
import { body_of, figure, grid, inks, pyramid, type Inks } from "./bodies";
import { eye_of, type Orbit } from "./orbit";

/** Beyond it a grid of ten metres would be a tone. */
const kLargestGrid_m2 = 250000;

const kView_deg = 45;

/** On an upright page the narrower side takes in what the lower side does on a wide one. */
function upright_view(aspect: number): number {
  return (2 * Math.atan(Math.tan((kView_deg * Math.PI) / 360) / aspect) * 180) / Math.PI;
}

export interface Shown {
  readonly camera: string | null;
  readonly at: readonly [number, number] | null;
}

export class Stage {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly eye = new PerspectiveCamera(kView_deg, 1, 0.1, 5000);
  private readonly site = new Group();
  private readonly marks = new Group();
  private inks: Inks;
  private ground: Mesh | null = null;
  private asked = 0;

  constructor(canvas: HTMLCanvasElement, antialias: boolean) {
    this.renderer = new WebGLRenderer({ canvas, antialias, preserveDrawingBuffer: true });
    this.inks = inks(getComputedStyle(document.documentElement));
    const sun = new DirectionalLight(0xffffff, 1.2);
    sun.position.set(-0.6, -1, 1.6);
    this.scene.add(this.site, this.marks, new AmbientLight(0xffffff, 2.1), sun);
    this.eye.up.set(0, 0, 1);
  }

  build(bodies: readonly SceneBody[]): void {
    empty(this.site);
    this.inks = inks(getComputedStyle(document.documentElement));
    this.scene.background = new Color(this.inks.paper);
    this.ground = null;
    for (const body of bodies) {
      const { faces, edges } = body_of(body, this.inks);
      if (body.kind === "ground") this.ground = faces;
      this.site.add(faces, edges);
    }
    this.lay_grid();
  }

  private lay_grid(): void {
    if (!this.ground) return;
    const box = new Box3().setFromObject(this.ground);
    const plan = new Box2(new Vector2(box.min.x, box.min.y), new Vector2(box.max.x, box.max.y));
    const cells = (plan.max.x - plan.min.x) * (plan.max.y - plan.min.y);
    if (cells < kLargestGrid_m2) this.site.add(grid(plan, (at) => this.ground_z(at), this.inks));
  }

  show(cameras: SceneAnswer["cameras"], shown: Shown): void {
    empty(this.marks);
    const camera = cameras.find((each) => each.name === shown.camera);
    const foot: Point3 | null = shown.at && [...shown.at, this.ground_z(shown.at)];
    if (camera) this.marks.add(pyramid(camera, foot, this.inks));
    if (foot) this.marks.add(figure(foot, this.inks));
    this.draw();
  }

  /** Height of the ground under a point of the plan, 0 beside the ground. */
  ground_z(at: readonly [number, number]): number {
    if (!this.ground) return 0;
    const down = new Raycaster(new Vector3(at[0], at[1], 10000), new Vector3(0, 0, -1));
    return down.intersectObject(this.ground)[0]?.point.z ?? 0;
  }

  look(orbit: Orbit): void {
    this.eye.position.set(...eye_of(orbit));
    this.eye.lookAt(...orbit.target);
    this.draw();
  }

  resize(width: number, height: number): void {
    this.renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
    this.renderer.setSize(width, height, false);
    const aspect = width / Math.max(1, height);
    this.eye.aspect = aspect;
    this.eye.fov = aspect < 1 ? upright_view(aspect) : kView_deg;
    this.eye.updateProjectionMatrix();
    this.draw();
  }

  private draw(): void {
    cancelAnimationFrame(this.asked);
    this.asked = requestAnimationFrame(() => this.renderer.render(this.scene, this.eye));
  }

  dispose(): void {
    cancelAnimationFrame(this.asked);
    empty(this.site);
    empty(this.marks);
    this.renderer.dispose();
  }
}

function empty(group: Group): void {
  group.traverse((object) => {
    if (object instanceof Mesh || object instanceof LineSegments) (object.geometry as BufferGeometry).dispose();
  });
  group.clear();
}
