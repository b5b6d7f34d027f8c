// SPDX-License-Identifier: GPL-3.0-or-later
// A phone on the network: it pairs with the code that stands on the terminal, a wrong one is refused, a code is good
// once, and what the phone then does reaches the laptop. At an address of this machine that is not loopback.
import { networkInterfaces } from "node:os";
import { axe, document_until, expect, page_on, picture } from "./page.mjs";
import { Program } from "./program.mjs";

const kCode = /code[^:]*: (\S+)/gi;

function own_address() {
  return Object.values(networkInterfaces())
    .flat()
    .find((one) => one.family === "IPv4" && !one.internal)?.address;
}

async function code_after(program, known) {
  for (let tries = 0; tries < 100; tries += 1) {
    const code = [...program.printed.matchAll(kCode)].at(-1)?.[1];
    if (code && code !== known) return code;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`no code was printed: ${program.printed}`);
}

async function enter(page, code) {
  await page.getByLabel("Code").fill(code);
  await page.getByRole("button", { name: "Pair" }).click();
}

/** By hand: a page that came over a network is not all that one of this machine is. */
async function move_the_van(page) {
  await page.getByRole("button", { name: "On the sheet" }).click();
  await page.locator(".contents").getByRole("button", { name: "parked van", exact: true }).click();
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("ArrowRight");
}

export async function journey(opened) {
  const address = own_address();
  if (!address) return "SKIPPED: this machine has no address but loopback";
  const program = await Program.start({ options: ["--listen", address] });
  try {
    const there = `http://${address}:${new URL(program.own).port}`;
    const phone = await page_on(opened, there, { width: 375, height: 720, touch: true });
    await phone.getByRole("heading", { name: "Who is there?" }).waitFor();
    const found = await axe(phone);
    expect(found.length === 0, found.join("\n"));
    await picture(phone, "pairing");
    const refused = await phone.evaluate(() => fetch("/api/site").then((answer) => answer.status));
    expect(refused === 401, `unpaired, the site is answered with ${refused}`);

    const code = await code_after(program);
    await enter(phone, code === "AAAA-AAAA" ? "BBBB-BBBB" : "AAAA-AAAA");
    await phone.getByRole("alert").filter({ hasText: /\S/ }).waitFor();
    expect((await phone.getByRole("heading", { name: "Who is there?" }).count()) === 1, "a wrong code let it in");
    await enter(phone, code);
    await phone.getByRole("button", { name: "Open a copy" }).click();
    await phone.locator("path.solid").first().waitFor();

    const laptop = await page_on(opened, there);
    await enter(laptop, code);
    await laptop.getByRole("alert").filter({ hasText: /\S/ }).waitFor();
    await enter(laptop, await code_after(program, code));
    await laptop.locator("path.solid").first().waitFor();
    const words = await phone.evaluate(async () => {
      const { document } = await fetch("/api/site").then((answer) => answer.json());
      const was = document.name;
      const answer = await fetch("/api/edits", {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-Sightfall-Tab": "phone" },
        body: JSON.stringify({ words: "name", changes: [{ at: ["name"], was, now: "As the phone says" }] }),
      });
      return answer.status;
    });
    expect(words === 200, `the phone's edit was answered with ${words}`);
    await laptop.waitForFunction(() => globalThis.document.title.startsWith("As the phone says"));
    await move_the_van(laptop);
    await document_until(
      phone,
      (document) => document.site.solids.find((solid) => solid.name === "parked van").at[0] === 49.5,
    );
    // Without encryption the browser leaves one of the headers aside, and says so.
    const wrong = [...phone.wrong, ...laptop.wrong].filter((each) => !/favicon|Cross-Origin-Opener/.test(each));
    expect(wrong.length === 0, wrong.join("\n"));
    return `paired over ${address}, a used code refused`;
  } finally {
    await program.end();
  }
}
