// SPDX-License-Identifier: GPL-3.0-or-later
// The demo read and filled in by somebody whose page speaks German: every number with its comma, typed numbers too and
// none of them misread, days and hours as they are written, what is English marked as such; then the same in English.
import { readFileSync } from "node:fs";
import { axe, expect, page_on, picture, verdicts } from "./page.mjs";

const german = JSON.parse(readFileSync(new URL("../src/texts/de.json", import.meta.url), "utf8"));
const english = JSON.parse(readFileSync(new URL("../src/texts/en.json", import.meta.url), "utf8"));
const { cables } = JSON.parse(readFileSync(new URL("../../data/cables.json", import.meta.url), "utf8"));
const kNewer = "lift it by 1.5 m: a sentence of a newer program";
const kNeed = "face in front of the shed";

/** What stands on the page in its own language: without what is marked as another's, and without names. */
function own_words(page) {
  return page.evaluate(
    async (kinds) => {
      const answers = await Promise.all(
        ["/api/site", "/api/stock"].map((path) => fetch(path).then((one) => one.json())),
      );
      const names = new Set(kinds);
      JSON.stringify(answers, (key, value) => {
        if (key === "name") names.add(value);
        return value;
      });
      const in_order = [...names].sort((a, b) => b.length - a.length);
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const words = [];
      while (walker.nextNode()) {
        const parent = walker.currentNode.parentElement;
        if (parent.closest("script, style, [lang]:not(html)")) continue;
        words.push(in_order.reduce((left, name) => left.replaceAll(name, ""), walker.currentNode.data));
      }
      return words;
    },
    cables.map((cable) => cable.name),
  );
}
/** Days, addresses and the like have more than one point. */
const kOfMore = /\d+(\.\d+){2,}/g;
async function no_points(page, where) {
  const found = (await own_words(page)).filter((words) => /\d\.\d/.test(words.replace(kOfMore, "")));
  expect(found.length === 0, `${where}: numbers with a point: ${found.join(" | ")}`);
}
const unfold = (page) =>
  page.evaluate(() => document.querySelectorAll("aside details, dialog details").forEach((each) => (each.open = true)));
const in_document = (page, of) => page.evaluate(() => fetch("/api/site").then((one) => one.json())).then(of);
const height_of = ({ document }) => document.site.mounts.find((mount) => mount.name === "shed, south wall").height_m;

async function margin(page) {
  await page.locator(`[data-need="${kNeed}"]`).click();
  await unfold(page);
  await no_points(page, "the margin");
  await picture(page, "german_margin");
  const evening = page.locator("[data-condition='December evening']");
  await evening.click();
  const said = await page.locator(".said .now").innerText();
  expect(/^18:30 Uhr, /.test(said), `the hour: ${said}`);
  expect(/^15\.12\.2026, 18:30, /.test(await evening.getAttribute("title")), await evening.getAttribute("title"));
}

async function card(page) {
  await page.route("**/api/card", async (route) => {
    const answer = await (await route.fetch()).json();
    await route.fulfill({ json: { ...answer, cautions: [...answer.cautions, kNewer] } });
  });
  await page.locator("[data-act='card']").click();
  const dialog = page.getByRole("dialog");
  await dialog.locator("path.day").first().waitFor();
  await unfold(page);
  await no_points(page, "the range card");
  const newer = dialog.getByText(kNewer);
  expect((await newer.getAttribute("lang")) === "en", "a sentence without German does not say that it is English");
  const focus = dialog.locator("[data-what-if='focus_m']");
  await focus.fill("1.500");
  await focus.press("Tab");
  await dialog.getByRole("alert").getByText("1500 oder 1,5").waitFor();
  await picture(page, "german_two_ways");
  const before = await dialog.locator("table").first().innerText();
  await focus.fill("10,5");
  await focus.press("Tab");
  await page.waitForFunction((text) => document.querySelector("dialog table").innerText !== text, before);
  expect((await focus.inputValue()) === "10,5", `the focus is shown as ${await focus.inputValue()}`);
  const wrong = await axe(page);
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  return wrong;
}

async function form(page) {
  await page.getByRole("button", { name: german.sheet.contents }).click();
  await page.getByRole("button", { name: "shed, south wall", exact: true }).click();
  const height = page.getByRole("region", { name: german.sheet.selected }).getByLabel(german.fields.height_m).first();
  await height.fill("4,25");
  await height.press("Enter");
  await page.waitForFunction(async () => JSON.stringify(await (await fetch("/api/site")).json()).includes("4.25"));
  expect((await in_document(page, height_of)) === 4.25, `4,25 became ${await in_document(page, height_of)}`);
  expect((await height.inputValue()) === "4,25", `4.25 is shown as ${await height.inputValue()}`);
  await no_points(page, "the form");
}

async function history(page) {
  await page.getByRole("button", { name: german.head.history }).click();
  const dialog = page.getByRole("dialog");
  const when = await dialog.locator("li small").first().innerText();
  expect(/^\d\d\.\d\d\.\d{4}, \d\d:\d\d:\d\d$/.test(when), `the moment of an edit: ${when}`);
  await dialog.getByText("„shed, south wall“ ändern").waitFor();
  await page.keyboard.press("Escape");
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url, { language: "de-DE", width: 1440, height: 900 });
  await page.getByRole("button", { name: german.start.demo_go }).click();
  await page.locator(verdicts).first().waitFor();
  await page.locator(`[data-need="${kNeed}"] svg:is(.met, .marginal, .missed)`).waitFor();
  const spoken = () => page.evaluate(() => document.documentElement.lang);
  expect((await spoken()) === "de", `the page says that it speaks ${await spoken()}`);
  await margin(page);
  const wrong = [...(await axe(page)), ...(await card(page))];
  await form(page);
  await history(page);

  await page.locator("header summary").click();
  await page.getByLabel(german.head.language).selectOption("en");
  await page.waitForFunction(() => document.documentElement.lang === "en");
  const others = await page.locator("aside [lang], [data-sheet] [lang]").count();
  expect(others === 0, `${others} pieces of an English page say that they are another language's`);
  const shown = await page.getByRole("region", { name: "What is selected" }).getByLabel("height").first().inputValue();
  expect(shown === "4.25", `in English 4.25 is shown as ${shown}`);
  await page.getByRole("button", { name: english.head.history }).click();
  await page.getByRole("dialog").getByText('alter "shed, south wall"').waitFor();
  wrong.push(...page.wrong);
  expect(wrong.length === 0, wrong.join("\n"));
}
