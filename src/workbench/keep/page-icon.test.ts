import { test } from "vitest";
import assert from "node:assert/strict";
import { pageIcon, webManifest } from "./page-icon.ts";

test("the mark stays inside what systems leave of an icon", () => {
  // Of a maskable icon the circle of 80 % is safe (W3C Web Application Manifest, "icon masks and safe zone"); the ring is left of the middle.
  const margin = 0.2;
  assert.match(pageIcon(margin), /translate\(102\.4 102\.4\) scale\(0\.6\)/);
  const farthest = Math.hypot(256 - 168, 0) + 104 + 28; // of the ring, from the middle, in units of the icon
  assert.ok(farthest * (1 - 2 * margin) <= 0.4 * 512, String(farthest));
});

test("the manifest names the page relative to where it lies", () => {
  const icon = { src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" } as const;
  const manifest = JSON.parse(webManifest([icon])) as Record<string, unknown>; // as it was written
  assert.deepEqual([manifest["start_url"], manifest["scope"], manifest["icons"]], ["./", "./", [icon]]);
});
