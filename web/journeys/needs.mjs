// SPDX-License-Identifier: GPL-3.0-or-later
// The demo's failing need is mended by one click and taken back by another; a need is added as a sentence, changed and
// removed; axe finds nothing serious on the way.
import { axe, expect, page_on, picture, verdicts } from "./page.mjs";
import { Program } from "./program.mjs";

const kNeed = "face in front of the shed";
const item = (page, name) => page.locator("li", { has: page.locator(`[data-need="${name}"]`) });
const marked = (page, name, verdict) => item(page, name).locator(`svg.${verdict}`).first().waitFor();
const needs = (page) =>
  page.evaluate(async () => (await (await fetch("/api/site")).json()).document.needs.map((need) => need.name));

async function mended_and_taken_back(page) {
  const need = item(page, kNeed);
  await marked(page, kNeed, "missed");
  await need.locator("[data-act='try this']").waitFor();
  const begun = performance.now();
  await need.locator("[data-act='try this']").click();
  await marked(page, kNeed, "met");
  const mended = Math.round(performance.now() - begun);
  await picture(page, "need_mended");
  await need.locator("[data-act='take back']").click();
  await marked(page, kNeed, "missed");
  await need.locator("[data-act='try this']").waitFor();
  return `met ${mended} ms after the click, missed again after another`;
}

async function chosen(page) {
  await page.locator(`[data-need="${kNeed}"]`).click();
  await page.locator(`svg[data-worst="${kNeed}"]`).waitFor();
  await picture(page, "need_chosen");
  return axe(page);
}

async function written(page) {
  await page.keyboard.press("a");
  const form = page.locator("form");
  await form.getByLabel("Where", { exact: true }).selectOption("yard");
  await form.getByLabel("What", { exact: true }).selectOption("vehicle");
  await form.getByLabel("How well").selectOption("overview");
  await form.locator("details.when summary").click();
  await form.getByLabel("every condition").uncheck();
  await form.getByLabel("summer day").check();
  await picture(page, "need_sentence");
  const wrong = await axe(page);
  await form.getByRole("button", { name: "Add it" }).click();
  const name = "vehicle, yard";
  await item(page, name).locator("svg:is(.met, .marginal, .missed)").first().waitFor();
  const said = await page.locator(`[data-need="${name}"]`).innerText();
  expect(/In the place yard, any vehicle there, to the level overview/.test(said), `the sentence is: ${said}`);
  return { name, wrong };
}

async function changed_and_removed(page, name) {
  await page.locator(`[data-need="${name}"]`).click();
  await item(page, name).locator("[data-act='edit need']").click();
  const form = page.locator("form");
  await form.getByLabel("How well").selectOption("discern");
  await form.getByRole("button", { name: "Change it" }).click();
  await page.locator(`[data-need="${name}"]`, { hasText: "discern" }).waitFor();
  await item(page, name).locator("[data-act='remove need']").click();
  await page.locator(`[data-need="${name}"]`).waitFor({ state: "detached" });
  expect(!(await needs(page)).includes(name), "the removed need is still in the document");
}

async function only_missed(page) {
  const all = await page.locator("[data-need]").count();
  await page.getByRole("button", { name: /missed$/ }).click();
  const missed = await page.locator("[data-need]").count();
  expect(missed > 0 && missed < all, `${missed} of ${all} needs are shown as missed`);
  expect((await page.locator("li:has([data-need]) > button svg:not(.missed)").count()) === 0, "others are shown too");
  await page.getByRole("button", { name: /missed$/ }).click();
}

export async function journey(opened) {
  const program = await Program.start();
  try {
    const page = await page_on(opened, `${program.url}/?test`);
    await page.getByRole("button", { name: "Open a copy" }).click();
    await page.locator(verdicts).first().waitFor();
    await picture(page, "needs");
    const told = await mended_and_taken_back(page);
    const wrong = await chosen(page);
    const { name, wrong: also_wrong } = await written(page);
    await changed_and_removed(page, name);
    await only_missed(page);
    wrong.push(...also_wrong, ...page.wrong);
    expect(wrong.length === 0, wrong.join("\n"));
    return told;
  } finally {
    await program.end(opened);
  }
}
