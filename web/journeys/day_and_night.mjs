// SPDX-License-Identifier: GPL-3.0-or-later
// What a camera shows by day and by night, wiped over one another; the hour moved along the day band; the walk, the
// section with its handles, the range card with its what-if and the site in 3D, each opened from a need and closed
// again.
import { axe, expect, page_on, picture, verdicts } from "./page.mjs";
import { Program } from "./program.mjs";

const kNeed = "person on the drive";
const act = (page, name) => page.locator(`li:has([data-need="${kNeed}"]) [data-act='${name}']`);
const document_of = (page) => page.evaluate(async () => (await (await fetch("/api/site")).json()).document);
const camera_of = async (page, name) => (await document_of(page)).cameras.find((camera) => camera.name === name);

async function wiped(page) {
  await act(page, "print").click();
  const print = page.locator("[data-print]");
  await print.locator("img").waitFor();
  await print.locator("[data-act='stop picture']").click();
  await print.getByText("the whole picture was stopped").waitFor();
  await picture(page, "picture_stopped");
  await print.locator("[data-act='go on']").click();
  await print.locator("progress").first().waitFor();
  await print.getByLabel("Wiped with").selectOption("name dark night");
  await print.locator("img.over").waitFor();
  await print.locator("[data-act='large']").click();
  const line = print.getByRole("slider");
  const before = await print.locator("img.over").evaluate((image) => image.style.clipPath);
  await line.focus();
  await page.keyboard.press("PageDown");
  expect((await line.getAttribute("aria-valuenow")) === "30", "PageDown moves the line by a fifth");
  const box = await print.locator("img.over").boundingBox();
  const y = box.y + box.height / 2;
  const at = await line.boundingBox();
  await page.mouse.move(at.x + at.width / 2, y);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, y, { steps: 6 });
  await page.mouse.up();
  expect((await line.getAttribute("aria-valuenow")) === "60", "the line follows the hand");
  expect(
    before !== (await print.locator("img.over").evaluate((image) => image.style.clipPath)),
    "the picture is wiped",
  );
  await print.locator(".preview").waitFor({ state: "detached" });
  await picture(page, "day_and_night");
  const notes = await print.locator(".caption").allInnerTexts();
  expect(notes.length === 2 && notes.every((note) => /px\/m/.test(note)), `the notes are: ${notes.join(" / ")}`);
  // Wherever it is dragged it covers nothing of the legend.
  const handle = await print.locator(".handle").boundingBox();
  await page.mouse.move(handle.x + 20, handle.y + handle.height / 2);
  await page.mouse.down();
  await page.mouse.move(0, handle.y + handle.height / 2, { steps: 6 });
  await page.mouse.up();
  const [legend, laid] = await Promise.all([page.locator(".legend").boundingBox(), print.boundingBox()]);
  expect(laid.x >= legend.x + legend.width, `the print at ${laid.x} covers the legend`);
  const wrong = await axe(page);
  await print.locator("[data-act='close print']").click();
  return wrong;
}

async function hour_moved(page) {
  await page.locator("[data-condition='December evening']").click();
  const hour = page.getByRole("slider", { name: "Hour of the day" });
  const evening = await hour.getAttribute("aria-valuetext");
  expect(/^18:30, .*night|twilight/.test(evening), `the evening is told as: ${evening}`);
  await hour.focus();
  await page.keyboard.press("PageUp");
  await page.waitForFunction(() =>
    document
      .querySelector("[role=slider][aria-label='Hour of the day']")
      .getAttribute("aria-valuetext")
      .startsWith("19:30"),
  );
  const box = await hour.boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await page.waitForFunction(() =>
    /sun \d+. up/.test(
      document.querySelector("[role=slider][aria-label='Hour of the day']").getAttribute("aria-valuetext"),
    ),
  );
  await picture(page, "hour_moved");
}

async function walked(page) {
  await act(page, "walk").click();
  const walk = page.locator("[data-walk]");
  await page.waitForFunction(() => {
    const prints = document.querySelectorAll("[data-walk] li");
    return (
      prints.length > 2 && [...prints].every((print) => print.querySelector("img") && /px\/m/.test(print.textContent))
    );
  });
  await picture(page, "walk");
  const [legend, laid] = await Promise.all([page.locator(".legend").boundingBox(), walk.boundingBox()]);
  expect(legend.y + legend.height <= laid.y, `the walk at ${laid.y} covers the legend`);
  const count = await walk.locator("li").count();
  await walk.locator("[data-act='close walk']").click();
  return count;
}

