// SPDX-License-Identifier: GPL-3.0-or-later
// The papers of the demo, made in the page: asked for, waited for, kept; what is no network is said, and nothing is made.
import { axe, expect, page_on, picture } from "./page.mjs";

export async function journey(opened, program) {
  const page = await page_on(opened, program.url, { height: 1000, own_policy: true });
  await page.getByRole("button", { name: "Open a copy" }).click();
  await page.locator("path.solid").first().waitFor();
  await page.getByRole("button", { name: "Papers" }).click();
  const dialog = page.getByRole("dialog", { name: "Papers to hand over" });
  await dialog.waitFor();
  await dialog.getByLabel("With pictures of what each camera will show").uncheck();
  await dialog.getByLabel("Work out what masks would cost the needs, which takes longest").uncheck();
  await dialog.getByLabel("Handed over by").fill("A. N. Installer");

  await dialog.getByLabel("The cameras' own network").fill("10.0.0.1/24");
  await dialog.getByRole("button", { name: "Make them" }).click();
  await dialog.getByText("which is an address in the network 10.0.0.0/24").waitFor();
  expect((await dialog.getByRole("link").count()) === 0, "something was made for a network that is none");

  await dialog.getByLabel("The cameras' own network").fill("10.20.30.0/24");
  const begun = performance.now();
  await dialog.getByRole("button", { name: "Make them" }).click();
  await dialog.getByRole("link", { name: "report.pdf" }).waitFor({ timeout: 120_000 });
  const seconds = (performance.now() - begun) / 1000;
  expect((await dialog.getByRole("link").count()) >= 14, "papers are missing");
  await picture(page, "papers");
  expect((await axe(page)).length === 0, `the papers: ${await axe(page)}`);

  const kept = page.waitForEvent("download");
  await dialog.getByRole("link", { name: "cameras.csv" }).click();
  const stream = await (await kept).createReadStream();
  let text = "";
  for await (const piece of stream) text += piece;
  expect(text.includes("gate plates") && text.includes("10.20.30.12"), `cameras.csv: ${text.slice(0, 200)}`);
  return `papers in ${seconds.toFixed(1)} s`;
}
