// SPDX-License-Identifier: GPL-3.0-or-later
// A server for work on the page alone, when `sightfall serve` is not at hand: the document, its edits and the events are
// real, the map is a toy (one over the distance to the nearest camera, no physics), and there are no verdicts. It serves
// dist/ when it has been built. Nothing that the page shows of it says anything of a site.
//
//   node mock/serve.mjs [PORT]
import { createHash } from "node:crypto";
import { createReadStream, existsSync, readFileSync, readdirSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { toy_map } from "./toy_map.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));
const dist = join(root, "web/dist");
const read = (path) => JSON.parse(readFileSync(join(root, path), "utf8"));
const sheets = join("data", "sheets");
const stock = {
  sheets: readdirSync(join(root, sheets))
    .filter((f) => f.endsWith(".json"))
    .map((f) => read(join(sheets, f))),
  level_tables: [],
  materials: [],
  lights: ["bright day", "overcast", "dusk", "lit night", "dark night", "fog"],
  subjects: ["face", "person", "plate", "vehicle", "object"],
};
const kNew = {
  sightfall: 1,
  site: {},
  conditions: [
    { name: "day", leaves: "on" },
    { name: "dark night", leaves: "off", light: "dark night" },
  ],
};

let open = null;
const pages = new Set();
const plans = new Map();

/** One message of a WebSocket, RFC 6455, section 5.2. */
function tell(page, name, data) {
  const text = Buffer.from(JSON.stringify({ event: name, data }));
  const head = Buffer.alloc(text.length < 126 ? 2 : 10);
  head[0] = 0x81;
  head[1] = text.length < 126 ? text.length : 127;
  if (head.length > 2) head.writeBigUInt64BE(BigInt(text.length), 2);
  page.write(Buffer.concat([head, text]));
}
function say(name, data) {
  for (const page of pages) tell(page, name, data);
}
const state = () => ({ undo: open.done.at(-1)?.words ?? null, redo: open.undone.at(-1)?.words ?? null });
const same = (a, b) => JSON.stringify(a ?? null) === JSON.stringify(b ?? null);

function place(at) {
  let holder = open.document;
  for (const key of at.slice(0, -1)) holder = holder[key] ??= {};
  const list = [
    "solids",
    "veils",
    "mounts",
    "lamps",
    "places",
    "neighbours",
    "feeds",
    "ways",
    "runs",
    "level_tables",
    "cameras",
    "needs",
    "conditions",
    "catalogue",
  ];
  if (list.includes(at.at(-2))) {
    let up = open.document;
    for (const key of at.slice(0, -2)) up = up[key] ??= {};
    const members = Array.isArray(up[at.at(-2)]) ? up[at.at(-2)] : (up[at.at(-2)] = []);
    return {
      get: () => members.find((m) => m.name === at.at(-1)) ?? null,
      set: (now, index) => {
        const i = members.findIndex((m) => m.name === at.at(-1));
        if (now === null) members.splice(i, 1);
        else if (i >= 0) members[i] = now;
        else members.splice(index ?? members.length, 0, now);
      },
    };
  }
  return {
    get: () => holder[at.at(-1)] ?? null,
    set: (now) => (now === null ? delete holder[at.at(-1)] : (holder[at.at(-1)] = now)),
  };
}
function make(changes) {
  for (const change of changes) place(change.at).set(change.now, change.index);
  open.revision += 1;
  return { revision: open.revision, ...state(), changes };
}
const back = (changes) =>
  changes
    .map(({ at, was, now }) => ({
      at: now && was && now.name ? [...at.slice(0, -1), now.name] : at,
      was: now,
      now: was,
    }))
    .reverse();

const routes = {
  "GET /api/start": () => ({
    open: open !== null,
    folder: "mock",
    documents: [{ file: "alder_lane.sightfall.json", name: "Alder Lane nursery" }],
    version: "mock",
  }),
  "GET /api/site": () => ({ revision: open.revision, file: open.file, document: open.document, ...state() }),
  "GET /api/schema": () => read("schema/project.schema.json"),
  "GET /api/stock": () => stock,
  "GET /api/history": () => ({
    edits: open.done.map((e, i) => ({ revision: i + 1, words: e.words, when: "", undone: false })).reverse(),
    earlier: false,
    most_kept: 2000,
  }),
  "POST /api/open": (q) => {
    const document = q.new ? { ...structuredClone(kNew), name: q.new.name } : read("demo/alder_lane.sightfall.json");
    open = { file: q.file ?? q.as ?? q.new.as, document, revision: 1, done: [], undone: [] };
    say("opened", { file: open.file });
    return routes["GET /api/site"]();
  },
  "POST /api/edits": (q, tab) => {
    const conflicts = q.changes
      .filter((c) => !same(place(c.at).get(), c.was))
      .map((c) => ({ ...c, found: place(c.at).get() }));
    if (conflicts.length > 0) throw { status: 409, body: { conflicts } };
    open.done.push({ words: q.words, changes: q.changes });
    open.undone = [];
    const answer = make(q.changes);
    say("edit", { ...answer, tab, words: q.words });
    return answer;
  },
  "POST /api/undo": (q, tab) => step(open.done, open.undone, (e) => back(e.changes), tab),
  "POST /api/redo": (q, tab) => step(open.undone, open.done, (e) => e.changes, tab),
  "POST /api/way": () => ({ revision: open.revision, building: null, indoors: false, through_buildings: false }),
  "POST /api/map": (q) => ({ revision: open.revision, ...toy_map(open.document, q) }),
};
function step(from, to, changes, tab) {
  const edit = from.pop();
  if (!edit) throw { status: 409, body: { errors: [{ text: "there is nothing to take back" }] } };
  to.push(edit);
  const answer = make(changes(edit));
  say("edit", { ...answer, tab, words: edit.words });
  return answer;
}

const kTypes = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};
const server = createServer((request, response) => {
  const url = new URL(request.url, "http://localhost");
  if (!url.pathname.startsWith("/api/")) {
    const file = join(dist, normalize(url.pathname === "/" ? "/index.html" : url.pathname));
    if (!file.startsWith(dist) || !existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { "Content-Type": kTypes[extname(file)] ?? "application/octet-stream" });
    return createReadStream(file).pipe(response);
  }
  const chunks = [];
  request.on("data", (chunk) => chunks.push(chunk));
  request.on("end", () => {
    const body = Buffer.concat(chunks);
    const send = (status, data) =>
      response.writeHead(status, { "Content-Type": "application/json" }).end(JSON.stringify(data));
    if (request.method === "PUT") {
      const size = body.readUInt32BE(0) === 0x89504e47 ? [body.readUInt32BE(16), body.readUInt32BE(20)] : [1000, 700];
      plans.set("plan.png", body);
      return send(200, { picture: "plan.png", columns: size[0], rows: size[1] });
    }
    if (url.pathname.startsWith("/api/plan/"))
      return response.writeHead(200, { "Content-Type": "image/png" }).end(plans.get("plan.png"));
    const route = routes[`${request.method} ${url.pathname}`];
    if (!route || (!open && !/start|open|schema|stock/.test(url.pathname)))
      return send(404, { errors: [{ text: "the mock does not know this" }] });
    try {
      send(200, route(body.length > 0 ? JSON.parse(body) : null, request.headers["x-sightfall-tab"]));
    } catch (failure) {
      send(failure.status ?? 500, failure.body ?? { errors: [{ text: String(failure) }] });
    }
  });
});
// Pages only listen: what they send, pings and farewells too, is not read.
server.on("upgrade", (request, page) => {
  const accept = createHash("sha1")
    .update(`${request.headers["sec-websocket-key"]}258EAFA5-E914-47DA-95CA-C5AB0DC85B11`)
    .digest("base64");
  page.write(
    `HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Accept: ${accept}\r\n\r\n`,
  );
  pages.add(page);
  page.on("close", () => pages.delete(page)).on("error", () => page.destroy());
  page.resume();
  tell(page, "hello", { revision: open?.revision ?? null });
});
server.listen(Number(process.argv[2] ?? 8931), "127.0.0.1", () =>
  console.log(`mock on http://127.0.0.1:${process.argv[2] ?? 8931}`),
);
