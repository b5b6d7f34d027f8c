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

/** Every list of the document gets a hostile name in it, and so does every text that the page shows. */
async function rename_all(page) {
  return page.evaluate(async (names) => {
    const read = async () => (await fetch("/api/site")).json();
    const refused = [];
    const edit = async (at, was, now) => {
      const answer = await fetch("/api/edits", {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-Sightfall-Tab": "names" },
        body: JSON.stringify({ words: `name ${now.name ?? now}`, changes: [{ at, was, now }] }),
      });
      if (!answer.ok) refused.push(`${at.join(" > ")}: ${await answer.text()}`);
    };
    const named = (lists) =>
      Object.keys(lists).filter((key) => Array.isArray(lists[key]) && lists[key][0]?.name !== undefined);
    const { document } = await read();
    const lists = [...named(document).map((key) => [key]), ...named(document.site).map((key) => ["site", key])];
    for (const [i, path] of lists.entries()) {
      const now = (await read()).document;
      const was = path.reduce((at, key) => at[key], now)[0];
      await edit([...path, was.name], was, { ...was, name: names[i % names.length] });
    }
    const now = (await read()).document;
    await edit(["about"], now.about, names[1]);
    await edit(["keeping"], now.keeping, { ...now.keeping, reason: names[2] });
    const camera = now.cameras.at(-1);
    const mask = { name: names[0], left: 0.1, top: 0.1, right: 0.2, bottom: 0.2 };
    await edit(["cameras", camera.name], camera, { ...camera, masks: [mask] });
    await edit(["name"], now.name, names[0]);
    return { refused, lists: lists.length };
  }, kNames);
}

/** The papers' drawings that a browser would show as a page. */
async function drawn_by_server() {
  const answer = await fetch("/api/papers", {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Sightfall-Tab": "names" },
    body: JSON.stringify({ date: "2027-03-01", pictures: false, masks: false }),
  });
  const { files } = await answer.json();
  return files.filter((each) => each.type.includes("svg")).map((each) => atob(each.content));
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url, { own_policy: true });
  await page.getByRole("button", { name: "Open a copy" }).click();
  await page.locator("path.solid").first().waitFor();
  const { refused, lists } = await rename_all(page);
  expect(refused.length === 0, refused.join("\n"));
  await page.waitForTimeout(800);
  await page.getByRole("button", { name: "On the sheet" }).click();
  for (const name of kNames.slice(0, 3))
    await page.locator(".contents").getByText(name, { exact: true }).first().waitFor();
  await picture(page, "names");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Shift+H");
  await page.getByText(`name ${kNames[1]}`).first().waitFor();
  await picture(page, "names_done");
  await page.keyboard.press("Escape");
  const drawn = await page.evaluate(drawn_by_server);
  expect(drawn.length > 0, "no drawing came");
  const marked = drawn.filter((text) => /<(script|img|svg[^>]*onload)/i.test(text));
  expect(marked.length === 0, "a name is an element of a drawing");
  await page.reload();
  await page.locator("path.solid").first().waitFor();
  await page.waitForTimeout(1500);
  expect((await page.evaluate(() => globalThis.ran)) === undefined, "a name was run");
  expect((await page.locator("body img, body script").count()) === 0, "a name became an element");
  expect((await page.title()).startsWith(kNames[0]), `the title says ${await page.title()}`);
  const wrong = page.wrong.filter((each) => !/favicon/.test(each));
  expect(wrong.length === 0, wrong.join("\n"));
  return `${kNames.length} names in ${lists} lists, shown as they are`;
}
