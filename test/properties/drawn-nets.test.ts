import { describe, expect, test } from "vitest";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { drawOneLine } from "../../src/draw/one-line/index.ts";
import { settleOnce } from "../fixtures/settled-text.ts";
import { wrongNets } from "./drawn-nets.ts";
import { randomBuild } from "./random-build.ts";

const netsOf = (text: string, paper: "A4" | "A3" | "Letter" = "A4"): string[] => {
  const build = { ...settleOnce(text), findings: [] };
  return wrongNets(build, drawOneLine(build, { paper, variant: "iec" }));
};

/** A bank behind a fuse of its own, a switch and a bar, with more on its terminals and elsewhere on the way. */
const bank = (more: string): string => `wireworthy: 1
name: bank
rules: { DC: iso-small-craft 2020 }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, name: house bank, chemistry: LFP, capacity: 280 Ah, short-circuit: 4 kA }
  F1: { kind: fuse, name: bank fuse, rated: 350 A, family: class T }
  SW1: { kind: switch, name: battery main switch, rated: 350 A }
  BP: { kind: bus bar, rated: 400 A }
  BN: { kind: bus bar, rated: 400 A }
  CHG: { kind: DC-DC converter, nominal: 12 V, output: 20 A }
  pump: { kind: bilge pump, running: 4.5 A, always on: yes }
  alarm: { kind: electronics, running: 0.5 A }
  lights: { kind: light, running: 2 A }
circuits:
  W01: { path: B1 → F1, length: 0.2 m }
  W02: { path: F1 → SW1, length: 0.6 m }
  W03: { path: SW1 → BP, length: 0.4 m }
  W04: { path: "B1:− → BN", length: 0.6 m }
  W05: { path: BP → lights, length: 4 m }
${more}`;

describe("a drawing shows the circuit of the plan", () => {
  const mores = {
    "nothing more": "",
    "a pump at the bank": "  W08: { path: B1 → pump, length: 3 m, fuse: 10 A 0.15 m from B1 }\n",
    "two at the bank": "  W08: { path: B1 → pump, length: 3 m, fuse: 10 A 0.15 m from B1 }\n  W09: { path: B1 → alarm, length: 3 m, fuse: 5 A 0.15 m from B1 }\n", // prettier-ignore
    "a pump behind the fuse": "  W08: { path: F1:out → pump, length: 3 m, fuse: 10 A 0.15 m from F1 }\n",
    "a pump at the bank and one behind the fuse": "  W08: { path: B1 → pump, length: 3 m, fuse: 10 A 0.15 m from B1 }\n  W09: { path: F1:out → alarm, length: 3 m, fuse: 5 A 0.15 m from F1 }\n", // prettier-ignore
    "a pump before the switch": "  W08: { path: SW1:in → pump, length: 3 m, fuse: 10 A 0.15 m from SW1 }\n",
    "a second way to the bar": "  W08: { path: B1 → BP, length: 3 m, fuse: 100 A 0.15 m from B1 }\n",
    "a converter at the bank":
      "  W08: { path: B1 → CHG:in, length: 1 m }\n  W09: { path: CHG:out → BP, length: 1 m }\n",
  };
  test.each(Object.entries(mores))("of a bank with %s", (_, more) => {
    for (const paper of ["A4", "A3"] as const) expect(netsOf(bank(more), paper)).toEqual([]);
    const short = bank(more).replace("B1 → F1, length: 0.2 m", "B1 → SW1, length: 1 m").replace(/^ {2}W02: .*\n/m, "").replace(/^.*\bF1\b.*\n/gm, ""); // prettier-ignore
    expect(netsOf(short)).toEqual([]);
  });

  test.each(["sloop", "sloop-us", "sloop-audit", "van", "hut"])("of %s", (name) => {
    const text = readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");
    for (const paper of ["A4", "A3", "Letter"] as const) expect(netsOf(text, paper)).toEqual([]);
  });

  test("of sixty made-up builds", () => {
    for (let seed = 1; seed <= 60; seed++) expect([seed, ...netsOf(randomBuild(seed))]).toEqual([seed]);
  }, 300_000);
});
