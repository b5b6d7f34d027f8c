// SPDX-License-Identifier: GPL-3.0-or-later
// Journeys through the workbench in a real browser, each as a person would make it, against the real program.
//
//   node journeys/run.mjs [NAME ...]      all, or those named; FRESH=1 takes the page from dist/
//
// Pictures of what was seen lie in build/journeys.
import { readdirSync } from "node:fs";
import { browser, picture } from "./page.mjs";
import { Program } from "./program.mjs";

const kHelpers = new Set(["run.mjs", "page.mjs", "program.mjs"]);
const folder = new URL("./", import.meta.url);
const all = readdirSync(folder)
  .filter((file) => file.endsWith(".mjs") && !kHelpers.has(file))
  .map((file) => file.replace(".mjs", ""));
const wanted = process.argv.slice(2);
const opened = await browser();

/** One attempt, told on one line; whether it went through. */
async function attempt(name) {
  const begun = performance.now();
  const program = await Program.start();
  try {
    const { journey } = await import(new URL(`${name}.mjs`, folder));
    const told = await journey(opened, program);
    console.log(`ok    ${name} (${((performance.now() - begun) / 1000).toFixed(1)} s)${told ? `: ${told}` : ""}`);
    return true;
  } catch (failure) {
    console.log(`FAIL  ${name}: ${failure.stack ?? failure}`);
    const pages = opened.contexts().flatMap((context) => context.pages());
    for (const [i, page] of pages.entries()) await picture(page, `failed_${name}_${i}`).catch(() => {});
    return false;
  } finally {
    for (const context of opened.contexts()) await context.close();
    await program.end();
  }
}

let failed = 0;
for (const name of wanted.length > 0 ? wanted : all) {
  // A busy machine can be too slow for a person's patience; what fails twice is wrong.
  if (!(await attempt(name)) && !(await attempt(name))) failed += 1;
}
await opened.close();
process.exit(failed > 0 ? 1 : 0);
