import fc from "fast-check";
import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/index.ts";

/** A load on the bar, or behind the panel. */
interface Load {
  readonly amps: number;
  readonly starting: number | null;
  readonly metres: number;
  readonly panel: boolean;
}

interface Build {
  readonly set: "iso-small-craft ISO 13297" | "us-small-craft ABYC E-11";
  readonly batteries: number;
  readonly lead: number;
  readonly feeder: number;
  readonly charger: boolean;
  readonly loads: readonly Load[];
}

const load: fc.Arbitrary<Load> = fc.record({
  amps: fc.integer({ min: 1, max: 90 }),
  starting: fc.option(fc.integer({ min: 91, max: 200 }), { freq: 3 }),
  metres: fc.integer({ min: 1, max: 12 }),
  panel: fc.boolean(),
});
const build: fc.Arbitrary<Build> = fc.record({
  set: fc.constantFrom("iso-small-craft ISO 13297", "us-small-craft ABYC E-11"),
  batteries: fc.integer({ min: 1, max: 2 }),
  lead: fc.integer({ min: 1, max: 3 }),
  feeder: fc.integer({ min: 1, max: 4 }),
  charger: fc.boolean(),
  loads: fc.array(load, { minLength: 1, maxLength: 4 }),
});

/** Numbers its circuits alike both ways; a return that is a circuit of its own is that of the plus with an `r`. How many lie together is said, so that both count the same. */
function write({ set, batteries, lead, feeder, charger, loads }: Build, own: boolean): string {
  const circuits: string[] = [];
  const add = (id: string, from: string, to: string, metres: number, minus: readonly [string, string]): void => {
    const say = (key: string, a: string, b: string, more: string): void =>
      void circuits.push(`  ${key}: { path: "${a} → ${b}", length: ${metres} m, bundle: 2${more} }`);
    say(id, from, to, own ? ", return: none" : "");
    if (own) say(`${id}r`, minus[0], minus[1], "");
  };
  const parts: string[] = [];
  for (let b = 1; b <= batteries; b++) {
    parts.push(`  B${b}: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }`);
    // Its plus terminal is named, so that neither way of writing gives it a return by itself.
    const to = own ? `B${b}:+` : `B${b}`;
    add(`W0${b}`, to, "BP", lead, [`B${b}:−`, "BN"]);
  }
  const isPanel = loads.some((l) => l.panel);
  if (isPanel) {
    parts.push("  PNL: { kind: panel, ways: 6, device: breaker, interrupt: 5 kA, negative bar: yes }");
    add("W10", "BP", "PNL", feeder, ["PNL:−", "BN"]);
  }
  if (charger) {
    parts.push("  ALT: { kind: alternator, rated: 40 A, hot: 30 A, self-limited: yes }");
    add("W11", own ? "ALT:+" : "ALT", "BP", feeder, ["ALT:−", "BN"]);
  }
  loads.forEach((l, i) => {
    const start = l.starting === null ? "" : `, starting: ${l.starting} A, starts above: 9 V`;
    parts.push(`  L${i}: { kind: load, running: ${l.amps} A${start} }`);
    add(`W2${i}`, l.panel ? `PNL:${i + 1}` : "BP", own && l.panel ? `L${i}:+` : `L${i}`, l.metres, [
      `L${i}:−`,
      l.panel ? "PNL:−" : "BN",
    ]);
  });
  return [
    "wireworthy: 1",
    "name: t",
    `rules: { DC: ${set} }`,
    'systems:\n  DC: { kind: DC, nominal: 12 V, poles: ["+", "−"], return: BN }',
    `stock: { sizes: ${set.startsWith("us") ? "AWG" : "mm²"}, metal: tinned copper, strands: class 5, insulation: 90 °C }`,
    `parts:\n${parts.join("\n")}\n  BP: { kind: bus bar, rated: 300 A }\n  BN: { kind: bus bar, rated: 300 A }`,
    `circuits:\n${circuits.join("\n")}`,
  ].join("\n");
}

const circuitsOf = (text: string) => {
  const { design, judgement, diagnostics } = compile(text);
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error").map((d) => d.message),
    [],
    text,
  );
  return { design, judgement };
};

/** Which rules fail on which circuit or part, a return counted with its plus. */
const failing = ({ judgement }: ReturnType<typeof circuitsOf>): string[] =>
  [
    ...new Set(
      judgement.findings
        .filter((f) => f.outcome === "fail")
        .map((f) => `${f.rule} ${f.about.replace(/^(circuits\.W\d+)r/, "$1")}`),
    ),
  ].sort();

// Volts of two networks with other numbers for their nodes agree but for rounding.
const near = (a: number | null, b: number | null): boolean =>
  a === b || (a !== null && b !== null && Math.abs(a - b) < 1e-6);

test("a return that is written as a circuit of its own comes to what the return of a pair does", () => {
  fc.assert(
    fc.property(build, (one) => {
      const paired = circuitsOf(write(one, false));
      const own = circuitsOf(write(one, true));
      const byId = new Map(own.design.circuits.map((c) => [c.id, c]));
      for (const c of paired.design.circuits) {
        const [plus, back] = [byId.get(c.id), byId.get(`${c.id}r`)];
        const what = `${c.id}\n${write(one, true)}`;
        assert.equal(plus?.size?.label, c.size?.label, what);
        assert.equal(back?.size?.label, c.size?.label, what);
        assert.ok(near(plus?.steadyA ?? null, c.steadyA) && near(back?.steadyA ?? null, c.steadyA), what);
        assert.ok(near(plus?.dropV ?? null, c.dropV) && near(plus?.startVolts ?? null, c.startVolts), what);
        assert.deepEqual(
          plus?.devices.map((d) => `${d.end} ${d.family ?? ""} ${d.ratingA ?? ""}`),
          c.devices.map((d) => `${d.end} ${d.family ?? ""} ${d.ratingA ?? ""}`),
          what,
        );
      }
      assert.ok(near(own.design.copperMm2M, paired.design.copperMm2M));
      assert.deepEqual(failing(own), failing(paired), write(one, true));
    }),
    { numRuns: 40 },
  );
});
