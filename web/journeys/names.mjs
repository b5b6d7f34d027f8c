// SPDX-License-Identifier: GPL-3.0-or-later
// Names that look like a page's own language, or like another script, stay names: shown as they were typed wherever they
// are shown, and run by nobody.
import { expect, page_on, picture } from "./page.mjs";

const kNames = [
  `<img src=x onerror="globalThis.ran=1">`,
  `"><script>globalThis.ran=1</script>`,
  `</text></svg><svg onload="globalThis.ran=1">`,
  "javascript:globalThis.ran=1",
  "{name} ${name} &lt;b&gt;",
  "Tor Süd, 門, بوابة, ворота",
];

export async function journey(opened, program) {
  const page = await page_on(opened, program.url);
  await page.getByRole("button", { name: "Open a copy" }).click();
  await page.locator("path.solid").first().waitFor();
  const left = await page.evaluate(async (names) => {
    const ask = (path, body) =>
      fetch(path, {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-Sightfall-Tab": "names" },
        body: JSON.stringify(body),
      });
    const { document } = await fetch("/api/site").then((answer) => answer.json());
    const lists = [["site", "solids"], ["site", "places"], ["site", "veils"], ["needs"], ["cameras"], ["conditions"]];
    const refused = [];
    for (const [i, path] of lists.entries()) {
      const was = path.reduce((at, key) => at[key], document)[0];
      const now = { ...was, name: names[i] };
      const answer = await ask("/api/edits", {
        words: `name ${names[i]}`,
        changes: [{ at: [...path, was.name], was, now }],
      });
      if (!answer.ok) refused.push(`${names[i]}: ${await answer.text()}`);
      Object.assign(document, (await fetch("/api/site").then((site) => site.json())).document);
    }
    await ask("/api/edits", { words: "name", changes: [{ at: ["name"], was: document.name, now: names[0] }] });
    return refused;
  }, kNames);
  expect(left.length === 0, left.join("\n"));
  await page.waitForTimeout(800);
  await page.getByRole("button", { name: "On the sheet" }).click();
  for (const name of kNames.slice(0, 3)) await page.locator(".contents").getByText(name, { exact: true }).waitFor();
  await picture(page, "names");
  await page.reload();
  await page.locator("path.solid").first().waitFor();
  await page.waitForTimeout(1500);
  expect((await page.evaluate(() => globalThis.ran)) === undefined, "a name was run");
  expect((await page.locator("body img, body script").count()) === 0, "a name became an element");
  expect((await page.title()).startsWith(kNames[0]), `the title says ${await page.title()}`);
  const wrong = page.wrong.filter((each) => !/favicon/.test(each));
  expect(wrong.length === 0, wrong.join("\n"));
  return `${kNames.length} names, shown as they are`;
}
