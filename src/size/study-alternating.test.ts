import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import type { AlternatingState } from "./study-alternating-shape.ts";
import { everyAlternatingLoad, studyAlternating, studyAlternatingAt } from "./study-alternating.ts";

const near = (found: number | null | undefined, wanted: number, slack: number): void => {
  assert.ok(found != null && Math.abs(found - wanted) <= slack, `${found} against ${wanted}`);
};

const plan = (text: string) => {
  const build = compile(`wireworthy: 1\nname: try\n${text}`);
  assert.deepEqual(build.diagnostics.filter(({ level }) => level === "error"), []); // prettier-ignore
  return build;
};
const only = (text: string): AlternatingState => {
  const [state] = studyAlternating(plan(text)).states;
  assert.ok(state !== undefined);
  return state;
};

const shore = (inlet: string, more = "") => `systems:
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
stock: { sizes: mm², metal: copper, strands: class 5, insulation: 70 °C }
parts:
  INL: { kind: shore inlet, rated: 16 A${inlet} }
  heater: { kind: load, running: 16 A }
${more}
states: { plugged in: { shore: in, on: [heater] } }`;
const wire = "circuits:\n  W1: { path: INL → heater, length: 10 m, wire: 2.5 mm² }";

test("a supply lead and a wire take what a sum on paper says", () => {
  const state = only(shore(", lead: 25 m, lead cable: 3G2.5 H07RN-F", wire));
  // IEC 60228 class 5: 7.98 Ω/km; H07RN-F bears 60 °C, the wire 70 °C; α 0.00393. The joints of a conductor are 0.2 mΩ. Reactance of 0.08 mΩ/m adds 1 mV, a source without figures 1.6 mV.
  const lead = 16 * 2 * 25 * 7.98e-3 * (1 + 0.00393 * 40);
  const run = 16 * 2 * (10 * 7.98e-3 * (1 + 0.00393 * 50) + 2e-4);
  const [load] = state.loads;
  near(load?.volts, 230 - lead - run, 0.005);
  near(load?.drop, lead + run, 0.005);
  near(load?.share, (230 - lead - run) / 230, 1e-4);
  const [source] = state.sources;
  near(source?.lead?.drop, lead, 0.003);
  near(source?.volts, 230 - lead, 0.005);
  near(source?.load, 1, 1e-6);
  assert.equal(source?.condition, "gives");
  assert.deepEqual(state.conductors.map(({ fn, amps }) => [fn, amps?.toFixed(6)]), [["L", "16.000000"], ["N", "16.000000"], ["PE", "0.000000"]]); // prettier-ignore
  assert.deepEqual(JSON.parse(JSON.stringify(state)), state);
});

test("a breaker that is written in the line at an inlet or a generator is closed where nothing is said of it", () => {
  const broken = wire.replace(" }", ", breaker: 16 A 2-pole at INL }");
  const state = only(shore("", broken));
  assert.equal(state.sources[0]?.condition, "gives");
  near(state.loads[0]?.volts, only(shore("", wire)).loads[0]?.volts ?? NaN, 0.05);
  const engine = (more: string) => `systems:
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
parts:
  GEN: { kind: generator, rated: 5 kVA, neutral: joined to earth }
  heater: { kind: load, running: 16 A }
circuits:
  W1: { path: GEN → heater, length: 10 m, wire: 2.5 mm²${more} }
states: { camping: { on: [GEN, heater] } }`;
  assert.equal(only(engine(", breaker: 16 A 2-pole at GEN")).sources[0]?.condition, "gives");
});

test("an impedance found at the inlet has the lead in it, which is not counted twice", () => {
  const lead = ", lead: 25 m, lead cable: 3G2.5 H07RN-F";
  const volts = (inlet: string) => only(shore(inlet, wire)).loads[0]?.volts ?? NaN;
  near(volts(`${lead}, loop impedance: 0.6 Ω`), volts(lead), 1e-9);
  near(volts(", loop impedance: 0.6 Ω"), volts("") - 16 * 0.6, 0.02);
});

test("without the cable of the lead volts are not told, with the reason", () => {
  const [load] = only(shore(", lead: 25 m", wire)).loads;
  assert.deepEqual(load?.cannotTell, ["the cable of the supply lead is not known"]);
  assert.deepEqual([load?.volts, load?.drop], [null, null]);
  near(load?.amps, 16, 1e-6);
});

test("what states no size is told of, and currents are still there", () => {
  const build = plan(shore("", "circuits:\n  W1: { path: INL → heater, length: 10 m, wire: unknown }"));
  const study = studyAlternating(build);
  assert.deepEqual(study.untold, [{ circuit: "W1", why: "the size of W1 is not known" }]);
  const [state] = study.states;
  assert.equal(state?.loads[0]?.volts, null);
  near(state?.conductors[0]?.amps, 16, 1e-6);
  assert.equal(studyAlternating(build), study);
});

test("an inlet of less than is asked of it is overloaded", () => {
  const state = only(shore("", wire).replace("rated: 16 A", "rated: 10 A"));
  assert.equal(state.sources[0]?.condition, "overloaded");
  near(state.sources[0]?.load, 1.6, 1e-6);
});

