import { expect, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { drawBench, travelOf, type Travel } from "../../src/draw/bench/index.ts";
import type { OneLineBuild } from "../../src/draw/one-line/index.ts";
import { settleOnce } from "../fixtures/settled-text.ts";
import { randomBuild } from "./random-build.ts";

const examples = ["sloop", "sloop-us", "sloop-audit", "van", "hut"] as const;
const textOf = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");
const plain = (text: string): OneLineBuild => ({ ...settleOnce(text), findings: [] });

function reached({ ways, home }: Travel): Set<string> {
  const seen = new Set(home === null ? [] : [home]);
  for (const about of seen) {
    const way = ways[about];
    assert.ok(way !== undefined, `${about} leads nowhere`);
    for (const to of [...way.next, ...way.back, way.up, way.down]) if (to !== null) seen.add(to);
  }
  return seen;
}

/** What is wrong with the ways through a build. */
function faultsOf(build: OneLineBuild): string[] {
  const travel = travelOf(build);
  const { ways } = travel;
  const seen = reached(travel);
  const { places } = drawBench(build, { variant: "iec", state: null });
  const faults = Object.keys(places).filter((about) => !seen.has(about)).map((about) => `${about} is drawn and not reached`); // prettier-ignore
  for (const about of seen) if (places[about] === undefined) faults.push(`${about} is reached and not drawn`);
  for (const [about, { next, back, up, down }] of Object.entries(ways)) {
    for (const to of next)
      if (ways[to]?.back.includes(about) !== true) faults.push(`no way back from ${to} to ${about}`);
    for (const to of back) if (ways[to]?.next.includes(about) !== true) faults.push(`no way on from ${to} to ${about}`);
    if (up !== null && ways[up]?.down !== about) faults.push(`${about} lies not below ${up}`);
    if (down !== null && ways[down]?.up !== about) faults.push(`${about} lies not above ${down}`);
  }
  return faults;
}

test.each(examples)("%s: all that is drawn is reached from home, and each step can be undone", (name) => {
  expect(faultsOf(plain(textOf(name)))).toEqual([]);
});

test("sixty builds of every shape: all that is drawn is reached, and each step can be undone", () => {
  for (let seed = 1; seed <= 60; seed++) expect([seed, ...faultsOf(plain(randomBuild(seed)))]).toEqual([seed]);
}, 300_000);

test("arrows go along the copper of the sloop", () => {
  const { ways, home } = travelOf(plain(textOf("sloop")));
  assert.equal(home, "parts.B1");
  // From the battery through the switch to the bar, and on to the fridge.
  const path = ["parts.B1", "circuits.W01", "parts.SW1", "circuits.W33", "parts.BP", "circuits.W04", "parts.PNL", "circuits.W13", "parts.fridge"]; // prettier-ignore
  path.slice(1).forEach((to, i) => {
    assert.ok(ways[path[i] ?? ""]?.next.includes(to), `${path[i] ?? ""} → ${to}`);
  });
  // Along the panel in drawn order, by its circuits and by its loads.
  assert.equal(ways["circuits.W13"]?.down, "circuits.W14");
  assert.equal(ways["circuits.W13"]?.up, null);
  assert.equal(ways["parts.fridge"]?.down, "parts.masthead light");
  assert.equal(ways["parts.B1"]?.down, "parts.B2");
  // A charger feeds the bar, and what is chained to the plotter comes after it.
  expect(ways["circuits.W11"]?.next).toEqual(["parts.BP"]);
  expect(ways["circuits.W21"]?.next).toEqual(["parts.plotter", "parts.AIS", "parts.instruments"]);
});

test("a build of nothing has no home", () => {
  assert.equal(travelOf(plain("wireworthy: 1\n")).home, null);
});
