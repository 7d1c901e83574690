import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/compile.ts";
import { createPlanMemory } from "../../src/plan/index.ts";
import { everySet, meets, meetsAll, randomBuild } from "./small-build.ts";

/*
 * The choice of sizes is the best by its aim: on builds small enough, every set of sizes is tried, pinned, and worked out; none that meets every
 * constraint may be better than the set that was chosen, which the rules judge too.
 */

/** What is copper or money is the same sum in another order of adding. */
const ROUNDING = 1e-6;

// Builds in which volts, not amps, decide some sizes, and in most of which the bank's own leads are worth more copper than they need.
for (const seed of [1, 3, 5, 7, 10, 14, 15]) {
  test(`no set of sizes that meets every constraint is better by any aim, build ${seed}`, () => {
    const build = randomBuild(seed);
    const [thin = "", middle = "", thick = ""] = build.sizes;
    // In every other build the middle size is dearer than the thick one.
    const price = new Map([
      [thin, 1],
      [middle, seed % 2 === 0 ? 2.2 : 4.5],
      [thick, 4.1],
    ]);
    const metres = metresOf(build.text([]));
    const costOf = (sizes: readonly string[]): number =>
      sizes.reduce((sum, s, i) => sum + (price.get(s) ?? Number.NaN) * (metres[i] ?? Number.NaN), 0);
    const [w5, w6] = [build.circuits - 3, build.circuits - 2];

    const memory = createPlanMemory();
    const sets = [...everySet(build)].map((set) => ({ set, ...meets(build.text(set), memory) }));
    assert.ok(sets.length >= 243);
    const lawful = sets.filter((s) => s.met);
    assert.ok(lawful.length > 0, "these builds can be made with what is kept");
    const least = (list: typeof lawful, of: (s: (typeof lawful)[number]) => number): number =>
      Math.min(...list.map(of));

    const chosen = meetsAll(build.text([]));
    const leastCopper = least(lawful, (s) => s.copper);
    assert.ok(chosen.met);
    const thinnest = new Array<string>(build.circuits).fill(thin);
    assert.ok(chosen.copper > meetsAll(build.text(thinnest)).copper);
    assert.ok(Math.abs(chosen.copper - leastCopper) < ROUNDING, `chosen ${chosen.copper}, least ${leastCopper} mm²·m`);

    const prices = [...price].map(([label, p]) => `${label}: ${p}`).join(", ");
    const cheap = meetsAll(build.text([], `, choose: least cost, price per metre: { ${prices} }`));
    const leastCost = least(lawful, (s) => costOf(s.set));
    assert.ok(cheap.met);
    assert.ok(Math.abs(costOf(cheap.sizes) - leastCost) < ROUNDING, `${costOf(cheap.sizes)}, least ${leastCost}`);

    for (const spare of [0.05, 0.3]) {
      const few = meetsAll(build.text([], `, choose: fewest sizes, copper to spare: ${100 * spare} %`));
      const within = lawful.filter((s) => s.copper <= leastCopper * (1 + spare) + ROUNDING);
      const fewest = least(within, (s) => new Set(s.set).size);
      assert.ok(few.met);
      assert.equal(new Set(few.sizes).size, fewest);
      const ofFewest = least(
        within.filter((s) => new Set(s.set).size === fewest),
        (s) => s.copper,
      );
      assert.ok(Math.abs(few.copper - ofFewest) < ROUNDING, `${few.copper}, least of ${fewest} sizes ${ofFewest}`);
    }

    const alike = meetsAll(build.text([], "", ", same size as: W5"));
    const leastAlike = least(
      lawful.filter((s) => s.set[w5] === s.set[w6]),
      (s) => s.copper,
    );
    assert.ok(alike.met);
    assert.equal(alike.sizes[w5], alike.sizes[w6]);
    assert.ok(Math.abs(alike.copper - leastAlike) < ROUNDING, `${alike.copper}, least with one size ${leastAlike}`);
  });
}

/** Conductor in each circuit, m. */
const metresOf = (text: string): number[] =>
  compile(text).system.circuits.map((c) => c.conductors.reduce((sum, k) => sum + k.length.high, 0) * c.parallel);
