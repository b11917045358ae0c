import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

// The page is built into the package, which serves it; nothing is loaded from outside at run time.
export default defineConfig({
  plugins: [svelte()],
  build: { outDir: "../src/linewright/web/static", emptyOutDir: true, target: "es2022", modulePreload: { polyfill: false } },
  test: { include: ["tests/**/*.test.ts"], environment: "node" },
});
