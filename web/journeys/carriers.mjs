// SPDX-License-Identifier: GPL-3.0-or-later
// What carries a camera, by hand on an empty sheet: a switch, a way for cables, a cable; what they can carry stands in the
// margin. Then a recorder by form, a bracket's fixing, a cable's way back by undo; the same on a phone, in German and dark.
import { axe, expect, page_on, picture } from "./page.mjs";

const site_of = (page) =>
  page.evaluate(() =>
    fetch("/api/site")
      .then((answer) => answer.json())
      .then((answer) => answer.document),
  );
const until = (page, test, arg) =>
  page.waitForFunction(
    ([source, value]) =>
      fetch("/api/site")
        .then((answer) => answer.json())
        .then((answer) => new Function("site", "value", `return (${source})(site, value)`)(answer.document, value)),
    [test.toString(), arg],
  );

/** Where the sheet's middle is on the page, and a place so many pixels off it. */
async function sheet_of(page) {
  const box = await page.locator("[data-sheet]").boundingBox();
  return (dx, dy) => [box.x + box.width / 2 + dx, box.y + box.height / 2 + dy];
}

async function drawn(page) {
  const at = await sheet_of(page);
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("c");
  await page.mouse.move(...at(0, 0));
  await page.mouse.down();
  await page.mouse.move(...at(60, 60), { steps: 4 });
  await page.mouse.up();
  await until(page, (site) => site.cameras?.length === 1);
  await page.keyboard.press("Escape");

  await page.keyboard.press("q");
  await page.mouse.click(...at(-160, 0));
  await until(page, (site) => site.site.feeds?.length === 1);
  await page.keyboard.press("Escape");

  // From the switch, 4 m north by typing, then to the camera, where the hand is drawn onto it.
  await page.keyboard.press("Shift+C");
  await page.mouse.click(...at(-160, 0));
  await page.keyboard.type("4<0");
  await page.keyboard.press("Enter");
  await page.mouse.click(...at(2, 2));
  await page.keyboard.press("Shift+Enter");
  await until(page, (site) => site.site.ways?.length === 1);
  const { site, cameras } = await site_of(page);
  const line = site.ways[0].line;
  const mount = site.mounts.find((each) => each.name === cameras[0].mount);
  expect(String(line[0]) === String(site.feeds[0].at), `the way starts at the switch: ${line[0]}`);
  expect(String(line[2]) === String(mount.at), `the way ends at the camera's mount: ${line[2]}, ${mount.at}`);
  expect(!site.ways[0].indoors && !site.ways[0].through_buildings, "a way in the open says nothing of buildings");
  expect(Math.abs(line[1][1] - line[0][1] - 4) < 0.01, `4 m were typed: ${JSON.stringify(line)}`);

  // A tap between two corners puts one there and takes it in hand; Delete takes it away again, and not the way.
  const between = await page.locator("circle.between").first().boundingBox();
  await page.mouse.click(between.x + between.width / 2, between.y + between.height / 2);
  await until(page, (site) => site.site.ways[0].line.length === 4);
  await page.keyboard.press("Delete");
  await until(page, (site) => site.site.ways[0].line.length === 3);
  await page.keyboard.press("Escape");
}

async function led(page) {
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Shift+R");
  const dialog = page.getByRole("dialog", { name: "A new cable" });
  await dialog.waitFor();
  const wrong = await axe(page);
  await picture(page, "cable_form");
  await dialog.getByRole("button", { name: "Lead it" }).click();
  await until(page, (site) => site.site.runs?.length === 1);
  const { site, cameras } = await site_of(page);
  const [run] = site.runs;
  expect(
    run.name === "C1" && run.port === 1 && run.from === site.feeds[0].name && run.to === cameras[0].name,
    JSON.stringify(run),
  );
  // It is drawn as it is laid: along the way, which goes round a corner, with its length.
  await page.locator("path.run.chosen:not(.straight)").waitFor();
  const corners = await page.locator("path.run.chosen").evaluate((path) => path.getAttribute("d").split("L").length);
  expect(corners > 2, `the cable is drawn with ${corners} points`);
  await page
    .getByRole("region", { name: "What is selected" })
    .getByText(/ to .* m of cable, .*It takes cable way/)
    .waitFor();
  await page
    .locator("[data-sheet] text")
    .getByText(/^C1 .* to .* m$/)
    .waitFor({ state: "attached" });
  await picture(page, "cable_laid");
  const carried = page.getByText(/What carries it: \d+ of \d+ met/);
  await carried.waitFor();
  await carried.click();
  await page
    .getByText(/Cable, C1/)
    .first()
    .waitFor();
  await picture(page, "carriers");
  return [wrong, await carried.innerText()];
}

