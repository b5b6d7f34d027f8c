// SPDX-License-Identifier: GPL-3.0-or-later
// Prints where the library of package.json has the sun and the moon at random places and times, the same in each run.
// Run by ../astronomy_test.cpp; `npm ci` in this folder fetches the library (tools/install test does).
import {readFileSync} from 'node:fs';
import * as astronomy from 'astronomy-engine';

const read = (name) => JSON.parse(readFileSync(new URL(name, import.meta.url)));
const version = read('node_modules/astronomy-engine/package.json').version;
const pinned = read('package.json').dependencies['astronomy-engine'];
if (version !== pinned) throw new Error(`found astronomy-engine ${version}, pinned is ${pinned}: run npm ci here`);

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

console.log(`# Sun and moon by astronomy-engine ${version}, seed ${kSeed}.`);
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
