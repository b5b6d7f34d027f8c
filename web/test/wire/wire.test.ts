import { readFileSync, readdirSync } from "node:fs";
import Ajv2020 from "ajv/dist/2020";
import { afterEach, describe, expect, it, vi } from "vitest";
import { WireError, post, tab } from "../../src/wire/ask";
import type { Listener } from "../../src/wire/events";
import { with_changes } from "../../src/store/changes";
import type { EditAnswer, SiteAnswer } from "../../src/wire/answers";
import { kNames, listen } from "../../src/wire/events";
import { plain_words } from "../../src/base/edit_words";
import { fields_at } from "../../src/widgets/fields";

const schemas = new URL("../../../schema/", import.meta.url);
const read = (path: string): never => JSON.parse(readFileSync(new URL(path, schemas), "utf8")) as never;

describe("a request", () => {
  afterEach(() => vi.unstubAllGlobals());
  it("names its page, which no form of a foreign page can", async () => {
    const fetched = vi.fn((..._: unknown[]) => Promise.resolve(new Response("{}")));
    vi.stubGlobal("fetch", fetched);
    await post("/api/undo", {});
    expect((fetched.mock.calls[0]![1] as { headers: Record<string, string> }).headers["X-Sightfall-Tab"]).toBe(tab);
  });
  it("throws the server's own words", async () => {
    const body = { errors: [{ text: "height_m: found -1; at least 0.01", object: "shop", field: "height_m" }] };
    vi.stubGlobal("fetch", () => Promise.resolve(new Response(JSON.stringify(body), { status: 400 })));
    await expect(post("/api/edits", {})).rejects.toMatchObject({
      status: 400,
      message: "shop, height_m: height_m: found -1; at least 0.01",
    });
  });
  it("has status 0 when nobody answers", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("refused")));
    await expect(post("/api/edits", {})).rejects.toSatisfy((error) => error instanceof WireError && error.status === 0);
  });
});

describe("the stream of events", () => {
  it("hands on what it hears and opens anew when it breaks", () => {
    vi.useFakeTimers();
    const opened: {
      onopen?: () => void;
      onclose?: () => void;
      onmessage?: (event: { data: string }) => void;
      closed: boolean;
    }[] = [];
    const open = (): WebSocket => {
      const socket = { closed: false, close: () => (socket.closed = true) };
      opened.push(socket);
      return socket as never;
    };
    const revisions: number[] = [];
    const links: boolean[] = [];
    const nothing = (): void => undefined;
    const listener = {
      hello: ({ revision }: { revision: number }) => revisions.push(revision),
      edit: nothing,
      opened: nothing,
      check: nothing,
      trouble: nothing,
      progress: nothing,
      link: (up: boolean) => links.push(up),
    };
    const stop = listen(listener as unknown as Listener, open);
    opened[0]!.onopen!();
    opened[0]!.onmessage!({ data: readFileSync(new URL("examples/wire/message.json", schemas), "utf8") });
    opened[0]!.onmessage!({ data: '{"event": "of another version", "data": {}}' });
    opened[0]!.onclose!();
    vi.advanceTimersByTime(200);
    expect(opened.length).toBe(1);
    vi.advanceTimersByTime(100);
    expect([revisions, links, opened.length]).toEqual([[1], [true, false], 2]);
    stop();
    opened[1]!.onclose!();
    vi.advanceTimersByTime(10000);
    expect([links, opened.length, opened[1]!.closed]).toEqual([[true, false], 2, true]);
    vi.useRealTimers();
  });
});

describe("golden examples", () => {
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  const project = ajv.compile(read("project.schema.json"));
  it.each(["../demo/alder_lane.sightfall.json", "examples/full.sightfall.json", "examples/minimal.sightfall.json"])(
    "%s is a document",
    (path) => {
      expect(project(read(path)) || project.errors).toBe(true);
    },
  );
  it("an answer of check", () => {
    const check = ajv.compile(read("check_answer.schema.json"));
    expect(check(read("examples/answers/check.json")) || check.errors).toBe(true);
  });
  const examples = readdirSync(new URL("examples/wire/", schemas)).map((file) => file.replace(".json", ""));
  const held = (file: string, kind: string): ((value: unknown) => unknown) => {
    const schema = read(file) as { $defs: Record<string, unknown> };
    return ajv.compile({ $defs: schema.$defs, $ref: `#/$defs/${kind}` });
  };
  const answers = examples.filter((name) => name.startsWith("answer_")).map((name) => name.replace("answer_", ""));
  it.each(answers)("the answer %s", (kind) => {
    const holds = held("wire_answers.schema.json", kind);
    expect(holds(read(`examples/wire/answer_${kind}.json`)) || (holds as { errors?: unknown }).errors).toBe(true);
  });
  const kinds = Object.keys((read("wire.schema.json") as { $defs: object }).$defs);
  it.each(kinds.filter((kind) => examples.includes(kind)))("%s", (kind) => {
    const holds = held("wire.schema.json", kind);
    expect(holds(read(`examples/wire/${kind}.json`)) || (holds as { errors?: unknown }).errors).toBe(true);
  });
  it("what an edit told leads the page to the document that the server holds", () => {
    const site = read("examples/wire/site.json") as SiteAnswer;
    const edit = read("examples/wire/edits.json") as EditAnswer;
    const undo = read("examples/wire/undo.json") as EditAnswer;
    const edited = with_changes(site.document, edit.changes);
    expect(edited).not.toEqual(site.document);
    expect(with_changes(edited, undo.changes)).toEqual(site.document);
  });
  it("every event that the schema has is listened to", () => {
    const named = kinds.filter((kind) => kind.startsWith("event_")).map((kind) => kind.replace("event_", ""));
    expect([...kNames].sort()).toEqual(named.sort());
  });
});

describe("forms from the schema", () => {
  const schema = read("project.schema.json");
  it("a building's fields with unit, range and what is needed", () => {
    const fields = fields_at(schema, "site/solids", "building");
    expect(fields.map((field) => field.name)).toEqual(["name", "material", "base_m", "height_m", "openings"]);
    expect(fields.at(-2)).toMatchObject({
      kind: "number",
      unit: "m",
      least: 0.01,
      most: 1000,
      required: true,
      meaning: "of its top above the base",
    });
  });
  it("a camera's choices and its group", () => {
    const fields = fields_at(schema, "cameras");
    expect(fields.find((field) => field.name === "infrared")).toMatchObject({ kind: "choice", usual: "automatic" });
    expect(fields.find((field) => field.name === "stream")?.fields.map((field) => field.name)).toContain("codec");
  });
  it("field names in plain words", () => {
    expect(plain_words("slowest_shutter_s")).toBe("slowest shutter");
    expect(plain_words("speed_m_s")).toBe("speed");
  });
});
