import { readFileSync } from "node:fs";
import assert from "node:assert/strict";
import { test } from "vitest";
import { compile, createMemory } from "../../../src/compile.ts";
import { findCures } from "../../../src/cure/index.ts";
import type { Finding } from "../../../src/rules/index.ts";

// Faults that were put into two sloops, one at a time, by someone who knew no rule. Each has a cure, or it is written here why there is none.

interface Mutant {
  readonly name: string;
  readonly base: string;
  readonly edits: readonly { readonly find: string; readonly replace: string }[];
}

const mutants = JSON.parse(readFileSync(new URL("mutants.json", import.meta.url), "utf8")) as readonly Mutant[]; // its form is held by `form.test.ts`

const bases = Object.fromEntries(
  ["sloop", "sloop-audit"].map((name) => {
    const text = readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8");
    return [name, { text, found: new Set(compile(text).judgement.findings.map(identity)) }];
  }),
);

function identity({ rule, about }: Pick<Finding, "rule" | "about">): string {
  return `${rule} ${about}`;
}

/** By rule and thing, or by rule alone. */
const none: Readonly<Record<string, string>> = {
  "conductor/impossible-length": "a length is measured and not chosen",
  "battery/tapped-mid-point": "the load needs a converter from the full voltage: another build",
  "protection/device-above-appliance-limit parts.VHF": "it transmits with more than its maker's largest fuse carries",
};

for (const { name, base, edits } of mutants) {
  const under = bases[base];
  if (under === undefined) continue;
  const text = edits.reduce((all, { find, replace }) => all.replace(find, () => replace), under.text);
  const memory = createMemory();
  const fails = compile(text, memory).judgement.findings.filter(
    (f) =>
      f.outcome === "fail" &&
      f.severity !== "note" &&
      !under.found.has(identity(f)) &&
      // What nobody knows has to be found out.
      f.rule !== "record/unknown-fact",
  );
  if (fails.length === 0) continue;
  test(
    name,
    () => {
      // Not kept from above: that many whole builds at once fill the memory.
      const compiled = compile(text, memory);
      for (const finding of fails) {
        const why = none[identity(finding)] ?? none[finding.rule];
        const search = findCures(text, finding, compile, { memory, compiled });
        assert.equal(search.is, why === undefined ? "edits" : "none", `${identity(finding)}: ${finding.because}`);
      }
    },
    60_000,
  );
}
