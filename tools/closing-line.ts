import type { Reporter, TestModule } from "vitest/node";

/** Ends a test run with the plain line `N passed, N failed`. */
// eslint-disable-next-line no-restricted-exports -- the runner loads a reporter by its default export
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    let passed = 0;
    let failed = unhandled.length;
    let skipped = 0;
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === "passed") passed++;
        else if (state === "skipped") skipped++;
        else failed++;
      }
      if (module.state() === "failed" && module.errors().length > 0) failed++;
    }
    console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`);
  }
}
