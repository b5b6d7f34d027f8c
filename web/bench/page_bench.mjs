// SPDX-License-Identifier: GPL-3.0-or-later
// How long the page takes with a site of about a thousand objects, beside the demo in the same run: until the plan is
// first seen in a fresh browser, and a step of a camera that is dragged over the sheet. Median and longest of several.
//
//   node bench/page_bench.mjs         FRESH=1 takes the page from dist/
import { cpSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { browser, page_on } from "../journeys/page.mjs";
import { Program } from "../journeys/program.mjs";
import { made_site, objects_of } from "./made_site.mjs";

const kViews = 5;
const kSteps = 40;
const kBetweenSteps_ms = 80;
const demo = fileURLToPath(new URL("../../demo/", import.meta.url));

/** From the navigation's start until the plan in ink, with the needs beside it, has been painted. */
async function first_view(opened, url) {
  const page = await page_on(opened, url);
  const seen = await page.waitForFunction(
    () => {
      if (!document.querySelector("[data-sheet] path.solid") || !document.querySelector("[data-need]")) return false;
      globalThis.seen ??= new Promise((resolve) =>
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now()))),
      );
      return globalThis.seen;
    },
    undefined,
    { polling: "raf" },
  );
  const taken = await seen.jsonValue();
  await page.context().close();
  return taken;
}

/** From each movement of the pointer until its frame has been painted, while a camera is held. */
async function drag_steps(opened, url) {
  const page = await page_on(opened, url);
  await page.locator("path.contour, path.seen").first().waitFor({ state: "attached" });
  const camera = await page.locator("g.camera").first().boundingBox();
  const [x, y] = [camera.x + camera.width / 2, camera.y + camera.height / 2];
  await page.mouse.click(x, y);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y + 12);
  await page.waitForTimeout(1000);
  await page.evaluate(() => {
    globalThis.steps = [];
    addEventListener(
      "pointermove",
      (event) =>
        requestAnimationFrame(() => setTimeout(() => globalThis.steps.push(performance.now() - event.timeStamp))),
      true,
    );
  });
  for (let i = 0; i < kSteps; ++i) {
    await page.mouse.move(x + 40 * Math.cos(i / 6), y + 40 * Math.sin(i / 6));
    await page.waitForTimeout(kBetweenSteps_ms);
  }
  const steps = await page.evaluate(() => globalThis.steps);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await page.context().close();
  return steps;
}

/** The server has judged what is open and is quiet. */
async function judged(opened, url) {
  const page = await page_on(opened, url);
  page.setDefaultTimeout(300000);
  await page.locator("[data-need] svg:is(.met, .marginal, .missed)").first().waitFor();
  await page.locator(".judging.idle").waitFor({ state: "attached" });
  await page.waitForTimeout(1000);
  await page.context().close();
}

export async function measured(opened, url) {
  const views = [];
  for (let i = 0; i < kViews; ++i) views.push(await first_view(opened, url));
  return { views, steps: await drag_steps(opened, url) };
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}
function told(name, of) {
  const of_all = (values) =>
    `median ${Math.round(median(values))} ms, longest ${Math.round(Math.max(...values))} ms of ${values.length}`;
  return `${name}: first view ${of_all(of.views)}; a step of a dragged camera ${of_all(of.steps)}`;
}

async function of_site(opened, folder, file) {
  const program = await Program.start({ folder, options: [join(folder, file)] });
  try {
    await judged(opened, program.url);
    return await measured(opened, program.url);
  } finally {
    await program.end();
  }
}

async function compared() {
  const document = made_site();
  const folders = ["small", "large"].map((name) => mkdtempSync(join(tmpdir(), `sightfall-bench-${name}-`)));
  cpSync(demo, folders[0], { recursive: true });
  writeFileSync(join(folders[1], "estate.sightfall.json"), JSON.stringify(document));
  const opened = await browser();
  try {
    const small = await of_site(opened, folders[0], "alder_lane.sightfall.json");
    const large = await of_site(opened, folders[1], "estate.sightfall.json");
    console.log(told("demo", small));
    console.log(told(`${objects_of(document)} objects`, large));
    const ratio = (of) => (median(of(large)) / median(of(small))).toFixed(2);
    console.log(`page, a thousand objects to the demo: first view ratio ${ratio((one) => one.views)}`);
    console.log(`page, a thousand objects to the demo: drag step ratio ${ratio((one) => one.steps)}`);
  } finally {
    await opened.close();
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await compared();
