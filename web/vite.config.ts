import { defineConfig } from "vite";

/** No inlined files: the service's content policy lets nothing run or style from inside the page itself. */
export default defineConfig({
  base: "/",
  build: { outDir: "dist", emptyOutDir: true, assetsInlineLimit: 0, modulePreload: false },
});
