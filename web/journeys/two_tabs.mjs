// SPDX-License-Identifier: GPL-3.0-or-later
// Two pages on one site: what one edits the other shows; an edit that would undo the other's unseen is not made, not lost,
// and its person chooses.
import { expect, page_on, picture } from "./page.mjs";

const height = (page) =>
  page.getByRole("region", { name: "What is selected" }).getByLabel("height", { exact: true }).first();

async function select(page, name) {
  await page.getByRole("button", { name: "On the sheet" }).click();
  await page.locator(".contents").getByRole("button", { name, exact: true }).first().click();
}

export async function journey(opened, program) {
  const one = await page_on(opened, program.url);
  await one.getByRole("button", { name: "Open a copy" }).click();
  await one.locator("[data-sheet]").waitFor();
  const two = await page_on(opened, program.url);
  await two.locator("[data-sheet]").waitFor();
  await select(one, "fuel store");
  await select(two, "fuel store");

  await height(one).fill("5");
  await height(one).press("Enter");
  await two.waitForFunction(() =>
    [...document.querySelectorAll("section.slip input")].some((field) => field.value === "5"),
  );

  // The second page loses its link, edits, and finds on its return that the first edited the same thing.
  await two.context().setOffline(true);
  await height(two).fill("6");
  await height(two).press("Enter");
  await two.getByText(/no link to the program: 1 kept here/).waitFor();
  await height(one).fill("7");
  await height(one).press("Enter");
  await one.waitForTimeout(500);
  await two.context().setOffline(false);
  await two.getByText("Changed in two places").waitFor();
  await picture(two, "conflict");
  const row = await two.locator("dialog tbody tr").first().innerText();
  expect(/6/.test(row) && /7/.test(row), `the conflict shows both: ${row}`);
  await two.getByRole("button", { name: "Put mine over it" }).click();
  await one.waitForFunction(() =>
    [...document.querySelectorAll("section.slip input")].some((field) => field.value === "6"),
  );
  const site = await one.evaluate(() => fetch("/api/site").then((answer) => answer.json()));
  const found = site.document.site.solids.find((solid) => solid.name === "fuel store").height_m;
  expect(found === 6, `the document holds ${found}`);
  expect(one.wrong.length + two.wrong.length === 0, [...one.wrong, ...two.wrong].join("\n"));
  return "the second page's edit came back, was shown beside the first's, and was put over it";
}
