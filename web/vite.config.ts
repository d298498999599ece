import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const here = (file: string): string => fileURLToPath(new URL(file, import.meta.url));

/** No inlined files: the service's content policy lets nothing run or style from inside the page itself. */
export default defineConfig({
  base: "/",
  // The same page whatever else is said about the environment it is built in.
  oxc: { jsx: { development: false } },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: false,
    rolldownOptions: {
      input: { page: here("./index.html"), worker: here("./offline/worker.ts") },
      // The worker's place decides what it may serve, and its name must stay.
      output: { entryFileNames: ({ name }) => (name === "worker" ? "worker.js" : "assets/[name]-[hash].js") },
    },
  },
});
