// SPDX-License-Identifier: GPL-3.0-or-later
// Twelve tabs of one browser on one site, twice as many as the connections that a browser makes to a server of HTTP/1.1: each
// opens, is told of what another edits, and can still ask.
import { expect, page_on, picture } from "./page.mjs";

const kTabs = 12;

const height = (page) =>
  page.getByRole("region", { name: "What is selected" }).getByLabel("height", { exact: true }).first();

const shows = (page, value) =>
  page.waitForFunction(
    (wanted) => [...document.querySelectorAll("section.slip input")].some((field) => field.value === wanted),
    value,
  );

async function another_tab(page) {
  const tab = await page.context().newPage();
  tab.setDefaultTimeout(60000);
  await tab.goto(page.url());
  return tab;
}

async function select(page, name) {
  await page.locator("[data-sheet]").waitFor();
  await page.getByRole("button", { name: "On the sheet" }).click();
  await page.locator(".contents").getByRole("button", { name, exact: true }).first().click();
}

export async function journey(opened, program) {
  const first = await page_on(opened, program.url);
  await first.getByRole("button", { name: "Open a copy" }).click();
  const tabs = [first];
  while (tabs.length < kTabs) tabs.push(await another_tab(first));
  for (const tab of tabs) await select(tab, "fuel store");

  const last = tabs.at(-1);
  const was = await height(last).inputValue();
  await height(last).fill("5");
  await height(last).press("Enter");
  await Promise.all(tabs.map((tab) => shows(tab, "5")));
  await picture(first, "twelve_tabs");
  await first.locator("[data-sheet]").focus();
  await first.keyboard.press("Control+z");
  await Promise.all(tabs.map((tab) => shows(tab, was)));
  for (const [i, tab] of tabs.entries())
    expect((await tab.getByText(/no link to the program/).count()) === 0, `tab ${i + 1} has no link`);
  expect(first.wrong.length === 0, first.wrong.join("\n"));
  return `${kTabs} tabs saw what the last of them edited and the first took back`;
}
