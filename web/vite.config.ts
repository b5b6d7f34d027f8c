// SPDX-License-Identifier: GPL-3.0-or-later
// How the page is built: hashed files in dist/, which the binary embeds. Nothing is inlined as data, since the server's
// Content-Security-Policy takes fonts and scripts from itself alone.
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

const server = process.env["SIGHTFALL_SERVER"] ?? "http://127.0.0.1:8246";

// The program takes requests of its own page alone, so what is passed on to it claims to come from there.
const proxy = { "/api": { target: server, changeOrigin: true, ws: true, headers: { origin: server } } };

export default defineConfig({
  plugins: [svelte()],
  build: { target: "es2022", assetsInlineLimit: 0, chunkSizeWarningLimit: 800, sourcemap: false },
  ...(process.env["VITEST"] && { resolve: { conditions: ["browser"] } }),
  // data/ lies beside web/: the kinds of cable and the usual values are read from there.
  server: { port: 5173, proxy, fs: { allow: [".."] } },
  preview: { proxy },
  // A busy machine is slow; what hangs is told all the same.
  test: { include: ["test/**/*.test.ts"], environment: "node", testTimeout: 30000 },
});
