import { printCitation } from "../explain/index.ts";
import { caseName } from "../size/index.ts";
import type { CircuitModel, Judged } from "../size/model.ts";
import type { Pair } from "../size/standing.ts";
import { storeVolts } from "../system/index.ts";
import type { Built } from "./built.ts";
import type { WayElement, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { batteryVolts, shareOf, voltsLeft } from "./laws.ts";
import { saidAt } from "./plan-place.ts";
import { figureText, withUnit } from "./print-number.ts";
import { figure, summed, taken, work } from "./work.ts";
import type { Part } from "./why-ampacity.ts";
import { between, judgedStandpoint, plainCase, type Standpoint } from "./standpoint.ts";
import { lostOn, walk, wayTo } from "./way.ts";

/** The way from the source to a load and back in one case: what is lost where, and what is left. */
export interface Way {
  readonly name: string;
  readonly at: Standpoint;
  readonly source: Pair;
  readonly sourceVolts: number;
  readonly elements: readonly WayElement[];
  readonly lost: number;
}

/** The way to something that is judged, in one of the cases it is judged in. */
export function wayOfJudged(built: Built, c: CircuitModel, judged: Judged, which: number | "start"): Way | null {
  const { look } = built.settled.weigher;
  const overlay = look.judgedIn(c, judged, which);
  const name = which === "start" ? startName(built, judged.part, overlay.case) : caseName(built.settled, c, which);
  return wayBetween(built, name, judgedStandpoint(built, overlay), judged);
}

function startName({ settled }: Built, part: string, at: number): string {
  const one = settled.cases[at];
  return one?.kind === "given" ? `${part} starting in ${one.name}` : `${part} starting alone`;
}

/** The way to two terminals in a case. */
export function wayBetween(built: Built, name: string, at: Standpoint, load: Pair): Way | null {
  const source = built.settled.weigher.look.sourceOf(at.overlay);
  if (source === null) return null;
  const elements = wayTo(built, at, load, source);
  const sourceVolts = between(at, source);
  return { name, at, source, sourceVolts, elements, lost: lostOn(elements) };
}

/** What is lost on a way, added up. */
export function workLoss(way: Way): { steps: WorkedStep[]; lost: number } {
  const out = way.elements.filter((e) => e.pole === "out");
  const back = way.elements.filter((e) => e.pole === "back");
  const step = summed(
    "lost on the way, out and back",
    [
      { value: lostOn(out), says: "out" },
      { value: lostOn(back), says: "back" },
    ],
    "V",
    "ΔU",
  );
  return { steps: [step], lost: typeof step.value === "number" ? step.value : 0 };
}

/** The drop of a load or panel against what it may lose. */
export function workDrop(built: Built, c: CircuitModel, judged: Judged, which: number): Part | null {
  const way = wayOfJudged(built, c, judged, which);
  if (way === null) return null;
  const nominal = c.supply?.nominal ?? 12;
  const { steps, lost } = workLoss(way);
  const share = work(() => shareOf({ lost, nominal }), "of the nominal volts");
  const limit = 100 * (judged.dropVolts / nominal);
  steps.push(...share.steps);
  const figures: WorkedFigure[] = [
    figure("dropV", lost, "V", figureText.volts),
    figure("dropShare", share.value / 100, "", figureText.percent),
  ];
  if (Number.isFinite(limit)) {
    const { dropClass } = judged;
    steps.push(
      dropClass === null
        ? taken("may lose", limit, "%", saidAt(built.plan, "circuits", c.circuit.id, "drop"))
        : taken(
            `may lose, ${classSays(dropClass.because)}`,
            limit,
            "%",
            printCitation(dropClass.source),
            dropClass.source.trust,
          ),
    );
    figures.push(figure("dropLimitShare", limit / 100, "", figureText.limit));
  }
  return {
    section: {
      title: `What is lost on the way to ${judged.part}`,
      says: whenSays(way, nominal),
      steps,
      way: way.elements,
    },
    figures,
  };
}

const classSays = (because: string): string => (because === "rest" ? "as no clause singles it out" : `as ${because}`);

const whenSays = (way: Way, nominal: number): string =>
  `in the case "${way.name}"; at the source ${figureText.volts(way.sourceVolts)}; in percent of ${withUnit(nominal, "V")}`;

/**
 * What a load has left, running or starting, against what its maker asks for.
 *
 * @param shown a case whose way has been listed already
 */
export function workVolts(
  built: Built,
  c: CircuitModel,
  judged: Judged,
  which: number | "start",
  shown?: number,
): Part | null {
  const way = wayOfJudged(built, c, judged, which);
  if (way === null) return null;
  const starts = which === "start";
  const { steps, lost } = workLoss(way);
  const battery = sourceSteps(built, way);
  const left = work(() => voltsLeft({ source: way.sourceVolts, lost }), `left at ${judged.part}`);
  const needs = starts ? judged.startsAbove : judged.runsAbove;
  const figures: WorkedFigure[] = [figure(starts ? "startVolts" : "leastVolts", left.value, "V", figureText.volts)];
  const asked: WorkedStep[] = [];
  if (needs > 0) {
    const assumed = starts && judged.startsAssumed;
    const key = starts ? "starts above" : "runs above";
    asked.push(
      taken(
        `${judged.part} ${starts ? "starts" : "runs"} above`,
        needs,
        "V",
        assumed ? "motors start at 0.75 of their volts" : saidAt(built.plan, "parts", judged.part, key),
        assumed ? "practice" : null,
      ),
    );
    figures.push(figure(starts ? "startsAbove" : "runsAbove", needs, "V", figureText.volts));
  }
  const section: WorkedSection = {
    title: `What ${judged.part} has left ${starts ? "while it starts" : "while it runs"}`,
    says: `in the case "${way.name}", the worst for it${shown === which ? "; the way is the one above" : ""}`,
    steps: [...battery, ...steps, ...left.steps, ...asked],
    way: shown === which ? [] : way.elements,
  };
  return { section, figures };
}

/** What a charging circuit loses between its ends. */
export function workChargingDrop(built: Built, c: CircuitModel): Part | null {
  const { charging } = c;
  if (charging === null) return null;
  const weigher = built.settled.weigher;
  const worst = weigher.chargingDrop(c);
  const at = judgedStandpoint(built, plainCase(worst.case));
  const out = walk(built.settled, at, charging.fromPlus, charging.toPlus, "out");
  const back = walk(built.settled, at, charging.toMinus, charging.fromMinus, "back");
  if (out === null || back === null) return null;
  const elements = [...out, ...back];
  const name = caseName(built.settled, c, worst.case);
  const way: Way = {
    name,
    at,
    source: { plus: charging.fromPlus, minus: charging.fromMinus },
    sourceVolts: 0,
    elements,
    lost: lostOn(elements),
  };
  const { steps, lost } = workLoss(way);
  const share = work(() => shareOf({ lost, nominal: charging.baseVolts }), "of what the percentage is taken of");
  const limit = (100 * charging.limitVolts) / charging.baseVolts;
  const own = c.circuit.dropLimit !== undefined;
  steps.push(
    ...share.steps,
    taken(
      "may lose",
      limit,
      "%",
      own ? saidAt(built.plan, "circuits", c.circuit.id, "drop") : "charging circuits lose 3 % at most",
      own ? null : "practice",
    ),
  );
  return {
    section: {
      title: `What ${c.circuit.id} loses while ${c.circuit.from.part} pushes`,
      says: `in the case "${name}"; in percent of ${withUnit(charging.baseVolts, "V")}`,
      steps,
      way: elements,
    },
    figures: [
      figure("dropV", lost, "V", figureText.volts),
      figure("dropShare", share.value / 100, "", figureText.percent),
      figure("dropLimitShare", limit / 100, "", figureText.limit),
    ],
  };
}

/** How a battery comes to its volts in a case; nothing where the source is none. */
export function sourceSteps(built: Built, way: Way): WorkedStep[] {
  const { grid } = built.settled.model;
  const s = grid.stores.findIndex(({ plus, minus }) => plus === way.source.plus && minus === way.source.minus);
  const store = grid.stores[s];
  if (store === undefined) return [taken("volts of the source", way.sourceVolts, "V", "the solved network", "derived")];
  return batterySteps(built, way.at.case, s, way.sourceVolts).steps;
}

/** A battery in a case: rest volts by its charge, what it gives, what it has at its terminals. */
export function batterySteps(
  built: Built,
  at: number,
  s: number,
  volts: number,
): { steps: WorkedStep[]; amps: number } {
  const store = built.settled.model.grid.stores[s];
  const rest = built.settled.cases[at]?.storeVolts[s] ?? 0;
  if (store === undefined) return { steps: [], amps: 0 };
  const { element } = store;
  const ohms = Math.max(element.ohms.high, 1e-6);
  const amps = (rest - volts) / ohms;
  const table = element.curve === "LFP" ? "energy/lfp_ocv" : "energy/lead_acid_rest_voltage";
  const charge = chargeOf(built, at, element.id) ?? element.lowestCharge.low;
  const known = Math.abs(storeVolts(element, charge) - rest) < 1e-9;
  const atRest: WorkedStep = {
    name: `${element.part} at rest${known ? `, ${withUnit(100 * charge, "%", 3)} charged` : ""}`,
    equation: "",
    working: `${table}, straight lines between its rows`,
    value: rest,
    unit: "V",
    text: withUnit(rest, "V"),
    table: null,
    source: element.curve === "LFP" ? "open academic measurements of LFP cells" : "data sheets of the trade, as quoted",
    trust: element.curve === "LFP" ? "derived" : "memory",
  };
  const inside = taken(
    `${element.part} inside`,
    ohms,
    "Ω",
    saidAt(built.plan, "parts", element.part, "resistance", "short-circuit", "cranking"),
    element.ohms.origin === "default" ? "memory" : null,
  );
  const stands = work(() => batteryVolts({ rest, amps, ohms }), `at its terminals`);
  const given = taken(`${element.part} gives`, amps, "A", "the solved network", "derived");
  return { steps: [atRest, inside, given, ...stands.steps], amps };
}

/** Charge that a state of the plan gives a battery. */
function chargeOf({ system, settled }: Built, at: number, store: string): number | null {
  const one = settled.cases[at];
  if (one?.kind !== "given") return null;
  return system.states.find((s) => s.id === one.name)?.charge[store]?.low ?? null;
}
