import { defineConfig } from "vitest/config";

/** Paths are from the top, where the runner is started. Tests that need the built page: it is built, and a day planned for them, once a run. */
const atPage = ["tests/page/*.test.ts", "tests/cases/shop-file.test.ts"];

export default defineConfig({
  test: {
    // A busy machine plans and opens pages slowly.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 60_000 } },
    projects: [
      { extends: true, test: { name: "page", include: atPage, globalSetup: "tests/help/page-setup.ts" } },
      { extends: true, test: { name: "rest", include: ["tests/**/*.test.ts"], exclude: atPage } },
    ],
  },
});
