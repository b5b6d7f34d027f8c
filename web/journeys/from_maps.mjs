// SPDX-License-Identifier: GPL-3.0-or-later
// A new site from a map of buildings and a raster of heights, both invented: what the map leaves open is asked for, each
// file is one undo, and what is wrong with a file is said where it can be mended.
import { readFileSync } from "node:fs";
import { inflateRawSync } from "node:zlib";
import { axe, expect, page_on, picture } from "./page.mjs";

const packed = readFileSync(new URL("../../tests/case/files/two_houses.zip", import.meta.url));

/** The files in it, as a person has them who has unpacked it: by the headers before each (APPNOTE.TXT, 4.3.7). */
function parts_of(archive) {
  const parts = [];
  for (let at = 0; archive.readUInt32LE(at) === 0x04034b50;) {
    const [size, name, extra] = [
      archive.readUInt32LE(at + 18),
      archive.readUInt16LE(at + 26),
      archive.readUInt16LE(at + 28),
    ];
    const from = at + 30 + name + extra;
    const path = archive.subarray(at + 30, at + 30 + name).toString();
    const buffer = inflateRawSync(archive.subarray(from, from + size));
    parts.push({ name: path.split("/").at(-1), mimeType: "application/octet-stream", buffer });
    at = from + size;
  }
  return parts;
}

/** A house of some 10 m, its corners a shade off the parallel. */
function house(east, north, properties) {
  const [e, n] = [east + 0.00015, north + 0.00009];
  const ring = [
    [east, north],
    [e, north],
    [e, n],
    [east, n],
    [east, north],
  ];
  return { type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } };
}

function town(more = []) {
  const features = [];
  for (let row = 0; row < 4; ++row)
    for (let column = 0; column < 6; ++column)
      features.push(
        house(
          2.5 + column * 0.0004,
          53.5 + row * 0.0003,
          (row + column) % 5 === 0 ? { storeys: 2 } : { height: 5 + row },
        ),
      );
  return Buffer.from(JSON.stringify({ type: "FeatureCollection", features: [...features, ...more] }));
}

/** Heights that rise to the east, in zone 31 north. It does not say so: an ASCII grid cannot. */
function slope() {
  const rows = Array.from({ length: 120 }, () =>
    Array.from({ length: 120 }, (_, column) => 20 + column / 10).join(" "),
  );
  const head = "ncols 120\nnrows 120\nxllcorner 466600\nyllcorner 5927700\ncellsize 5\nNODATA_value -9999\n";
  return Buffer.from(`${head}${rows.join("\n")}\n`);
}

const site_of = (page) => page.evaluate(() => fetch("/api/site").then((answer) => answer.json()));

const solids_of = async (page) => (await site_of(page)).document.site.solids;
const map_field = (dialog) => dialog.getByLabel(/Map with building outlines|Karte mit Gebäudeumrissen/);
const clash = (page) => page.getByRole("dialog", { name: "Something stands there already" });

/** The town once more: five houses would get another height, one is new. By keys alone. */
async function settle_by_keys(page, dialog) {
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Shift+m");
  const new_house = house(2.5, 53.5015, { height: 4 });
  await map_field(dialog).setInputFiles({
    name: "town.geojson",
    mimeType: "application/geo+json",
    buffer: town([new_house]),
  });
  await dialog.getByLabel("Height of buildings without one, in metres").fill("9");
  await page.keyboard.press("Enter");
  await clash(page).waitFor();
  const focused = await page.evaluate(() => document.activeElement?.textContent ?? "");
  expect(
    /: 5\. .*: 1\. Nothing is done yet/.test(focused),
    `the screen reader begins with what it is about: ${focused}`,
  );
  expect((await solids_of(page)).length === 24, "nothing is done before somebody has chosen");
  await picture(page, "maps_clash");
  const found = await axe(page);
  expect(found.length === 0, `what stands already: ${found}`);
  await page.keyboard.press("Tab");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  expect(await dialog.getByLabel("Keep mine, leave the map's out").isChecked(), "chosen by arrow keys");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await dialog.getByText("In the map: building, 9 m high").first().waitFor();
  await page.keyboard.press("Tab");
  await page.keyboard.press("t");
  await picture(page, "maps_clash_each");
  expect((await axe(page)).length === 0, `one by one: ${await axe(page)}`);
  await dialog.getByRole("button", { name: "Import so" }).press("Enter");
  await dialog.getByText("put in: 1; in place of what was there: 1; left out: 4").waitFor();
  // Five have no height of their own: the first was taken from the map, the others are as they were.
  const after = await solids_of(page);
  const heights = [1, 6, 11, 16, 21].map((i) => after[i - 1].height_m);
  expect(after.length === 25 && heights.join() === "9,6,6,6,6", `as was chosen: ${heights}`);
  await page.keyboard.press("Escape");
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(400);
  const before = (await solids_of(page)).map((each) => each.height_m);
  expect(before.length === 24 && !before.includes(9), "one undo takes all of it back");
}

