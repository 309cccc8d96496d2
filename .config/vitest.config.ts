// SPDX-License-Identifier: AGPL-3.0-or-later
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    globalSetup: [fileURLToPath(new URL("bundle.mjs", import.meta.url))],
    include: ["tests/**/*.test.ts"],
    testTimeout: 120_000,
  },
});
