import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, test } from "vitest";
import { compile } from "../../../src/compile.ts";

/**
 * What the rules find on the two sloops and on their mutants, held against the lists that were written down before any rule ran. Where the two
 * differ, `rulings.json` says who is right and why; a ruling that is not needed any more is as wrong as a difference without one.
 */

interface Named {
  readonly rule: string;
  readonly outcome: string;
  readonly about: string;
}
interface Expected extends Named {
  readonly severity: string;
  readonly or?: readonly { readonly rule?: string; readonly outcome?: string }[];
}
interface Mutant {
  readonly name: string;
  readonly base: string;
  readonly edits: readonly { readonly find: string; readonly replace: string }[];
  readonly adds: readonly Expected[];
  readonly removes: readonly Named[];
}
/** A difference between the list and the rules. */
interface Ruling {
  /** Names of plans and mutants that it holds for; none: wherever it is met. */
  readonly in?: readonly string[];
  /** Instead of names: a plan and all its mutants. */
  readonly base?: string;
  /** In the list and not found: `missing`; found and not in the list: `extra`. */
  readonly is: "missing" | "extra";
  /** Identity of what differs; of several, each has to differ. */
  readonly what: string | readonly string[];
  readonly because: string;
}

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), "utf8"));
const rulings = read("rulings.json") as readonly Ruling[]; // used below in full
const mutants = read("mutants.json") as readonly Mutant[]; // its form has a test of its own
const identity = ({ rule, outcome, about }: Named): string => `${rule} ${outcome} ${about}`;

const bases = new Map(
  ["sloop", "sloop-audit"].map((base) => {
    const text = readFileSync(new URL(`../../../examples/${base}.yaml`, import.meta.url), "utf8");
    return [base, { text, expected: read(`${base}.expected.json`) as readonly Expected[] }] as const; // as above
  }),
);

const ruled = rulings.flatMap(({ what, ...ruling }) =>
  (typeof what === "string" ? [what] : what).map((one) => ({ ...ruling, what: one })),
);
const used = new Set<number>();

/** Differences for which there is no ruling. */
function unruled(name: string, base: string, text: string, expected: readonly Expected[]): string[] {
  const { findings } = compile(text).judgement;
  const found = new Map(findings.map((f) => [identity(f), f]));
  const listed = new Map(expected.map((e) => [identity(e), e]));
  const isAlternative = new Set(expected.flatMap((e) => (e.or ?? []).map((o) => identity({ ...e, ...o }))));
  const differs: string[] = [];
  const tell = (is: Ruling["is"], what: string, words: string): void => {
    const at = ruled.findIndex(
      (r) => r.is === is && r.what === what && (r.in?.includes(name) ?? true) && (r.base ?? base) === base,
    );
    if (at >= 0) used.add(at);
    else differs.push(`${is} ${what}${words}`);
  };
  for (const [id, f] of found) if (!listed.has(id) && !isAlternative.has(id)) tell("extra", id, `: ${f.because}`);
  for (const [id, e] of listed) {
    const f = found.get(id);
    if (f === undefined) {
      if ((e.or ?? []).some((o) => found.has(identity({ ...e, ...o })))) continue;
      tell("missing", id, "");
    } else if (f.severity !== e.severity)
      tell("extra", `${id} as a ${f.severity}`, ` where the list says ${e.severity}`);
  }
  return differs;
}

describe("exactly what was expected is found, or there is a ruling", () => {
  for (const [base, { text, expected }] of bases) {
    test(base, () => {
      assert.deepEqual(unruled(base, base, text, expected), []);
    });
  }
  for (const { name, base, edits, adds, removes } of mutants) {
    test(name, () => {
      const of = bases.get(base);
      assert.ok(of !== undefined);
      const text = edits.reduce((plan, { find, replace }) => plan.replace(find, () => replace), of.text);
      const gone = new Set(removes.map(identity));
      const kept = of.expected.filter((e) => !gone.has(identity(e)));
      assert.deepEqual(unruled(name, base, text, [...kept, ...adds]), []);
    });
  }
  test("every ruling is needed", () => {
    assert.deepEqual(
      ruled.filter((_, i) => !used.has(i)).map(({ is, what }) => `${is} ${what}`),
      [],
    );
  });
});
