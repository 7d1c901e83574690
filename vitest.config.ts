import { defineConfig } from "vitest/config";

const BROWSER = "test/browser/**/*.test.ts";

export default defineConfig({
  test: {
    reporters: process.env["WW_REPORTER"] === "plain" ? ["default", "./tools/closing-line.ts"] : ["default"],
    projects: [
      {
        test: {
          name: "core",
          include: ["src/**/*.test.ts", "test/**/*.test.ts"],
          exclude: [BROWSER],
          // Tests of a pure core may share its modules: reading them anew for each file takes longer than most files run.
          isolate: false,
          // Left alone it takes one less than there are cores.
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: "page",
          include: [BROWSER],
          globalSetup: "./test/browser/set-up.ts",
          testTimeout: 120_000,
          hookTimeout: 60_000,
          // To wait for what the page will show is no measure of its speed: as long as the driver waits for an element.
          expect: { poll: { timeout: 30_000 } },
          // One browser serves all files; two at a time keep two cores busy. After everything else, so that times mean something.
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
