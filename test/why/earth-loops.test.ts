import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { printWhy } from "../../src/cli/print-why.ts";
import { plain } from "../../src/cli/terminal.ts";
import { textWidth } from "../../src/cli/text-width.ts";
import { compile, type Compiled } from "../../src/compile.ts";
import { earthFaultsAt, viewBuild } from "../../src/rules/index.ts";
import { studySwitching } from "../../src/switching/index.ts";
import { explainWhy, type Explanation } from "../../src/why/index.ts";
import { redoWorking } from "./redo-working.ts";

/** Earth-fault loops and joins of neutral and earth are explained: the study's own figures, each sum to be done again from print. */

const read = (name: string): string => readFileSync(join(import.meta.dirname, `../../examples/${name}.yaml`), "utf8");

function explained(built: Compiled, asked: string): Explanation {
  const found = explainWhy(built, asked);
  assert.ok(found.ok, `${asked}: ${found.ok ? "" : found.problem}`);
  return found.explanation;
}
const valuesOf = ({ figures }: Explanation, name: string): unknown[] =>
  figures.filter((f) => f.name === name).map((f) => f.value);

describe.each([
  ["sloop", 60],
  ["sloop-us", 60],
  ["sloop-audit", 20],
  ["van", 100],
  ["hut", 40],
] as const)("%s", (name, leastSums) => {
  // prettier-ignore
  const built = compile(read(name));
  const circuits = built.system.circuits.filter((c) => c.current === "AC").map(({ id }) => id);
  const all = new Map(circuits.map((id) => [id, explained(built, `${id}.loop`)]));

  test("every sum can be done again from what is printed", () => {
    let count = 0;
    for (const [id, { sections }] of all)
      for (const step of sections.flatMap((s) => s.steps)) {
        if (step.equation === "" || typeof step.value !== "number") continue;
        count++;
        const { value, slack } = redoWorking(step);
        const what = `${id}, ${step.name}: ${step.working} = ${step.text}`;
        assert.ok(Math.abs(value - step.value) <= slack + 1e-9 * Math.abs(step.value), `${what}: done again ${value}`);
        assert.ok(slack <= 0.02 * Math.max(Math.abs(step.value), 0.01), `${what}: printed too coarsely, ${slack}`);
      }
    assert.ok(count >= leastSums, `${count} sums`);
  });

  test("sums come to what the study says of loop and current, source by source", () => {
    const build = viewBuild(built);
    for (const [id, { sections }] of all) {
      const faults = earthFaultsAt(build, id)?.faults ?? [];
      assert.equal(sections.length, faults.length);
      faults.forEach((fault, i) => {
        const steps = sections[i]?.steps ?? [];
        const last = (...names: readonly string[]): unknown => steps.findLast((s) => names.includes(s.name))?.value;
        const zs = last("impedance of the loop, hot");
        const least = last("least current of an earth fault", "what surely flows");
        if (fault.zsHot === null) {
          assert.equal(zs, undefined);
          return;
        }
        // Only the order of adding differs.
        assert.ok(typeof zs === "number" && Math.abs(zs - fault.zsHot) < 1e-9 * fault.zsHot, `${id}: ${String(zs)} for ${fault.zsHot}`); // prettier-ignore
        if (fault.least !== null)
          assert.ok(typeof least === "number" && Math.abs(least - fault.least) < 1e-9 * fault.least, `${id}: ${String(least)} for ${fault.least}`); // prettier-ignore
      });
    }
  });

  test("a size that is met asks alone for no more than there is, one that is not for more or for nothing on sale", () => {
    for (const { id, current, size, constraints } of built.design.circuits) {
      const loop = constraints.find((k) => k.id === "earth-loop");
      if (loop === undefined || size === null) continue;
      if (current === "DC") assert.equal(loop.outcome, "not stated", id);
      assert.notEqual(loop.outcome, "not judged yet", id);
      if (loop.outcome === "met") assert.ok((loop.alone?.areaMm2 ?? Infinity) <= size.areaMm2 + 1e-9, id);
      if (loop.outcome === "not met") assert.ok(loop.alone === null || loop.alone.areaMm2 > size.areaMm2, id);
    }
  });

  test("each state in which something gives stands under one case of `earth`", () => {
    const { study } = studySwitching(built.system);
    const giving = study.groups.filter((g) => g.rests && g.islands.length > 0);
    const { sections } = explained(built, "earth");
    const told = sections.reduce((sum, s) => sum + Number(s.steps[0]?.value ?? 0), 0);
    assert.equal(told, giving.reduce((sum, g) => sum + g.count, 0)); // prettier-ignore
    const nowhere = giving.some((g) => g.islands.some((i) => i.hasNeutral && i.joinsHigh === 0));
    assert.equal(sections.some(({ says }) => says.includes("meets earth nowhere")), nowhere); // prettier-ignore
  });

  test("explanations are plain data, and fit into a terminal", () => {
    for (const one of [...all.values(), explained(built, "earth")]) {
      assert.deepEqual(JSON.parse(JSON.stringify(one)), one);
      assert.doesNotMatch(JSON.stringify(one), /undefined|NaN|\[object|Infinity/, one.subject);
      assert.match(one.answer, /\.$/);
      for (const width of [80, 120])
        for (const line of printWhy(one, width, plain).split("\n"))
          assert.ok(textWidth(line) <= width, `${one.subject} at ${width}: ${line}`);
    }
  });
});

const hut = (circuit: string, inlet = "loop impedance: 0.8 Ω"): Compiled =>
  compile(
    `wireworthy: 1\nrules: { DC: iso-small-craft 2020+A1:2022, AC: iec-cabin 2009 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 32 A, ${inlet} }\n  CU: { kind: consumer unit, main: breaker 40 A 2-pole, ways: { 1: breaker } }\n  heater: { kind: load, rated: 2 kW, running: 9 A }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, wire: 10 mm² }\n  W21: { path: CU:1 → heater, ${circuit} }`,
  );
const loopOf = (built: Compiled) =>
  built.design.circuits.find((c) => c.id === "W21")?.constraints.find((k) => k.id === "earth-loop");

test("a loop by hand", () => {
  // 0.8 Ω declared; IEC 60228:2004 Table 3, class 5, metal-coated: 2.5 mm² 8.21 Ω/km, 10 mm² 1.95 Ω/km at 20 °C; α20 = 0.00393 (IEC 60287-1-1 Table 1).
  const built = hut("length: 20 m, wire: 2.5 mm², breaker: 16 A MCB C at CU, drop: 20 %");
  const found = explained(built, "W21 earth loop");
  assert.equal(found.subject, "W21.loop");
  const hot = (id: string): number => {
    const c = built.system.circuits.find((one) => one.id === id)?.insulationC.low ?? NaN;
    return 1 + 0.00393 * (c - 20);
  };
  const r = 0.8 + 2 * 20 * 8.21e-3 * hot("W21") + 2 * 1 * 1.95e-3 * hot("W20");
  const [zs] = valuesOf(found, "zsHotOhms");
  // Reactance of 42 m, 4 mΩ, adds some parts in a million to 1.2 Ω.
  assert.ok(typeof zs === "number" && Math.abs(zs - r) < 2e-5, `${String(zs)} for ${r}`);
  const [least] = valuesOf(found, "earthFaultLeastA");
  assert.ok(typeof least === "number" && Math.abs(least - (0.95 * 230) / zs) < 1e-9);
  // C 16 A: ten times its rating within 0.1 s (IEC 60898-1 Table 7); 0.4 s at 230 V (IEC 60364-4-41 Table 41.1).
  assert.deepEqual(valuesOf(found, "allowedS"), [0.4]);
  const [most] = valuesOf(found, "greatestLoopOhms");
  assert.ok(typeof most === "number" && Math.abs(most - (0.95 * 230) / 160) < 1e-9);
});

test("a loop that opens too late asks for the size with which it opens in time", () => {
  // Zs may be 0.95 · 230 / 160 = 1.366 Ω; 40 m of 1.5 mm² (13.7 Ω/km) alone are more, of 6 mm² (3.39 Ω/km) hardly 0.4 Ω: one between them is the least.
  const long = (wire: string): Compiled => hut(`length: 40 m, wire: ${wire}, breaker: 16 A MCB C at CU, drop: 20 %`);
  const thin = loopOf(long("1.5 mm²"));
  assert.equal(thin?.outcome, "not met");
  const asks = thin.alone?.label ?? "";
  assert.match(asks, /mm²/);
  const [thinner] = [["2.5 mm²", "1.5 mm²"], ["4 mm²", "2.5 mm²"], ["6 mm²", "4 mm²"]].filter(([size]) => size === asks).map((p) => p[1] ?? ""); // prettier-ignore
  assert.equal(loopOf(long(asks))?.outcome, "met");
  assert.equal(loopOf(long(asks))?.alone?.label, asks);
  assert.equal(loopOf(long(thinner ?? ""))?.outcome, "not met");
});

test("what nobody says of the supply is not proven, and no size is asked", () => {
  const built = hut(
    "length: 20 m, wire: 2.5 mm², breaker: 16 A MCB C at CU, drop: 20 %",
    "prospective current: unknown",
  );
  assert.equal(loopOf(built)?.outcome, "cannot tell");
  assert.equal(loopOf(built)?.alone, null);
  assert.match(explained(built, "W21.loop").answer, /not proven, the loop of INL is not known/);
  const rung = explained(built, "W21").ladder.find((r) => r.id === "earth-loop");
  assert.match(rung?.says ?? "", /not proven: the loop of INL is not known/);
});

test("a wire of which nothing is asked says why", () => {
  const built = compile(read("van"));
  const rung = explained(built, "W23").ladder.find((r) => r.id === "earth-loop");
  assert.equal(rung?.outcome, "not stated");
  assert.match(rung.says, /no times of its breaker are published/);
  assert.match(explained(built, "W23.loop").answer, /fed by INV .*limited by source/);
  assert.match(explained(compile(read("sloop")), "W12.loop").answer, /carries direct current/);
});

describe("what devices of alternating current may have to break", () => {
  test("is told source by source, with the rating of the device beside it, and every sum can be done again", () => {
    for (const name of ["sloop", "van", "hut"]) {
      const built = compile(read(name));
      for (const { id } of built.system.circuits.filter((c) => c.current === "AC")) {
        const told = explained(built, `${id}.interrupt`);
        assert.doesNotMatch(told.answer, /nothing to break|has no device\./, `${name} ${id}`);
        for (const step of told.sections.flatMap(({ steps }) => steps)) {
          if (step.equation === "" || step.table !== null || typeof step.value !== "number") continue;
          const { value, slack } = redoWorking(step);
          assert.ok(Math.abs(value - step.value) <= slack + 1e-9 * Math.abs(step.value), `${id}: ${step.working}`);
        }
      }
    }
  });

  test("3 kA ashore behind 26 mΩ of cable are 2.23 kA at the board of the sloop, whose breakers break 6 kA", () => {
    // by hand: Re = 230 / 3000 = 76.67 mΩ, INL to CU 26.27 mΩ: 230 V / √(102.94² + 0.31²) mΩ = 2234 A; IEC 60898-1 breakers are usually sold for 6 kA
    const told = explained(compile(read("sloop")), "W26.interrupt");
    assert.ok(Math.abs(Number(valuesOf(told, "toBreakA")[0]) - 2234) < 1);
    assert.deepEqual(valuesOf(told, "breaksA"), [6000]);
    assert.match(told.answer, /^CU:2 \(10 A breaker of unknown kind\) breaks 6000 A .* fed by INL/);
  });

  test("a supply that nobody has measured is said to be so", () => {
    const told = explained(compile(read("sloop-audit")), "W26.interrupt");
    assert.match(told.answer, /what INL drives is not stated \(`prospective current`\)/);
  });
});
