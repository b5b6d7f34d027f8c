// SPDX-License-Identifier: GPL-3.0-or-later
// Drawing on a phone: a wall by taps, ended with the button under the thumb; two fingers pan and zoom; a tap selects and
// opens nothing that lies under the finger.
import { expect, page_on, picture } from "./page.mjs";

export async function journey(opened, program) {
  const page = await page_on(opened, program.url, { width: 375, height: 740, touch: true });
  await page.getByRole("button", { name: "Begin", exact: true }).tap();
  const sheet = page.locator("[data-sheet]");
  await sheet.waitFor();
  const box = await sheet.boundingBox();
  const tap = (x, y) => page.touchscreen.tap(box.x + x * box.width, box.y + y * box.height);
  await page.getByRole("button", { name: /Legend/ }).tap();
  await page.getByRole("button", { name: "wall", exact: true }).tap();
  await tap(0.3, 0.6);
  await tap(0.7, 0.6);
  await tap(0.7, 0.78);
  await picture(page, "phone_drawing");
  await page.getByRole("button", { name: "Finish what is drawn" }).tap();
  await page.waitForTimeout(600);
  const site = await page.evaluate(() => fetch("/api/site").then((answer) => answer.json()));
  const wall = site.document.site.solids?.[0];
  expect(wall?.line.length === 3, `a wall of three points: ${JSON.stringify(wall)}`);

  const slip = page.getByRole("region", { name: "What is selected" });
  const top = (await slip.boundingBox()).y;
  for (const middle of await page.locator("circle.between").all()) {
    const { y, height } = await middle.boundingBox();
    expect(y + height < top, `what was drawn lies at ${y}, under the slip at ${top}`);
  }
  await slip.getByRole("button", { name: "Close" }).tap();
  const scale_before = await page.evaluate(() => document.querySelector("g.scale text:last-of-type").textContent);
  const fingers = await page.context().newCDPSession(page);
  const touch = (type, gap) =>
    fingers.send("Input.dispatchTouchEvent", {
      type,
      touchPoints:
        type === "touchEnd"
          ? []
          : [-gap, gap].map((x, id) => ({ x: box.x + box.width / 2 + x, y: box.y + box.height / 2, id })),
    });
  await touch("touchStart", 20);
  for (const gap of [30, 45, 65, 90]) await touch("touchMove", gap);
  await touch("touchEnd", 0);
  const scale_after = await page.evaluate(() => document.querySelector("g.scale text:last-of-type").textContent);
  expect(scale_before !== scale_after, `two fingers zoom: ${scale_before} before, ${scale_after} after`);
  await page.locator("header summary").tap();
  const liking = await page.locator("header details .sheet").boundingBox();
  const wide = page.viewportSize().width;
  expect(liking.x >= 0 && liking.x + liking.width <= wide, `units and language are cut off: ${JSON.stringify(liking)}`);
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  return `a wall by three taps; the scale bar from ${scale_before} to ${scale_after}`;
}
