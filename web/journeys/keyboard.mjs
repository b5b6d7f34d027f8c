// SPDX-License-Identifier: GPL-3.0-or-later
// The keyboard alone: a building by typed lengths, a route, a camera, a need; a verdict; undo and redo.
import { expect, page_on, picture, verdicts } from "./page.mjs";

/** Tab until the focus is on what `name` says. */
async function tab_to(page, test) {
  for (let i = 0; i < 80; ++i) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(test)) return;
  }
  throw new Error("Tab does not lead there");
}
const keys = async (page, ...all) => {
  for (const key of all) await page.keyboard.press(key);
};
const times = (key, count) => Array.from({ length: count }, () => key);
const site_of = (page) => page.evaluate(() => fetch("/api/site").then((answer) => answer.json()));

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByText("On an empty sheet").waitFor();
  await tab_to(page, () => document.activeElement?.textContent === "Begin");
  await page.keyboard.press("Enter");
  await page.locator("[data-sheet]").waitFor();
  await tab_to(page, () => document.activeElement?.hasAttribute("data-sheet"));

  // A building of 8 m by 5 m, by typed lengths and headings.
  await keys(page, "b", "ArrowRight", "Enter");
  await page.keyboard.type("8<90");
  await keys(page, "Enter");
  await page.keyboard.type("5<0");
  await keys(page, "Enter");
  await page.keyboard.type("8<270");
  await keys(page, "Enter");
  const before = (await page.evaluate(() => document.querySelector("#sheet-state").textContent)) ?? "";
  expect(/4 points/.test(before), `the screen reader is told of the points: ${before}`);
  // The cursor has not moved since the first point: Enter there closes the outline.
  await keys(page, "Enter");
  await page.waitForTimeout(500);
  const house = (await site_of(page)).document.site.solids?.[0];
  expect(house !== undefined, "a building was drawn");
  const [a, b, c] = house.outline;
  const sizes = [Math.hypot(b[0] - a[0], b[1] - a[1]), Math.hypot(c[0] - b[0], c[1] - b[1])];
  expect(Math.abs(sizes[0] - 8) < 0.011 && Math.abs(sizes[1] - 5) < 0.011, `8 x 5 m were typed, ${sizes} drawn`);

  // A corner more behind the first, and away with it again.
  await keys(page, "k", "Insert");
  await page.waitForTimeout(400);
  const more = (await site_of(page)).document.site.solids[0].outline;
  expect(more.length === 5 && Math.abs(more[1][0] - (a[0] + b[0]) / 2) < 0.011, `a corner was put in: ${more}`);
  await keys(page, "Shift+Delete");
  await page.waitForTimeout(400);
  expect((await site_of(page)).document.site.solids[0].outline.length === 4, "and taken away");

  // A courtyard of 3 m by 1 m in it, one of its corners in hand, and the whole of it away again.
  await keys(page, "Shift+u", ...times("ArrowRight", 4), ...times("ArrowUp", 4), "Enter");
  for (const typed of ["3<90", "1<0", "3<270"]) {
    await page.keyboard.type(typed);
    await keys(page, "Enter");
  }
  await keys(page, "Enter");
  await page.waitForTimeout(400);
  const { holes } = (await site_of(page)).document.site.solids[0];
  expect(holes?.length === 1 && holes[0].length === 4, `a courtyard was cut: ${JSON.stringify(holes)}`);
  await keys(page, ...times("k", 5));
  const told = (await page.evaluate(() => document.querySelector("#sheet-state").textContent)) ?? "";
  expect(/a corner of its hole 1/.test(told), `the screen reader is told of the hole: ${told}`);
  await picture(page, "keyboard_hole");
  await keys(page, "Shift+e");
  await page.waitForTimeout(400);
  expect((await site_of(page)).document.site.solids[0].holes === undefined, "and filled again");

  await keys(page, "Escape", "Escape", "r", ...times("ArrowDown", 20), "Enter");
  await page.keyboard.type("10<90");
  await keys(page, "Enter", ...times("ArrowRight", 20), "Enter");
  await page.waitForTimeout(400);
  const drawn = (await site_of(page)).document.site.places?.[0];
  expect(drawn?.line.length === 2, `a route was drawn: ${JSON.stringify(drawn)}`);
  await keys(page, "Escape", "c", ...times("ArrowUp", 18), "Enter", ...times("ArrowDown", 18), "Enter");
  await page.waitForTimeout(400);
  expect((await site_of(page)).document.cameras?.length === 1, "a camera was hung");
  await keys(page, "]", "]");
  await keys(page, "ArrowUp");
  await page.waitForTimeout(400);

  await page.keyboard.press("Escape");
  await tab_to(page, () => document.activeElement?.textContent?.trim() === "Add a need");
  await page.keyboard.press("Enter");
  await tab_to(
    page,
    () => document.activeElement?.getAttribute("type") === "submit" && document.activeElement.closest("form") !== null,
  );
  await page.keyboard.press("Enter");
  await page.locator(verdicts).first().waitFor();
  await picture(page, "keyboard");

  await tab_to(page, () => document.activeElement?.hasAttribute("data-sheet"));
  await keys(page, "?");
  await page.getByRole("dialog").waitFor();
  await picture(page, "acts");
  await keys(page, "Escape");
  await page.locator("[data-sheet]").focus();
  await keys(page, "Control+z");
  await page.waitForTimeout(500);
  expect(((await site_of(page)).document.needs ?? []).length === 0, "undo took the need back");
  await keys(page, "Control+Shift+z");
  await page.waitForTimeout(500);
  expect((await site_of(page)).document.needs?.length === 1, "redo put it there again");
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  return `a building ${sizes.map((m) => m.toFixed(2)).join(" x ")} m, a route, a camera, a need, its verdict; undo and redo`;
}
