// SPDX-License-Identifier: GPL-3.0-or-later
// A new site from a map of buildings and a raster of heights, both invented: what the map leaves open is asked for, each
// file is one undo, and what is wrong with a file is said where it can be mended.
import { axe, expect, page_on, picture } from "./page.mjs";

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

function town() {
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
  return Buffer.from(JSON.stringify({ type: "FeatureCollection", features }));
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
  expect(page.wrong.length === 0, page.wrong.join("\n"));
  await page.close();
  return `${count} buildings on a slope, each file one undo`;
}
