// SPDX-License-Identifier: GPL-3.0-or-later
// What was done is listed, and one act goes back over several edits and forth again; by keys, on a phone, in German.
import { axe, expect, page_on, picture } from "./page.mjs";

const name_of = (page) =>
  page.evaluate(() =>
    fetch("/api/site")
      .then((a) => a.json())
      .then((s) => s.document.name),
  );

async function until_named(page, name) {
  await page.waitForFunction(
    (wanted) =>
      fetch("/api/site")
        .then((a) => a.json())
        .then((s) => s.document.name === wanted),
    name,
  );
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByRole("button", { name: "Open a copy" }).click();
  await page.locator("[data-sheet]").waitFor();
  const first = await name_of(page);
  const field = page.getByLabel("Name of the site");
  for (const name of ["one", "two", "three"]) {
    await field.fill(name);
    await field.press("Enter");
    await until_named(page, name);
  }
  await page.locator("[data-sheet]").first().focus();
  await page.keyboard.press("Shift+H");
  const dialog = page.getByRole("dialog");
  await dialog.locator("li").nth(3).waitFor();
  await dialog.locator("li").nth(3).getByRole("button").press("Enter");
  await dialog.getByText("Undone: 3.").waitFor();
  expect((await name_of(page)) === first, `back at first it is called ${await name_of(page)}`);
  await picture(page, "history");
  await dialog.locator("li").nth(1).getByRole("button").click();
  await dialog.getByText("Done again: 2.").waitFor();
  expect((await name_of(page)) === "two", `forth it is called ${await name_of(page)}`);
  const found = await axe(page);
  expect(found.length === 0, found.join("\n"));

  // What holds for the whole site is noted in the sheet's margin, and leads to where it is said.
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Wind 24 m/s, terrain II" }).press("Enter");
  await page.getByRole("dialog", { name: "The site as a whole" }).waitFor();
  await page.waitForFunction(() => document.activeElement?.textContent === "Wind");
  await page.keyboard.press("Escape");
  await page.waitForFunction(() => /Wind 24/.test(document.activeElement?.textContent ?? ""));

  const phone = await page_on(opened, program.url, { width: 375, height: 720, touch: true, language: "de-DE" });
  await phone.locator("[data-sheet]").waitFor();
  await phone.getByRole("button", { name: "Bisher getan" }).tap();
  await phone.getByRole("dialog").locator("li").nth(3).waitFor();
  const wide = await phone.evaluate(() => document.querySelector("dialog").scrollWidth);
  expect(wide <= 375, `the list is ${wide} px wide on a phone`);
  await picture(phone, "history_phone");
  expect(page.wrong.length + phone.wrong.length === 0, [...page.wrong, ...phone.wrong].join("\n"));
  return "three edits undone at once, two done again";
}