const split = (lines: string) => `systems:
  DC: { kind: DC, nominal: 48 V, return: BN }
  AC: { kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE] }
stock: { sizes: AWG, metal: copper, strands: class 5, insulation: 90 °C }
parts:
  B: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 3 kA }
  BN: { kind: bus bar, rated: 400 A }
  INV: { kind: inverter, rated: 6 kW, neutral–earth join: always${lines} }
  kitchen: { kind: outlet, running: 12 A }
  pump: { kind: load, running: 8 A }
circuits:
  W1: { path: B → INV:in, length: 1 m }
  W2: { path: INV:out → kitchen, length: 10 m, wire: 12 AWG }
  W3: { path: INV:out → pump, length: 20 m, wire: 12 AWG, cores: [L1, L2, PE] }
states: { evening: { on: [INV, kitchen, pump] } }`;

test("a shared neutral carries nothing where the lines swing against each other, and the sum where they swing together", () => {
  const opposite = only(split(", lines: opposite"));
  const neutral = (state: AlternatingState) => state.conductors.find(({ conductor }) => conductor === "W2N")?.amps;
  near(neutral(opposite), 0, 1e-6);
  const pump = opposite.loads.find(({ part }) => part === "pump");
  assert.deepEqual([pump?.nominal, pump?.condition], [240, "met"]);
  const together = only(split(", lines: in phase"));
  near(neutral(together), 24, 1e-6);
  assert.notEqual(together.loads.find(({ part }) => part === "pump")?.condition, "met");
  assert.equal(opposite.sources[0]?.phaseAssumed, false);
  assert.equal(only(split("")).sources[0]?.phaseAssumed, true);
});

test("a second join of neutral and earth sends a share of the neutral's current through the earth wire", () => {
  const text = shore(", lead: 20 m, lead cable: 3G2.5 H07RN-F", "  PNL: { kind: panel, ways: 2, device: breaker, neutral–earth join: always }\ncircuits:\n  W1: { path: INL → PNL, length: 5 m, wire: 2.5 mm² }\n  W2: { path: PNL:1 → heater, length: 10 m, wire: 2.5 mm² }"); // prettier-ignore
  const state = only(text);
  // Lead and wire are the same in N and PE: half each.
  near(state.conductors.find(({ conductor }) => conductor === "W1PE")?.amps, 8, 1e-6);
  near(state.joins.find(({ part }) => part === "PNL")?.amps, 8, 1e-6);
  near(state.joins.find(({ part }) => part === "INL")?.amps, 8, 1e-6);
});

test("any positions can be asked for, with everything on", () => {
  const build = plan(shore("", wire));
  const on = everyAlternatingLoad(build);
  assert.deepEqual(on, ["heater"]);
  const out = studyAlternatingAt(build, { id: "out", positions: { INL: "out" }, on });
  assert.deepEqual([out.loads[0]?.condition, out.sources.length], ["dead", 0]);
  const fed = studyAlternatingAt(build, { id: "in", positions: { INL: "in" }, on });
  assert.equal(fed.loads[0]?.condition, "met");
});

test("an isolation transformer takes from the shore what it gives aboard, and nothing while the shore is out", () => {
  const text = shore("", "  IT: { kind: isolation transformer, rated: 3.6 kVA }\ncircuits:\n  W1: { path: INL → IT:in, length: 2 m, wire: 2.5 mm² }\n  W2: { path: IT:out → heater, length: 10 m, wire: 2.5 mm² }"); // prettier-ignore
  const state = only(text);
  near(state.conductors.find(({ conductor }) => conductor === "W2L")?.amps, 16, 1e-6);
  // The same apparent power, at volts that are lower by what W1 loses at 16 A on 2 · 2 m: 0.6 V.
  near(state.conductors.find(({ conductor }) => conductor === "W1L")?.amps, 16, 0.05);
  assert.deepEqual(state.loads[0]?.sources, ["IT"]);
  const out = only(text.replace("shore: in", "shore: out"));
  assert.equal(out.loads[0]?.condition, "dead");
});

test("a transformer drives its rated current over its short-circuit voltage into a short, as IEC 60076-1 3.7.1 defines that", () => {
  const at = (facts: string) => {
    const text = shore("", `  IT: { kind: isolation transformer, ${facts} }\ncircuits:\n  W1: { path: INL → IT:in, length: 2 m, wire: 2.5 mm² }\n  W2: { path: IT:out → heater, length: 10 m, wire: 2.5 mm² }`); // prettier-ignore
    const source = compile(text).system.elements.find((e) => e.is === "source" && e.from === "transformer");
    const amps = source?.is === "source" ? source.prospectiveAmps : undefined;
    return amps === undefined || amps === "unknown" ? amps : [amps.low, Math.round(amps.high)];
  };
  // 16 A / 0.04 = 400 A; 3680 VA / 230 V / 0.05 = 320 A. What is said of the short itself wins.
  assert.deepEqual(at("rated: 16 A, short-circuit voltage: 4 %"), [0, 400]);
  assert.deepEqual(at("rated: 3680 VA, short-circuit voltage: 5 %"), [0, 320]);
  assert.deepEqual(at("rated: 16 A, short-circuit voltage: 4 %, prospective current: 0.1…0.3 kA"), [100, 300]);
  assert.equal(at("rated: 16 A"), undefined);
});
