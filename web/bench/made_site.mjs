// SPDX-License-Identifier: GPL-3.0-or-later
// An invented estate of about a thousand objects for benchmarks: lots of 24 m, each with a building and something green,
// cameras on their fronts, ways between them. The same each time; its sheets and conditions are the demo's.
import { readFileSync } from "node:fs";

const demo = JSON.parse(readFileSync(new URL("../../demo/alder_lane.sightfall.json", import.meta.url), "utf8"));
const kAcross = 18;
const kLot_m = 24;

const box = (x, y, across, along) => [
  [x, y],
  [x + across, y],
  [x + across, y + along],
  [x, y + along],
];
const lots = Array.from({ length: kAcross * kAcross }, (_, i) => ({
  i,
  x: (i % kAcross) * kLot_m,
  y: Math.floor(i / kAcross) * kLot_m,
}));
const every = (step, make) => lots.filter(({ i }) => i % step === 0).map(make);

function veil({ i, x, y }) {
  const name = `green ${i}`;
  if (i % 3 === 0)
    return {
      kind: "tree",
      name,
      at: [x + 17, y + 4],
      crown_radius_m: 2,
      crown_base_m: 2,
      height_m: 7,
      summer: 0.1,
      winter: 0.6,
    };
  const line = [
    [x + 1, y + 20],
    [x + 15, y + 20],
    [x + 15, y + 17],
  ];
  return i % 3 === 1
    ? { kind: "hedge", name, line, height_m: 1.6, summer: 0.03, winter: 0.5 }
    : { kind: "mesh", name, line, height_m: 2, passes: 0.75 };
}

export function made_site() {
  const routes = every(6, ({ i, x, y }) => ({
    kind: "route",
    name: `way ${i}`,
    line: [
      [x + 7, y - 8],
      [x + 7, y - 1],
    ],
    width_m: 1.2,
    speed_m_s: 1.4,
  }));
  const zones = every(18, ({ i, x, y }) => ({ kind: "zone", name: `yard ${i}`, outline: box(x + 16, y + 8, 6, 8) }));
  const mounts = every(5, ({ i, x, y }) => ({ name: `front ${i}`, at: [x + 7, y - 0.2], height_m: 3.5 }));
  const sheets = demo.catalogue.slice(0, 3);
  return {
    sightfall: 1,
    name: "A made estate",
    about: "Invented, for benchmarks.",
    site: {
      anchor: demo.site.anchor,
      solids: [
        ...lots.map(({ i, x, y }) => ({
          kind: "building",
          name: `house ${i}`,
          outline: box(x, y, 14, 10 + (i % 4)),
          height_m: 4 + (i % 5),
        })),
        ...every(5, ({ i, x, y }) => ({
          kind: "wall",
          name: `wall ${i}`,
          line: [
            [x + 22, y],
            [x + 22, y + 14],
          ],
          height_m: 2,
          thickness_m: 0.25,
        })),
      ],
      veils: lots.map(veil),
      mounts,
      lamps: every(6, ({ i, x, y }) => ({
        name: `lamp ${i}`,
        at: [x + 18, y - 2],
        height_m: 4,
        heading_deg: 180,
        tilt_deg: 60,
        lumens: 3000,
      })),
      places: [...routes, ...zones],
    },
    conditions: demo.conditions.slice(0, 2),
    needs: routes.slice(0, 12).map((way) => ({
      name: `person on ${way.name}`,
      subject: "person",
      place: way.name,
      level: demo.needs[0].level,
      once_a_passage: 1,
    })),
    cameras: mounts.map((mount, i) => ({
      name: `camera ${i}`,
      sheet: sheets[i % sheets.length].name,
      mount: mount.name,
      heading_deg: 150 + ((i * 37) % 60),
      tilt_deg: 10,
    })),
    catalogue: sheets,
  };
}

/** How many things of a document stand on its sheet. */
export function objects_of(document) {
  const lists = [...Object.values(document.site), document.cameras].filter(Array.isArray);
  return lists.flat().filter((each) => each?.name !== undefined).length;
}
