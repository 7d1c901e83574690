import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { createPlanMemory, readPlan } from "../../src/plan/index.ts";
import { routeRuns } from "../../src/route/index.ts";
import { leastLocal } from "../../src/size/choose-sizes.ts";
import { settle } from "../../src/size/settle.ts";
import type { Settled } from "../../src/size/settled.ts";
import { kinds, resolveSystem } from "../../src/system/index.ts";

/*
 * The choice in every example against a search of another kind. It knows nothing of groups that touch no load in common, nor of the order in which the chooser
 * looks: it goes through every set of sizes of the core and of all feeders whose copper could be less than that of the choice, takes for each branch the
 * thinnest wire that is enough, and asks whether anybody is short. All it leans on is that more copper never makes a load worse off, and on the volts of the
 * weigher, which ngspice and a script of its own hold elsewhere.
 */

/** The least copper there is, or `from` where nothing has less, mm²·m. */
function leastCopper({ model, weigher, currents, devices, chosen }: Settled, from: number): number {
  const { circuits } = model;
  const isFixed = (i: number): boolean => {
    const c = circuits[i];
    return c === undefined || c.rungs === null || c.circuit.size !== undefined;
  };
  const top = circuits.map((c, i) => (isFixed(i) ? 0 : (c.rungs?.ladder.makes.length ?? 1) - 1));
  const copper = (i: number, r: number): number =>
    (circuits[i]?.rungs?.ladder.makes[r]?.size.areaMm2 ?? 0) * (circuits[i]?.metres ?? 0);
  const rungs = Int32Array.from(top);
  const lay = (): void => {
    weigher.solveCore(rungs);
    weigher.layAll(rungs);
  };
  const isShort = (i: number): boolean => {
    const c = circuits[i];
    if (c === undefined || c.rungs === null) return false;
    if (!weigher.fits(c)) return true;
    return c.charging !== null && !c.radial && weigher.chargingDrop(c).volts > c.charging.limitVolts + 1e-7;
  };
  const shortNow = (): number => circuits.filter((_, i) => isShort(i)).length;
  lay();
  // Who is short with all the copper there is, is short whatever is chosen.
  const hopeless = new Set(circuits.flatMap((_, i) => (isShort(i) ? [i] : [])));
  const least = shortNow();
  const isEnough = (): boolean => circuits.every((_, i) => hopeless.has(i) || !isShort(i));
  const floor = circuits.map((c, i) => {
    const [now, own] = [currents[i], devices.circuits[i]];
    return isFixed(i) || now === undefined || own === undefined ? 0 : Math.min(leastLocal(c, now, own), top[i] ?? 0);
  });
  // Battery leads that have to be alike move together.
  const unitOf = new Map<number, readonly number[]>();
  for (const g of model.coreGroups)
    for (const i of g)
      unitOf.set(
        i,
        g.filter((k) => !isFixed(k)),
      );
  const isBranch = (i: number): boolean => circuits[i]?.radial === true && circuits[i].children.length === 0;
  const units = circuits.flatMap((_, i): (readonly number[])[] => {
    if (isFixed(i) || isBranch(i)) return [];
    const unit = unitOf.get(i) ?? [i];
    return unit[0] === i ? [unit] : [];
  });
  const branches = circuits.flatMap((_, i) => (isBranch(i) && !isFixed(i) ? [i] : []));
  const set = (unit: readonly number[], r: number): void => {
    for (const i of unit) rungs[i] = r;
  };
  /** Thinnest that is enough for each branch, all else as it is laid. */
  const settleBranches = (): number => {
    lay();
    let sum = 0;
    for (const i of branches) {
      const c = circuits[i];
      if (c === undefined) continue;
      let r = floor[i] ?? 0;
      for (; r < (top[i] ?? 0); r++) {
        weigher.layCircuit(c, r);
        if (weigher.fits(c)) break;
      }
      // For those who are short whatever is chosen the choice stands in.
      if (hopeless.has(i)) r = chosen.rungs[i] ?? 0;
      sum += copper(i, r);
      weigher.layCircuit(c, top[i] ?? 0);
    }
    return sum;
  };
  const unitCopper = (unit: readonly number[], r: number): number => unit.reduce((s, i) => s + copper(i, r), 0);
  const fixed = circuits.reduce((s, _, i) => s + (isFixed(i) ? copper(i, 0) : 0), 0);
  // Each by itself, all else as thick as can be: nobody can do with less.
  const needs = units.map((unit) => {
    let r = Math.max(...unit.map((i) => floor[i] ?? 0));
    for (; r < (top[unit[0] ?? 0] ?? 0); r++) {
      set(unit, r);
      lay();
      if (isEnough()) break;
    }
    set(unit, top[unit[0] ?? 0] ?? 0);
    return r;
  });
  const bottom = settleBranches();
  const rest = units.map((_, k) => units.slice(k).reduce((s, u, n) => s + unitCopper(u, needs[k + n] ?? 0), 0));
  let best = from;
  const go = (k: number, spent: number, ofBranches: number): void => {
    if (fixed + spent + (rest[k] ?? 0) + ofBranches >= best - 1e-6) return;
    const unit = units[k];
    if (unit === undefined) {
      best = fixed + spent + ofBranches;
      return;
    }
    const last = top[unit[0] ?? 0] ?? 0;
    for (let r = needs[k] ?? 0; r <= last; r++) {
      const here = spent + unitCopper(unit, r);
      if (fixed + here + (rest[k + 1] ?? 0) + bottom >= best - 1e-6) break;
      set(unit, r);
      lay();
      if (isEnough() && shortNow() === least) go(k + 1, here, settleBranches());
    }
    set(unit, last);
  };
  go(0, 0, bottom);
  weigher.solveCore(chosen.rungs);
  weigher.layAll(chosen.rungs);
  return best;
}

test.each(["sloop", "sloop-us", "sloop-audit", "van", "hut"])(
  "no set of sizes has less copper than the choice in %s",
  (name) => {
    const text = readFileSync(join(import.meta.dirname, `../../examples/${name}.yaml`), "utf8");
    const system = resolveSystem(readPlan(text, kinds, createPlanMemory()).value, kinds).value;
    const settled = settle(system, routeRuns(system).value);
    assert.deepEqual(settled.unsettled, []);
    const { circuits } = settled.model;
    const now = circuits.reduce(
      (s, c, i) => s + (c.rungs?.ladder.makes[settled.chosen.rungs[i] ?? 0]?.size.areaMm2 ?? 0) * c.metres,
      0,
    );
    assert.equal(leastCopper(settled, now), now);
    // The same search, told that a little more copper is the best there is, comes to the choice by itself.
    const found = leastCopper(settled, now * 1.01);
    assert.ok(Math.abs(found - now) < 1e-6, `${now} chosen, ${found} found, mm²·m`);
  },
  120_000,
);