/** What is half filled in stays, and is taken once it is whole. */
async function by_form(page) {
  const select = async (name) => {
    await page.getByRole("button", { name: "On the sheet", exact: true }).click();
    await page.locator(".contents").getByRole("button", { name, exact: true }).click();
  };
  await select("switch");
  await page.getByLabel("what it is").selectOption("recorder");
  await until(page, (site) => site.site.feeds[0].kind === "recorder" && site.site.feeds[0].name === "recorder");
  expect((await site_of(page)).site.runs[0].from === "recorder", "the cable's start is renamed with it");
  await select("camera");
  await page.getByText(/^Its mount/).click();
  const slip = page.getByRole("region", { name: "What is selected" });
  const fixing = slip.locator("details", { has: page.locator("summary", { hasText: /^fixing$/ }) }).last();
  await slip
    .locator("summary", { hasText: /^More fields/ })
    .last()
    .click();
  await fixing.locator("summary").first().click();
  await fixing.getByLabel("kind", { exact: true }).selectOption("wood screw");
  await slip.getByText("It is kept here, not in the site").waitFor();
  await fixing.getByLabel("diameter", { exact: true }).fill("6");
  await fixing.getByLabel("diameter", { exact: true }).press("Enter");
  await fixing.getByLabel("depth", { exact: true }).fill("50");
  await fixing.getByLabel("depth", { exact: true }).press("Enter");
  await until(page, (site) => site.site.mounts[0].fixing?.depth_mm === 50);
  await picture(page, "fixing");
  expect((await site_of(page)).site.mounts[0].fixing.kind === "wood screw", "the fixing's kind was kept");
}

/** A condition by form; what had the focus goes with it, and Esc still closes the dialog. */
async function listed(page) {
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Shift+D");
  const dialog = page.getByRole("dialog", { name: "Conditions" });
  await dialog.getByRole("button", { name: "A new one" }).click();
  await dialog.getByLabel("leaves", { exact: true }).selectOption("off");
  await until(page, (site) => site.conditions.length === 3);
  await dialog.getByText(/^More fields/).click();
  await dialog.getByLabel("date", { exact: true }).fill("2026-01-15");
  await dialog.getByLabel("date", { exact: true }).blur();
  await dialog.getByText("It is kept here, not in the site").waitFor();
  await dialog.getByLabel("time", { exact: true }).fill("07:30");
  await dialog.getByLabel("time", { exact: true }).blur();
  await dialog
    .getByText(/anchor/)
    .first()
    .waitFor();
  const wrong = await axe(page);
  await dialog.getByRole("button", { name: "put it back" }).click();
  await dialog.getByRole("button", { name: "Take away", exact: true }).click();
  await until(page, (site) => site.conditions.length === 2);
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  return wrong;
}

/** A way within a building is drawn as one edit that says so, and taken back as one. */
async function drawn_indoors(page) {
  const at = await sheet_of(page);
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("b");
  await page.mouse.move(...at(60, -240));
  await page.mouse.down();
  await page.mouse.move(...at(240, -110), { steps: 4 });
  await page.mouse.up();
  await until(page, (site) => site.site.solids?.length === 1);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Shift+C");
  await page.mouse.click(...at(100, -200));
  await page.mouse.click(...at(200, -150));
  await page.keyboard.press("Shift+Enter");
  await until(page, (site) => site.site.ways?.length === 2);
  const { site } = await site_of(page);
  expect(site.ways[1].indoors === true && !site.ways[1].through_buildings, JSON.stringify(site.ways[1]));
  await page.getByText("is taken as indoors").waitFor();
  await page.keyboard.press("Control+z");
  await until(page, (site) => site.site.ways?.length === 1);
  await page.keyboard.press("Control+z");
  await until(page, (site) => !site.site.solids);
}

async function taken_back(page) {
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Delete");
  await until(page, (site) => (site.cameras ?? []).length === 0 && (site.site.runs ?? []).length === 0);
  await page.keyboard.press("Control+z");
  await until(page, (site) => site.cameras?.length === 1 && site.site.runs?.length === 1);
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await page.locator("[data-sheet]").waitFor();
  await page.getByText("Say where the site is").waitFor(); // the sheet has its size once the day band has
  await drawn(page);
  const [wrong, told] = await led(page);
  await by_form(page);
  await taken_back(page);
  await drawn_indoors(page);
  wrong.push(...(await listed(page)));
  const phone = await page_on(opened, program.url, {
    width: 375,
    height: 740,
    touch: true,
    dark: true,
    language: "de-DE",
  });
  await phone.locator("[data-sheet]").waitFor();
  await phone.getByRole("button", { name: "Auf dem Blatt" }).tap();
  await phone.getByRole("button", { name: "recorder", exact: true }).tap();
  await phone.getByRole("button", { name: /^C1 zu/ }).waitFor();
  await picture(phone, "carriers_375");
  const across = await phone.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(across <= 0, `the page is ${across} px wider than the phone`);
  wrong.push(...(await axe(phone)), ...page.wrong.filter((each) => !/status of 4/.test(each)), ...phone.wrong);
  expect(wrong.length === 0, wrong.join("\n"));
  return told;
}
