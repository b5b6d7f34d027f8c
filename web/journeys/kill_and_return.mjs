// SPDX-License-Identifier: GPL-3.0-or-later
// The program is killed while a page is open: what is edited meanwhile waits in the page, survives its being loaded anew,
// and is in the document once the program is back.
import { document_until, expect, page_on, picture } from "./page.mjs";

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByRole("button", { name: "Open a copy" }).click();
  const sheet = page.locator("[data-sheet]");
  await sheet.waitFor();
  await page.getByRole("button", { name: "On the sheet" }).click();
  await page.locator(".contents").getByRole("button", { name: "parked van", exact: true }).click();

  await program.kill();
  await sheet.focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowUp");
  await page.getByText(/no link to the program: 2 kept here/).waitFor();
  await picture(page, "killed");
  await program.start_again("demo.sightfall.json");
  await page.waitForFunction(() => !document.querySelector(".telling"));
  await document_until(page, (document) => {
    const van = document.site.solids.find((solid) => solid.name === "parked van");
    return van.at[0] === 49.5 && van.at[1] === 52.5;
  });
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  return "two edits made while the program was dead are in the document";
}