/** Its parts chosen together; then without one of them; then the archive. */
async function shapefile(page, dialog, go) {
  const parts = parts_of(packed);
  await page.keyboard.press("Shift+m");
  await map_field(dialog).setInputFiles(parts.filter(({ name }) => !name.endsWith(".shx")));
  await go.click();
  await dialog.getByRole("alert").getByText("is missing: two_houses.shx").waitFor();
  await picture(page, "maps_missing_part");
  await map_field(dialog).setInputFiles(parts);
  await go.click();
  await clash(page).waitFor();
  await dialog.getByRole("button", { name: "Import so" }).click();
  await dialog.getByText("put in: 2").waitFor();
  const names = (await solids_of(page)).map((each) => each.name);
  expect(names.length === 26 && names.includes("building 1 (2)"), `both are kept: ${names.slice(-2)}`);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Shift+m");
  await map_field(dialog).setInputFiles({ name: "two_houses.zip", mimeType: "application/zip", buffer: packed });
  await go.click();
  await clash(page).waitFor();
  await dialog.getByRole("button", { name: "Back, import nothing" }).click();
  await dialog.getByRole("button", { name: "Import" }).waitFor();
  await page.keyboard.press("Escape");
}

/** Other heights, where there is ground. */
async function other_ground(page, dialog, go) {
  const ground = async () => JSON.stringify((await site_of(page)).document.site.terrain);
  const before = await ground();
  await page.keyboard.press("Shift+g");
  await dialog
    .getByLabel("Raster of heights")
    .setInputFiles({ name: "slope.asc", mimeType: "text/plain", buffer: slope() });
  await dialog.getByLabel("Only within this distance, in metres").fill("120");
  await dialog.getByText("What only some files need").click();
  await dialog.getByLabel("Map projection").fill("EPSG:32631");
  await go.click();
  await clash(page).waitFor();
  expect(
    await dialog.getByLabel("Keep the ground that the site has").isChecked(),
    "what loses nothing is chosen first",
  );
  expect((await ground()) === before, "the ground is as it was");
  await dialog.getByLabel("Take the heights of the map in its place").check();
  await picture(page, "maps_ground");
  await dialog.getByRole("button", { name: "Import so" }).click();
  await dialog.getByText("in place of what was there: 1").waitFor();
  expect((await ground()) !== before, "the map's heights are the ground");
  await page.keyboard.press("Escape");
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(500);
  expect((await ground()) === before, "one undo brings the other back");
}

/** On a phone, by night, in German. */
async function phone(opened, program) {
  const page = await page_on(opened, program.url, {
    width: 375,
    height: 720,
    touch: true,
    dark: true,
    language: "de-DE",
  });
  await page.locator("[data-sheet]").waitFor();
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Shift+m");
  const dialog = page.getByRole("dialog");
  await map_field(dialog).setInputFiles({ name: "two_houses.zip", mimeType: "application/zip", buffer: packed });
  await dialog.getByRole("button", { name: "Übernehmen" }).tap();
  await page.getByRole("dialog", { name: "Dort steht schon etwas" }).waitFor();
  await dialog.getByText("Einzeln wählen").tap();
  await picture(page, "maps_clash_phone");
  const wide = await page.evaluate(() => document.querySelector("dialog").scrollWidth);
  expect(wide <= 375, `the choice is ${wide} px wide on a phone`);
  expect((await axe(page)).length === 0, `on a phone: ${await axe(page)}`);
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  await page.close();
}

