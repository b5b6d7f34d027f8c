// SPDX-License-Identifier: GPL-3.0-or-later
// A new user with a picture of a plan: laid beneath, given its scale, drawn over, a need said, a camera hung, and a first
// verdict, in at most 25 acts of the pointer.
import { Acts, axe, expect, page_on, picture, pictures, verdicts } from "./page.mjs";

const kMost = 25;

/** A plan of our own: a house 12 m wide on a plot, drawn at 20 px/m. */
async function draw_plan(opened) {
  const page = await opened.newPage({ viewport: { width: 800, height: 600 } });
  await page.setContent(`<svg width="800" height="600" style="background:#fff;position:absolute;inset:0"><g fill="none" stroke="#333" stroke-width="3">
    <rect x="60" y="60" width="680" height="480"/><rect x="280" y="160" width="240" height="160" stroke-width="6"/>
    <path d="M400 320V540" stroke-dasharray="8 6"/></g><text x="360" y="150" font-size="18">12.0 m</text></svg>`);
  const path = `${pictures}plan_for_journey.png`;
  await page.screenshot({ path });
  await page.close();
  return path;
}

export async function journey(opened, program) {
  const plan = await draw_plan(opened);
  const page = await page_on(opened, program.url);
  const acts = new Acts(page);
  await page.getByText("From a picture of a plan").waitFor();
  await picture(page, "start");
  expect((await axe(page)).length === 0, `the start screen: ${await axe(page)}`);
  acts.count += 2; // the button, and the file in the system's own dialog
  await page.getByLabel("Drop a PNG, JPEG or PDF here").setInputFiles(plan);

  await page.getByText("Click one end of a length you know").waitFor();
  const sheet = await page.locator("[data-sheet]").boundingBox();
  const image = page.locator("image.plan");
  await image.waitFor();
  const at = async (x, y) => {
    const box = await image.boundingBox();
    return [box.x + (x / 800) * box.width, box.y + (y / 600) * box.height];
  };
  await acts.click(await at(280, 160));
  await acts.click(await at(520, 160));
  await page.keyboard.type("12");
  await page.keyboard.press("Enter");
  await page.waitForTimeout(500);
  expect(sheet !== null, "there is a sheet");

  await acts.click(page.getByRole("button", { name: "building", exact: true }));
  await acts.pull(await at(280, 160), await at(520, 320));
  await page.waitForTimeout(300);
  await acts.click(page.getByRole("button", { name: "route", exact: true }));
  await acts.click(await at(400, 530));
  const door = await at(400, 330);
  await acts.click(door);
  await acts.click(door);
  await page.waitForTimeout(300);
  await acts.click(page.getByRole("button", { name: "camera", exact: true }));
  await acts.pull(await at(470, 322), await at(400, 450));
  await page.waitForTimeout(500);
  await picture(page, "plan_drawn");

  await acts.click(page.getByRole("button", { name: "Add a need" }));
  await picture(page, "plan_need");
  await acts.click(page.locator("form").getByRole("button", { name: "Add it" }));
  await page.locator(verdicts).first().waitFor();
  await page.waitForTimeout(2500);
  await picture(page, "plan_verdict");
  const site = await page.evaluate(() => fetch("/api/site").then((answer) => answer.json()));
  const house = site.document.site.solids[0].outline;
  const width = Math.abs(house[1][0] - house[0][0]);
  expect(Math.abs(width - 12) < 0.6, `the house is ${width} m wide on the sheet; the plan says 12`);
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  const serious = await axe(page);
  expect(serious.length === 0, serious.join("\n"));
  expect(acts.count <= kMost, `${acts.count} pointer acts; at most ${kMost}`);
  return `${acts.count} pointer acts to a first verdict; the house is ${width.toFixed(2)} m wide`;
}
