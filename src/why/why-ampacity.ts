import { ampacity, conductorTemperature } from "../ampacity/index.ts";
import { printCitation } from "../explain/index.ts";
import { amps, celsius, metres, ohmsPerMetre } from "../quantity/index.ts";
import type { ConstraintId } from "../size/index.ts";
import { stretchAmpacityAt, type Rungs } from "../size/ladder.ts";
import type { CircuitModel } from "../size/model.ts";
import type { Run } from "../route/index.ts";
import type { RuleSet } from "../ruleset/index.ts";
import { conductorResistance, resistancePerMetre20, type ConductorMake } from "../wire/index.ts";
import type { Built } from "./built.ts";
import type { WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { dividedBy, together } from "./laws.ts";
import { figureText } from "./print-number.ts";
import { figure, picked, summed, work } from "./work.ts";

/** A part of the working and the figures it comes to. */
export interface Part {
  readonly section: WorkedSection;
  readonly figures: readonly WorkedFigure[];
  /** Constraint that it is the working of. */
  readonly constraint?: ConstraintId;
}

/** The make of a circuit's conductors at the size that it has; null where it has none. */
export function makeAt({ settled }: Pick<Built, "settled">, c: CircuitModel): ConductorMake | null {
  return c.rungs?.ladder.makes[settled.chosen.rungs[c.position] ?? 0] ?? null;
}

/**
 * What a conductor of a circuit's make may carry in its surroundings: the table, the heat, the bundle, stretch by stretch; where it follows several rule sets, by
 * each of them.
 */
export function workAmpacity(built: Built, c: CircuitModel, make: ConductorMake): Part | null {
  const run = built.runs.runs[c.index];
  const { ruleSet, circuit } = c;
  if (ruleSet === null || run === undefined) return null;
  const says: string[] = [];
  const bySet =
    c.bySet.length === 0
      ? [workBySet(c, run, ruleSet, "", make, says)]
      : c.bySet.map(({ ruleSet: set }) => workBySet(c, run, set, ` by ${set.id}`, make, says));
  const rows = bySet.flatMap((each) => each.rows);
  const told = bySet.flatMap(({ least }) => least ?? []);
  // What one of several sets does not tell is not told by the others.
  const isTold = told.length === bySet.length;
  let total = Math.min(...told.map((t) => t.value));
  if (told.length > 1) rows.push(picked("the least of them", "min", told, "A"));
  if (circuit.parallel > 1) {
    const all = work(() => together({ count: circuit.parallel, one: total }), "all in parallel");
    total = all.value;
    rows.push(...all.steps);
  }
  return {
    section: { title: `What ${make.size.label} may carry`, says: says.join("; "), steps: rows, way: [] },
    figures: [figure("ampacityA", isTold ? total : null, "A", figureText.ampacity)],
  };
}

/** A figure, and what it is of. */
interface Told {
  readonly value: number;
  readonly says: string;
}

/** The same by one rule set. @param by its name, where there are several */
function workBySet(
  { circuit }: CircuitModel,
  run: Run,
  ruleSet: RuleSet,
  by: string,
  make: ConductorMake,
  says: string[],
): { readonly rows: WorkedStep[]; readonly least: Told | null } {
  const rows: WorkedStep[] = [];
  const say = (text: string): void => {
    if (text !== "" && !says.includes(text)) says.push(text);
  };
  const told: Told[] = [];
  const alike = new Set<string>();
  for (const stretch of run.stretches) {
    // Stretches that differ by their zone alone carry the same.
    const key = `${stretch.engineSpace} ${stretch.ambientC} ${stretch.ambientStated} ${stretch.bundle} ${stretch.buried} ${stretch.onRoof} ${stretch.insulated}`;
    if (alike.size === alike.add(key).size) continue;
    const zone = run.stretches.length === 1 || stretch.zone === undefined ? "" : ` in ${stretch.zone}`;
    const where = `${zone}${by}`;
    const { value, steps } = work(
      () =>
        ampacity({
          ruleSet,
          make,
          insulationC: celsius(circuit.insulationC.low),
          installed: run.installed,
          stretches: [{ ...stretch, ambientC: celsius(stretch.ambientC) }],
        }),
      `corrected${where}`,
    );
    say(value.refused ?? value.cannotTell ?? "");
    for (const note of value.notes) say(note);
    const factors = value.perStretch[0]?.factors ?? [];
    if (factors.length === 0 && value.amps !== null)
      say(
        `no factor${where}: ${stretch.ambientC} °C and ${stretch.bundle} loaded conductors are what the table holds for`,
      );
    // The ambient factor is a formula and among the steps; the others are taken from tables.
    const taken = factors.filter((f) => f.which !== "ambient").map((f) => factorStep(f, where));
    const ambient = factors.find((f) => f.which === "ambient");
    if (ambient !== undefined) say(ambient.because);
    const last = steps.length - 1;
    for (const [i, step] of steps.entries()) {
      if (i === last) rows.push(...taken);
      if (step.table === null || !rows.some((r) => r.working === step.working)) rows.push(step);
    }
    if (value.amps !== null) told.push({ value: value.amps, says: zone === "" ? circuit.id : zone.slice(4) });
  }
  const [first] = told;
  if (first === undefined) return { rows, least: null };
  const value = Math.min(...told.map((t) => t.value));
  if (told.length > 1) rows.push(picked(`the least of them${by}`, "min", told, "A"));
  return { rows, least: { value, says: by === "" ? circuit.id : by.slice(4) } };
}

type Factor = NonNullable<ReturnType<typeof ampacity>["perStretch"][number]>["factors"][number];

const factorStep = ({ which, value, decides, because, source, trust }: Factor, where: string): WorkedStep => ({
  name: `${which} factor${where}${decides ? "" : ", not the lower one"}`,
  equation: "",
  working: because,
  value,
  unit: "",
  text: String(Number(value.toPrecision(4))),
  table: null,
  source: printCitation(source),
  trust,
});

/** How hot the metal gets and what the run then measures, stretch by stretch. */
export function workRun(built: Built, c: CircuitModel): Part | null {
  const make = makeAt(built, c);
  const { rungs } = c;
  const run = built.runs.runs[c.index];
  if (make === null || rungs === null || run === undefined) return null;
  const { settled } = built;
  const rung = settled.chosen.rungs[c.position] ?? 0;
  const current = settled.currents[c.position]?.steady ?? 0;
  const steps: WorkedStep[] = [];
  const per = work(() => resistancePerMetre20(make), "one metre at 20 °C");
  steps.push(...per.steps);
  const metals: { value: number; says: string }[] = [];
  let hottest = -Infinity;
  const alike = alikeStretches(rungs);
  alike.forEach(({ first, lengthM, members }, k) => {
    const zones = [...new Set(members.map((s) => run.stretches[s]?.zone ?? "the rest"))];
    const where = alike.length > 1 ? ` in ${zones.join(" and ")}` : "";
    const iz = stretchAmpacityAt(rungs, rung, first);
    const heat = work(
      () =>
        conductorTemperature({
          current: amps(current),
          ampacity: amps(iz),
          ambientC: celsius(rungs.ambients[first] ?? 30),
          ratingC: celsius(rungs.ratingC),
        }),
      `metal at ${figureText.amps(current)}${where}`,
    );
    hottest = Math.max(hottest, heat.value);
    const ohms = work(
      () =>
        conductorResistance({
          metal: make.metal,
          at20: ohmsPerMetre(per.value.ohmsPerMetre),
          length: metres(lengthM),
          conductorC: heat.value,
        }),
      `one way${where}`,
    );
    steps.push(...heat.steps, ...ohms.steps);
    metals.push({ value: ohms.value, says: `R${k + 1}` });
  });
  let total = metals.reduce((sum, m) => sum + m.value, 0);
  if (metals.length > 1) steps.push(summed("the run, one way", metals, "Ω", "R"));
  if (c.circuit.parallel > 1) {
    const shared = work(() => dividedBy({ one: total, count: c.circuit.parallel }), "all in parallel");
    total = shared.value;
    steps.push(...shared.steps);
  }
  return {
    section: {
      title: `What the run of ${c.circuit.id} measures when warm`,
      says: per.value.notes.join("; "),
      steps,
      way: [],
    },
    figures: [
      figure("conductorC", hottest, "°C", figureText.degrees),
      figure("runOhms", total, "Ω", (x) => `${Number((1000 * x).toPrecision(3))} mΩ`),
    ],
  };
}

/** Stretches in which the wire gets equally warm, taken together. */
function alikeStretches({
  factors,
  ambients,
  lengths,
}: Rungs): { first: number; lengthM: number; members: number[] }[] {
  const found = new Map<string, { first: number; lengthM: number; members: number[] }>();
  lengths.forEach((lengthM, s) => {
    const key = `${factors[s] ?? 0} ${ambients[s] ?? 0}`;
    const there = found.get(key);
    if (there === undefined) found.set(key, { first: s, lengthM, members: [s] });
    else {
      there.lengthM += lengthM;
      there.members.push(s);
    }
  });
  return [...found.values()];
}
