// SPDX-License-Identifier: GPL-3.0-or-later
// What every journey needs: a browser, a page on the workbench with its pointer acts counted, pictures to look at, and
// axe's opinion. Chromium of the system; no antialiasing matters here, so its software renderer does.
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

export const pictures = fileURLToPath(new URL("../../build/journeys/", import.meta.url));
/** Where the pictures of README.md lie. */
export const documents = fileURLToPath(new URL("../../docs/pictures/", import.meta.url));
const axe_source = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

export async function browser() {
  mkdirSync(pictures, { recursive: true });
  const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
  if (!existsSync(executablePath)) throw new Error(`no browser at ${executablePath}; set CHROMIUM`);
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

/** A page of its own context; errors of the page fail the journey. `own_policy`: under the page's own content security
 * policy, under which a journey cannot wait for functions. */
export async function page_on(
  opened,
  url,
  { width = 1280, height = 800, dark = false, touch = false, language = "en-GB", own_policy = false } = {},
) {
  const context = await opened.newContext({
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    hasTouch: touch,
    locale: language,
    bypassCSP: !own_policy,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(60000);
  page.wrong = [];
  page.on("pageerror", (error) => page.wrong.push(String(error)));
  page.on("console", (message) => {
    if (
      message.type() === "error" &&
      !/status of (409|401|400|404|502)|Authentication failed|ERR_CONNECTION|ERR_INCOMPLETE|ERR_INTERNET_DISCONNECTED/.test(
        message.text(),
      )
    )
      page.wrong.push(message.text());
  });
  await page.goto(url);
  return page;
}

/** Counts what the hand does: a click is one act, a pull is one, a scroll of the wheel is one. */
export class Acts {
  count = 0;
  constructor(page) {
    this.page = page;
  }
  async click(target) {
    this.count += 1;
    if (Array.isArray(target)) await this.page.mouse.click(target[0], target[1]);
    else await target.click();
  }
  async pull(from, to) {
    this.count += 1;
    await this.page.mouse.move(...from);
    await this.page.mouse.down();
    await this.page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, { steps: 4 });
    await this.page.mouse.move(...to, { steps: 4 });
    await this.page.mouse.up();
  }
  async choose(select, value) {
    this.count += 2;
    await select.selectOption(value);
  }
}

/** Asks the server for the document until it is as wanted; waitForFunction would take a promise for a yes. */
export async function document_until(page, wanted) {
  for (let tries = 0; tries < 300; tries += 1) {
    const site = await page.evaluate(() =>
      fetch("/api/site")
        .then((answer) => answer.json())
        .catch(() => null),
    );
    if (site?.document && wanted(site.document)) return;
    await page.waitForTimeout(100);
  }
  throw new Error(`the document never came to hold what was wanted: ${wanted}`);
}

/** A need's mark once it has been judged. */
export const verdicts = "[data-need] svg:is(.met, .marginal, .missed)";

export async function picture(page, name) {
  await page.screenshot({ path: `${pictures}${name}.png` });
}

/** Serious and critical findings only; each is told with where it is. */
export async function axe(page) {
  await page.evaluate(axe_source);
  const result = await page.evaluate(() =>
    globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }),
  );
  return result.violations
    .filter((each) => each.impact === "serious" || each.impact === "critical")
    .map(
      (each) =>
        `${each.id}: ${each.help}: ${each.nodes
          .slice(0, 3)
          .map((node) => node.html.slice(0, 160))
          .join(" | ")}`,
    );
}

export function expect(truth, words) {
  if (!truth) throw new Error(words);
}
