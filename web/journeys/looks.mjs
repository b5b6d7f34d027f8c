// SPDX-License-Identifier: GPL-3.0-or-later
// The demo as it looks: light and dark, wide and 375 px, English and German, printed; axe on each; how long until it is
// first seen; how fast the map follows a camera under the hand.
import { axe, documents, expect, page_on, picture, pictures, verdicts } from "./page.mjs";

async function judged(page) {
  await page.locator(verdicts).first().waitFor();
  await page.locator("path.contour").first().waitFor();
  await page.waitForTimeout(1500);
}

/** The median time from a step of the hand to the map that answers it, over twenty steps. */
async function follow(page) {
  await page.evaluate(() => {
    const asked = (globalThis.asked = []);
    const real = globalThis.fetch;
    globalThis.fetch = async (path, request) => {
      const begun = performance.now();
      const answer = await real(path, request);
      if (path === "/api/map" && JSON.parse(request.body).cells === 4000) asked.push(performance.now() - begun);
      return answer;
    };
  });
  const camera = await page.locator("g.camera").first().boundingBox();
  const [x, y] = [camera.x + camera.width / 2, camera.y + camera.height / 2];
  await page.mouse.click(x, y);
  const handle = await page.locator("circle[r='6']").first().boundingBox();
  await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2);
  await page.mouse.down();
  for (let i = 0; i < 20; ++i) {
    await page.mouse.move(x + 60 * Math.cos(i / 6), y + 60 * Math.sin(i / 6));
    await page.waitForTimeout(120);
  }
  await picture(page, "dragging");
  await page.mouse.up();
  const asked = await page.evaluate(() => globalThis.asked);
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(800);
  return asked.sort((a, b) => a - b);
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByRole("button", { name: "Open a copy" }).click();
  await judged(page);
  await picture(page, "demo_light");
  // README.md's picture of the workbench.
  if (process.env.SIGHTFALL_WRITE_DOCS) await page.screenshot({ path: `${documents}workbench.png` });
  const again = performance.now();
  await page.reload();
  await page.locator("path.solid").first().waitFor();
  console.log(`      the sheet is seen ${Math.round(performance.now() - again)} ms after the page is asked for`);
  await judged(page);
  const times = await follow(page);
  console.log(
    `      map under a dragged camera: median ${Math.round(times[times.length >> 1])} ms, longest ${Math.round(times.at(-1))} ms of ${times.length}`,
  );
  const wrong = [...page.wrong, ...(await axe(page))];
  await page.emulateMedia({ media: "print" });
  await page
    .pdf({ path: `${pictures}demo.pdf`, printBackground: true, format: "A4", landscape: true })
    .catch(() => undefined);

  for (const [name, options] of [
    ["demo_dark", { dark: true }],
    ["demo_german", { language: "de-DE" }],
    ["demo_375", { width: 375, height: 740, touch: true }],
  ]) {
    const other = await page_on(opened, program.url, options);
    await judged(other);
    await picture(other, name);
    const across = await other.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(across <= 0, `${name}: the page is ${across} px wider than the screen`);
    wrong.push(...other.wrong, ...(await axe(other)).map((each) => `${name}: ${each}`));
    await other.context().close();
  }
  expect(wrong.length === 0, wrong.join("\n"));
}
