// SPDX-License-Identifier: GPL-3.0-or-later
// Forms are CLDR's medium ones for en-GB and de-DE, as ICU carries them (Intl).
import { afterAll, expect, it } from "vitest";
import { day_shown, moment_shown } from "../../src/base/dates";
import { speak } from "../../src/base/text.svelte";

afterAll(() => speak("en"));

it("days and moments are written as the language does, hours to 24", async () => {
  const both = (): string[] => [day_shown("2026-12-05"), moment_shown("2026-11-27T18:10:05Z", "UTC")];
  expect(both()).toEqual(["5 Dec 2026", "27 Nov 2026, 18:10:05"]);
  await speak("de");
  expect(both()).toEqual(["05.12.2026", "27.11.2026, 18:10:05"]);
});

it("what is no date stays as it is", () => {
  expect([day_shown("soon"), day_shown(""), moment_shown("when?")]).toEqual(["soon", "", "when?"]);
});
