// SPDX-License-Identifier: GPL-3.0-or-later
// The demo on a phone of 375 px: how the first camera hangs, then the walk test with the link cut in the middle of it;
// the page is loaded anew and what was entered is still there.
import { axe, expect, page_on, picture, verdicts } from "./page.mjs";
import { Program } from "./program.mjs";

const kLeast_px = 44;

async function targets(page) {
  const small = await page.evaluate(
    (least) =>
      [...document.querySelectorAll("main button, main select, main a, main label:has(input[type=checkbox])")]
        .map((each) => ({ words: each.textContent.trim().slice(0, 30), height: each.getBoundingClientRect().height }))
        .filter((each) => each.height < least),
    kLeast_px,
  );
  expect(small.length === 0, `too small for a glove: ${JSON.stringify(small)}`);
  const across = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(across <= 0, `the page is ${across} px wider than the screen`);
}

async function hung(page) {
  const first = page.locator("[data-step]").first();
  await first.waitFor();
  const said = await first.innerText();
  for (const words of ["gate pole, upper bracket", "4.2 m", "198°", "corner of"])
    expect(said.includes(words), `the step lacks ${words}: ${said}`);
  await first.getByLabel("Fixed", { exact: true }).check();
  await first.getByLabel("Note or reading").fill("bolts M8");
  await targets(page);
  await picture(page, "phone_hang");
}

async function walked(page) {
  await page.locator("[data-act='walk test']").click();
  await page.locator("[data-mark='1'] img").waitFor();
  await page.locator("[data-seen='yes']").click();
  await targets(page);
  await picture(page, "phone_walk");
  const wrong = await axe(page);
  await page.context().setOffline(true);
  await page.locator("[data-act='next mark']").click();
  await page.locator("[data-mark='2']").waitFor();
  await page.getByText("cannot be asked for now").waitFor();
  await page.locator("[data-seen='unsure']").click();
  await page.getByLabel("Note or reading").fill("plate half legible\nrain");
  await picture(page, "phone_offline");
  await page.context().setOffline(false);
  return wrong;
}

async function kept(page) {
  await page.reload();
  await page.locator("[data-need]").first().waitFor();
  await page.getByRole("button", { name: "In the field" }).click();
  expect(
    await page.locator("[data-step]").first().getByLabel("Fixed", { exact: true }).isChecked(),
    "the tick is lost",
  );
  await page.locator("[data-act='walk test']").click();
  await page.locator("[data-act='next mark']").click();
  expect((await page.locator("[data-seen='unsure']").getAttribute("aria-pressed")) === "true", "the reading is lost");
  expect((await page.getByLabel("Note or reading").inputValue()).includes("half legible"), "the note is lost");
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByText("along as a file").click()]);
  const lines = (await (await file.createReadStream()).toArray()).join("");
  expect(lines.includes("plate half legible rain") && lines.split("\n").length >= 5, `the file holds: ${lines}`);
}

export async function journey(opened) {
  const program = await Program.start();
  try {
    const page = await page_on(opened, `${program.url}/?test`, { width: 375, height: 740, touch: true });
    await page.getByRole("button", { name: "Open a copy" }).click();
    await page.locator(verdicts).first().waitFor();
    await picture(page, "phone_sheet");
    await page.getByRole("button", { name: "In the field" }).click();
    await hung(page);
    const wrong = [...(await walked(page)), ...page.wrong.filter((each) => !/ERR_INTERNET_DISCONNECTED/.test(each))];
    await kept(page);
    expect(wrong.length === 0, wrong.join("\n"));
    return undefined;
  } finally {
    await program.end(opened);
  }
}
