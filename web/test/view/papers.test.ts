// SPDX-License-Identifier: GPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { papering } from "../../src/store/papering.svelte";
import { bytes_of } from "../../src/base/bytes";
import { blob_of, size_in_words } from "../../src/view/papers/files";

const paper = (content: string) => ({ file: "a.pdf", what: "", type: "application/pdf", content });

describe("papers over the wire", () => {
  it("are the bytes that were sent", () => {
    expect([...bytes_of("AP8Q")]).toEqual([0, 255, 16]);
    expect(bytes_of("").length).toBe(0);
    expect(blob_of(paper("AP8Q")).size).toBe(3);
    expect(blob_of(paper("AP8Q")).type).toBe("application/pdf");
  });
  it("tell their size", () => {
    expect(size_in_words(paper("A".repeat(4)))).toBe("1 kB");
    expect(size_in_words(paper("A".repeat(16_000)))).toBe("12 kB");
    expect(size_in_words(paper("A".repeat(1_866_668)))).toBe("1.4 MB");
  });
});

describe("papers that are being made", () => {
  it("hear of their own progress alone, and nothing once they are put away", () => {
    let stopped = false;
    const id = papering.started(() => (stopped = true));
    papering.heard_progress({ job: "another", share: 0.9, words: "" });
    expect(papering.making?.share).toBeNull();
    papering.heard_progress({ job: id, share: 0.5, words: "pictures" });
    expect(papering.making?.share).toBe(0.5);
    papering.put_away();
    expect(stopped).toBe(true);
    papering.ended(id, { revision: 1, files: [], without_shape: [] });
    expect(papering.made).toBeNull();
  });
  it("are there when they are done, and a refusal leaves none", () => {
    const first = papering.started(() => undefined);
    papering.ended(first, { revision: 3, files: [paper("AP8Q")], without_shape: [] });
    expect(papering.made?.files.length).toBe(1);
    const second = papering.started(() => undefined);
    expect(papering.made).toBeNull();
    papering.refused(second, "no");
    expect(papering.refusal).toBe("no");
    expect(papering.making).toBeNull();
  });
});