async function sectioned(page) {
  await act(page, "section").click();
  const tilt = page.getByRole("slider", { name: "Tilt" });
  await tilt.waitFor();
  await picture(page, "section");
  const wrong = await axe(page);
  const before = await camera_of(page, "drive");
  await tilt.focus();
  for (let i = 0; i < 4; ++i) await page.keyboard.press("ArrowDown");
  await page.waitForFunction(() => /in the section/.test(document.querySelector("header")?.innerHTML ?? ""));
  const after = await camera_of(page, "drive");
  expect(after.tilt_deg === before.tilt_deg + 2, `four keys tilted from ${before.tilt_deg} to ${after.tilt_deg}`);
  const box = await tilt.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 30, { steps: 8 });
  await picture(page, "section_dragged");
  await page.mouse.up();
  await page.waitForFunction(
    async (last) =>
      (await (await fetch("/api/site")).json()).document.cameras.find((camera) => camera.name === "drive").tilt_deg <
      last,
    after.tilt_deg,
  );
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await page.waitForFunction(
    async (first) =>
      (await (await fetch("/api/site")).json()).document.cameras.find((camera) => camera.name === "drive").tilt_deg ===
      first,
    before.tilt_deg,
  );
  await page.locator("[data-act='close section']").click();
  return wrong;
}

async function carded(page) {
  await act(page, "card").click();
  const card = page.getByRole("dialog");
  await card.locator("path.day").first().waitFor();
  await picture(page, "range_card");
  const wrong = await axe(page);
  const before = await card.locator("table").first().innerText();
  await card.locator("[data-what-if='focus_m']").fill("10");
  await card.locator("[data-what-if='focus_m']").press("Enter");
  await page.waitForFunction((text) => document.querySelector("dialog table").innerText !== text, before);
  await picture(page, "range_card_what_if");
  await page.keyboard.press("Escape");
  await card.waitFor({ state: "detached" });
  expect((await camera_of(page, "drive")).focus_m === 45, "what if has altered the document");
  return wrong;
}

/** A camera that is turned, here as by another page, takes its pyramid with it. */
async function turned_elsewhere(page) {
  const scene = page.locator("[data-scene]");
  const before = Number(await scene.getAttribute("data-heading"));
  await page.evaluate(async () => {
    const name = document.querySelector("[data-scene] select").value;
    const { document: site } = await fetch("/api/site").then((answer) => answer.json());
    const was = site.cameras.find((camera) => camera.name === name);
    await fetch("/api/edits", {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Sightfall-Tab": "another" },
      body: JSON.stringify({
        words: "turn it",
        changes: [{ at: ["cameras", name], was, now: { ...was, heading_deg: was.heading_deg + 20 } }],
      }),
    });
  });
  const wanted = ((before + 20 + 540) % 360) - 180;
  await page.waitForFunction(
    (heading) => Math.abs(Number(document.querySelector("[data-scene]").dataset.heading) - heading) < 1,
    wanted,
  );
  await page.evaluate(() =>
    fetch("/api/undo", { method: "POST", headers: { "X-Sightfall-Tab": "another" }, body: "{}" }),
  );
}

/** Another need's place moves the eye there, and the first one's back; the plan is one act away. */
async function looked_elsewhere(page) {
  const scene = page.locator("[data-scene]");
  const before = await scene.getAttribute("data-target");
  const looks = (wanted, same) =>
    page.waitForFunction(
      ([target, is]) => (document.querySelector("[data-scene]").dataset.target === target) === is,
      [wanted, same],
    );
  await page.locator(`[data-need]:not([data-need="${kNeed}"])`).first().click();
  await page.locator("[data-act='scene']").click();
  await looks(before, false);
  await page.locator(`[data-need="${kNeed}"]`).click();
  await act(page, "scene").click();
  await looks(before, true);
  await act(page, "plan").click();
  await scene.waitFor({ state: "detached" });
  const [sheet, mark] = await Promise.all(
    ["[data-sheet]", "[data-worst] circle"].map((each) => page.locator(each).boundingBox()),
  );
  const away = Math.abs(mark.y + mark.height / 2 - sheet.y - sheet.height / 2);
  expect(away < 2, `the worst place lies ${away} px off the middle of the plan`);
  await act(page, "scene").click();
  await page.locator("[data-scene='true']").waitFor();
}

async function in_3d(page) {
  await act(page, "scene").click();
  await page.locator("[data-scene='true']").waitFor();
  await page.waitForTimeout(1500);
  const first = await page.locator("canvas").last().screenshot();
  await picture(page, "scene");
  const wrong = await axe(page);
  await page.getByRole("application", { name: "in 3D" }).focus();
  for (let i = 0; i < 4; ++i) await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(1500);
  expect(!first.equals(await page.locator("canvas").last().screenshot()), "the keys turn the scene");
  await turned_elsewhere(page);
  await looked_elsewhere(page);
  await page.keyboard.press("Escape");
  await page.locator("[data-scene]").waitFor({ state: "detached" });
  return wrong;
}

export async function journey(opened) {
  const program = await Program.start();
  try {
    const page = await page_on(opened, `${program.url}/?test`, { width: 1440, height: 900 });
    await page.getByRole("button", { name: "Open a copy" }).click();
    await page.locator(verdicts).first().waitFor();
    await page.locator(`[data-need="${kNeed}"]`).click();
    const wrong = await wiped(page);
    await hour_moved(page);
    const marks = await walked(page);
    wrong.push(...(await sectioned(page)), ...(await carded(page)), ...(await in_3d(page)), ...page.wrong);
    expect(wrong.length === 0, wrong.join("\n"));
    return `a walk of ${marks} prints`;
  } finally {
    await program.end(opened);
  }
}