export async function journey(opened, program) {
  const page = await page_on(opened, program.url, { height: 1000 });
  await page.getByText("From maps").waitFor();
  await page.getByLabel("Name of the site").fill("Twenty-four houses");
  await page
    .getByLabel("Map with building outlines")
    .setInputFiles({ name: "invented town.geojson", mimeType: "application/geo+json", buffer: town() });
  await page
    .getByLabel("Raster of heights")
    .setInputFiles({ name: "slope.asc", mimeType: "text/plain", buffer: slope() });
  await picture(page, "maps_start");
  expect((await axe(page)).length === 0, `the start screen: ${await axe(page)}`);
  await page.getByRole("button", { name: "Begin from these" }).click();

  const dialog = page.getByRole("dialog");
  await page.getByRole("dialog", { name: "Buildings from a map" }).waitFor();
  const go = dialog.getByRole("button", { name: "Import" });
  await go.click();
  const refusal = dialog.getByRole("alert");
  await refusal.getByText("state no height").waitFor();
  const height = dialog.getByLabel("Height of buildings without one, in metres");
  expect((await height.getAttribute("aria-invalid")) === "true", "the field that mends it is marked");
  await picture(page, "maps_refused");
  expect((await axe(page)).length === 0, `refused: ${await axe(page)}`);
  await height.fill("6");
  await go.click();
  await dialog.getByText("became 24 buildings").waitFor();
  await page.getByRole("dialog", { name: "Ground from heights" }).waitFor();
  await page.waitForTimeout(300);
  await picture(page, "maps_buildings");

  // An ASCII grid does not say where on the earth it is: the field that says so opens.
  await go.click();
  await refusal.getByText("does not say which map projection").waitFor();
  const projection = dialog.getByLabel("Map projection");
  expect((await projection.getAttribute("aria-invalid")) === "true", "the projection is marked, and shown for that");
  await projection.fill("EPSG:32631");
  await dialog.getByLabel("Only within this distance, in metres").fill("200");
  await picture(page, "maps_projection");
  await go.click();
  await dialog.getByText("a raster of 120 x 120 cells").waitFor();
  await picture(page, "maps_done");
  await dialog.getByRole("button", { name: "Close" }).click();

  const count = await page.locator("path.solid.building").count();
  expect(count === 24, `${count} buildings are drawn; the map has 24`);
  const { document } = await site_of(page);
  expect(document.site.terrain.kind === "grid", "there is ground");
  expect(document.site.solids.filter((each) => each.height_m === 6).length >= 5, "heights that were missing are 6 m");
  await picture(page, "maps_drawn");

  // Each file was one edit.
  await page.locator("[data-sheet]").focus();
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(300);
  expect((await site_of(page)).document.site.terrain === undefined, "one undo takes the ground back");
  await page.keyboard.press("Control+z");
  await page.locator("path.solid.building").first().waitFor({ state: "detached" });
  expect((await site_of(page)).document.site.anchor === undefined, "one undo takes the buildings and the anchor back");
  await page.keyboard.press("Control+y");
  await page.keyboard.press("Control+y");
  await page.locator("path.solid.building").first().waitFor();

  // For an open site, by keys; a file that is no map is refused with a sentence.
  await page.keyboard.press("Shift+m");
  await page.getByRole("dialog", { name: "Buildings from a map" }).waitFor();
  expect(!(await dialog.getByText("Where the site lies").isVisible()), "the site has its place: it is not asked again");
  await dialog
    .getByLabel("Map with building outlines")
    .setInputFiles({ name: "holiday.json", mimeType: "application/json", buffer: Buffer.from('{"a": 1}') });
  await go.click();
  await refusal.getByText("no map file that is read here").waitFor();

  // A long one can be stopped: here the request is held on its way.
  await page.route("**/api/import/**", () => undefined);
  await go.click();
  await dialog.getByRole("progressbar").waitFor();
  await picture(page, "maps_running");
  await dialog.getByRole("button", { name: "Stop" }).click();
  await refusal.getByText("Stopped; nothing was imported.").waitFor();
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  await page.unroute("**/api/import/**");
  await settle_by_keys(page, dialog);
  await shapefile(page, dialog, go);
  await other_ground(page, dialog, go);
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  await page.close();
  await phone(opened, program);
  return `${count} buildings on a slope, each file one undo; what stood there already was chosen for; a Shapefile`;
}
