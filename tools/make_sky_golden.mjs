#!/usr/bin/env node
// SPDX-License-Identifier: GPL-3.0-or-later
// Writes tests/outside/sky_golden.csv: where a reference library has the sun and the moon at random places and times.
// Usage: node tools/make_sky_golden.mjs FOLDER > tests/outside/sky_golden.csv, where FOLDER holds the node_modules of
// `npm install astronomy-engine`.
import {createRequire} from 'node:module';
import {readFileSync} from 'node:fs';
import {join, resolve} from 'node:path';

const folder = resolve(process.argv[2]);
const astronomy = createRequire(join(folder, 'x.js'))('astronomy-engine');
const version = JSON.parse(readFileSync(join(folder, 'node_modules/astronomy-engine/package.json'))).version;

const kSeed = 20270101, kRows = 100;
let state = kSeed;
/** In [0, 1): Park and Miller's generator. */
function random() {
  state = (state * 16807) % 2147483647;
  return (state - 1) / 2147483646;
}

/** Azimuth, altitude without and with refraction, degrees. */
function stands(body, time, observer) {
  const equator = astronomy.Equator(body, time, observer, true, true);
  const bare = astronomy.Horizon(time, observer, equator.ra, equator.dec);
  const seen = astronomy.Horizon(time, observer, equator.ra, equator.dec, 'normal');
  return [bare.azimuth, bare.altitude, seen.altitude].map((x) => x.toFixed(5));
}

console.log(`# Sun and moon by astronomy-engine ${version} (npm); made by tools/make_sky_golden.mjs, seed ${kSeed}.`);
console.log('# year,month,day,hours,latitude,longitude,height,sun azimuth,altitude,refracted,moon azimuth,altitude,' +
            'refracted,moon phase angle');
const from = Date.UTC(1980, 0, 1), upto = Date.UTC(2060, 11, 31);
for (let row = 0; row < kRows; ++row) {
  const at = new Date(Math.round((from + random() * (upto - from)) / 1000) * 1000);
  // Even over the globe, so that the poles are not crowded.
  const latitude = (Math.asin(2 * random() - 1) * 180 / Math.PI).toFixed(4);
  const longitude = (360 * random() - 180).toFixed(4), height = (2000 * random()).toFixed(0);
  const observer = new astronomy.Observer(+latitude, +longitude, +height), time = astronomy.MakeTime(at);
  const hours = at.getUTCHours() + at.getUTCMinutes() / 60 + at.getUTCSeconds() / 3600;
  console.log([at.getUTCFullYear(), at.getUTCMonth() + 1, at.getUTCDate(), hours.toFixed(7), latitude, longitude, height,
               ...stands('Sun', time, observer), ...stands('Moon', time, observer),
               astronomy.Illumination('Moon', time).phase_angle.toFixed(5)].join(','));
}
