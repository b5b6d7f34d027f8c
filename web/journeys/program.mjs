// SPDX-License-Identifier: GPL-3.0-or-later
// The program, started in an empty folder of its own on a free port. With FRESH=1 the page comes from dist/ as it was
// just built, through Vite's preview; otherwise the one inside the program is tried.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const binary = process.env.SIGHTFALL ?? join(root, "build/release/sightfall");

export class Program {
  /** `options` are the verb's, beside its port. */
  static async start({ folder = mkdtempSync(join(tmpdir(), "sightfall-journey-")), port = 0, options = [] } = {}) {
    const program = new Program();
    program.folder = folder;
    await program.run(["--port", String(port), ...options]);
    program.url = program.own;
    if (process.env.FRESH) await program.freshen();
    return program;
  }
  async freshen() {
    process.env.SIGHTFALL_SERVER = this.own;
    const { preview } = await import("vite");
    const shown = await preview({
      root: join(root, "web"),
      configFile: join(root, "web/vite.config.ts"),
      logLevel: "error",
      preview: { port: 0, host: "127.0.0.1" },
    });
    this.url = `http://127.0.0.1:${shown.httpServer.address().port}`;
    this.shown = shown;
  }
  async run(options) {
    this.process = spawn(binary, ["serve", ...options], { cwd: this.folder, stdio: ["ignore", "pipe", "inherit"] });
    this.printed = "";
    this.process.stdout.on("data", (part) => (this.printed += part));
    this.own = (await said(this.process, /http:\/\/\S+/)).replace(/\/$/, "");
  }
  /** At the same port, with a document of its folder open. */
  start_again(file) {
    return this.run([file, "--port", new URL(this.own).port]);
  }
  kill() {
    return new Promise((resolve) => {
      this.process.once("exit", resolve);
      this.process.kill("SIGKILL");
    });
  }
  async end() {
    this.shown?.httpServer.close();
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

function said(process, pattern) {
  return new Promise((resolve, reject) => {
    let text = "";
    process.stdout.on("data", (part) => {
      text += part;
      const found = pattern.exec(text);
      if (found) resolve(found[0]);
    });
    process.once("exit", (code) => reject(new Error(`the program ended with ${code}: ${text}`)));
  });
}
