import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { amps, celsius, seconds } from "../quantity/index.ts";
import { conductorTemperatureFreeAir, thermalConductor } from "../ampacity/thermal/index.ts";
import { compile } from "../compile.ts";
import { studyHeat } from "./study-heat.ts";

/** Two loads on 2.5 mm², on together in one state and one of them alone in another. */
const plan = (more: string, others = "") => `wireworthy: 1
rules: { DC: iso-small-craft 2020+A1:2022 }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
climate: { ambient: 30 °C }
parts:
  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }
  BP: { kind: bus bar, rated: 250 A }
  BN: { kind: bus bar, rated: 250 A }
  heater: { kind: load, running: 15 A }
  pump: { kind: load, running: 20 A }
circuits:
  W1: { path: B1 → BP, length: 0.5 m }
  W2: { path: B1:− → BN, length: 0.5 m }
  W10: { path: BP → heater, length: 2 m, wire: 2.5 mm²${more} }
  W11: { path: BP → pump, length: 2 m, wire: 2.5 mm²${more} }
${others}states:
  both: { on: [heater, pump] }
  heater alone: { on: [heater] }
`;

function heatOf(text: string) {
  const { settled, runs, design } = compile(text);
  const study = studyHeat(settled, runs, design);
  const circuit = (id: string) => {
    const at = settled.model.circuits.findIndex((c) => c.circuit.id === id);
    const heat = study.circuit(at);
    assert.ok(heat !== null, `${id} has no heat`);
    return { at, heat, make: settled.model.circuits[at]?.rungs?.ladder.makes[settled.chosen.rungs[at] ?? 0] };
  };
  return { study, circuit, settled, runs, design };
}

describe("heat of a settled build", () => {
  test("a conductor alone is in free air, in each state at what it carries there", () => {
    const { circuit } = heatOf(plan(""));
    // The battery's minus to its bar: one conductor, no neighbour.
    const { heat, make } = circuit("W2");
    assert.ok(make !== undefined);
    assert.equal(heat.together, 1);
    assert.deepEqual(
      heat.states.map(({ state }) => state),
      ["both", "heater alone"],
    );
    for (const { amps: flows, lowC, highC } of heat.states) {
      const alone: number = conductorTemperatureFreeAir({
        ...thermalConductor(make).conductor,
        current: amps(flows),
        ambientC: celsius(30),
      });
      assert.deepEqual([lowC, highC], [alone, alone]);
    }
    assert.equal(heat.worst?.state, "both");
  });

  test("a circuit of the same cable warms it while it runs, and only then", () => {
    const apart = heatOf(plan("")).circuit("W10").heat;
    const { heat } = heatOf(plan(", in cable: C1")).circuit("W10");
    const [both, alone] = heat.states;
    const [apartBoth, apartAlone] = apart.states;
    assert.ok(both && alone && apartBoth && apartAlone);
    assert.equal(heat.together, 4);
    assert.equal(heat.unnamed, 0);
    assert.equal(both.lowC, both.highC);
    assert.ok(both.highC > alone.highC + 5, `${both.highC} and ${alone.highC}`);
    // Idle neighbours give surface: no hotter than the pair by itself.
    assert.ok(alone.highC < apartAlone.highC + 1);
    // Apart the other circuit only moves the volts at the bar.
    assert.ok(Math.abs(apartBoth.highC - apartAlone.highC) < 0.5);
    // The pump itself is at the air's temperature plus what the heater gives it.
    const [, idle] = heatOf(plan(", in cable: C1")).circuit("W11").heat.states;
    assert.ok(idle !== undefined && idle.amps < 1e-9 && idle.highC > 30.5 && idle.highC < alone.highC);
  });

  test("neighbours that are counted and not named lie between idle and alike", () => {
    const { heat } = heatOf(plan(", bundle: 24")).circuit("W10");
    assert.equal(heat.together, 24);
    assert.equal(heat.unnamed, 22);
    assert.ok(heat.atDesign.lowC < heat.atDesign.highC - 20, JSON.stringify(heat.atDesign));
    // Factors trust that most of 24 are idle: with all of them loaded the model allows a third less (0.35 for 0.5 of the tables).
    assert.equal(heat.beside?.verdict, "table is bold");
    assert.match(heat.beside.says, /24 conductors are idle/);
    assert.equal(heatOf(plan("")).circuit("W10").heat.beside?.verdict, "agrees");
  });

  test("a pulse is cooler than the same current for ever, hotter from warm, and ends where that does", () => {
    const { study, circuit } = heatOf(plan(""));
    const { at, heat } = circuit("W10");
    const after = (s: number, from?: number) =>
      study.afterPulse(at, { amps: amps(15), seconds: seconds(s) }, from === undefined ? undefined : celsius(from)) ??
      NaN;
    const settled = study.circuit(at)?.states[1]?.highC ?? NaN;
    assert.ok(after(40) > 30 && after(40) < settled - 1 && after(40, 35) > after(40));
    // What it takes in the state is its stated amps within the millivolts of the bar; the even pair stands for it.
    assert.ok(Math.abs(after(36_000) - settled) < 1, `${after(36_000)} for ${settled}`);
    assert.ok(heat.ratingC === 90);
    assert.equal(study.afterPulse(999, { amps: amps(1), seconds: seconds(1) }), null);
  });

  test("is worked out once for a settled build, and is plain data", () => {
    const { study, settled, runs, design, circuit } = heatOf(plan(""));
    assert.equal(studyHeat(settled, runs, design), study);
    const { at, heat } = circuit("W10");
    assert.equal(study.circuit(at), heat);
    assert.deepEqual(JSON.parse(JSON.stringify(heat)), heat);
    assert.equal(study.circuit(999), null);
  });
});
