import { arraysOf, bestFallOf, figureOr, heatingOf, type ArrayInput, type Modules } from "../rules/charging/arrays.ts";
import { inputLimit, nameOf } from "../rules/charging/cold-string-overvoltage.ts";
import { TO_RUN, TO_START } from "../rules/charging/hot-string-undervoltage.ts";
import {
  backFeed,
  cellTemperature,
  forHours,
  greatestCurrent,
  voltsAsked,
  voltsAtCell,
} from "../rules/charging/string-formulas.ts";
import { factsOf, saysFigure } from "../rules/stated.ts";
import { viewBuild, type Build } from "../rules/index.ts";
import { coldByCoefficient, coldByFactor, coldFactor } from "../system/index.ts";
import type { Built } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";
import { saidAt } from "./plan-place.ts";
import { figureText, withUnit } from "./print-number.ts";
import { figure, taken, work } from "./work.ts";

interface Part {
  readonly section: WorkedSection;
  readonly figures: readonly WorkedFigure[];
  /** What it comes to, in words. */
  readonly says: string;
}

/**
 * Explains the strings of solar modules at a module or a controller: volts in the cold by both published methods, volts in the heat, what the controller
 * asks for, and what the strings give and push back. Null: the part is neither.
 */
export function explainString(built: Built, part: string): Explanation | null {
  const build = viewBuild(built);
  const { modules, inputs } = arraysOf(build);
  const own = modules.filter((m) => m.view.id === part);
  const input = inputs.find((i) => i.view.id === part) ?? inputs.find((i) => i.modules.some((m) => own.includes(m)));
  const asked = own.length > 0 ? own : (input?.modules ?? []);
  if (asked.length === 0) return null;
  const parts = asked.flatMap((m) => [
    inTheCold(built, build, m),
    ...(inTheHeat(built, build, m) ?? []),
    inAmps(built, m),
  ]);
  if (input !== undefined) parts.push(window(built, input));
  const things = asked.flatMap((m) => [
    ofPart(m.view.id),
    ...built.system.circuits.filter((c) => [c.from.part, c.to.part].includes(m.view.id)).map((c) => ofCircuit(c.id)),
  ]);
  return finish(
    built,
    {
      ...emptyExplanation(
        `${part}.string`,
        `What do the strings of ${part} give, cold and hot?`,
        `${parts.map(({ says }) => says).join("; ")}.`,
      ),
      figures: parts.flatMap(({ figures }) => figures),
      sections: parts.map(({ section }) => section),
      cautions: [
        "Light on snow, the tolerance of makers and what is lost in the line are left out. Local law and a licensed person decide.",
      ],
      further: input === undefined || input.view.id === part ? [] : [`${input.view.id}.string`],
    },
    input === undefined ? things : [...things, ofPart(input.view.id)],
  );
}

/** Open-circuit volts of a string at the lowest temperature, by the coefficient and by the table. */
function inTheCold({ plan }: Built, { system }: Build, m: Modules): Part {
  const name = nameOf(m);
  const volts = m.chain.reduce((sum, one) => sum + one.feed.volts.high, 0);
  const steps: WorkedStep[] = [
    taken("open circuit at 25 °C, all in series", volts, "V", saidAt(plan, "parts", m.view.id, "Voc")),
  ];
  const figures: WorkedFigure[] = [];
  const { lowestAmbient } = system;
  if (lowestAmbient === undefined || lowestAmbient === "unknown") {
    const cold = m.chain.reduce((sum, one) => sum + one.cold.high, 0);
    figures.push(figure("coldV", cold, "V", figureText.volts));
    const says = `how cold it gets is not stated; ${name} gives up to ${figureText.volts(cold)} where it gets −40 °C`;
    return { section: { title: `${m.view.id} in the cold`, says: "", steps, way: [] }, figures, says };
  }
  const lowestC = lowestAmbient.low;
  const cold = Math.min(lowestC, 25);
  let byCoefficient = 0;
  for (const one of m.chain) {
    const slope = one.feed.voltsPerKelvin;
    if (slope === undefined) {
      byCoefficient = Number.NaN;
      continue;
    }
    const each = work(
      () => coldByCoefficient({ volts: one.feed.volts.high, perKelvin: slope.low, lowestC: cold }),
      `${one.view.id} by its coefficient`,
    );
    steps.push(...each.steps);
    byCoefficient += each.value;
  }
  const byTable = work(() => coldByFactor({ volts, factor: coldFactor(lowestC) }), "by the factor of the table");
  steps.push(...byTable.steps);
  const decides = Number.isNaN(byCoefficient) ? byTable.value : byCoefficient;
  figures.push(
    figure("coldV", decides, "V", figureText.volts),
    figure("coldTableV", byTable.value, "V", figureText.volts),
  );
  const by = Number.isNaN(byCoefficient)
    ? "by the factor of the table, as its coefficient is not stated"
    : `by its coefficient, ${figureText.volts(byTable.value)} by the factor of the table`;
  return {
    section: {
      title: `${m.view.id} in the cold`,
      says: `open circuit at ${withUnit(lowestC, "°C", 3)}; the coefficient decides where there is one`,
      steps,
      way: [],
    },
    figures,
    says: `${name} gives ${figureText.volts(decides)} at ${withUnit(lowestC, "°C", 3)} ${by}`,
  };
}

/** Best volts of a string when its cells are hottest; null where a fact is missing that nothing stands in for. */
function inTheHeat({ plan }: Built, { system }: Build, m: Modules): readonly Part[] | null {
  const steps: WorkedStep[] = [];
  const airC = system.ambient.high;
  let least = 0;
  for (const one of m.chain) {
    const heating = heatingOf(one);
    const fall = bestFallOf(one);
    const volts = one.feed.bestVolts;
    if (heating === null || fall === null || volts === undefined) return null;
    const cell = work(() => cellTemperature({ airC, heating: heating.high.value }), `cells of ${one.view.id}`);
    const hot = work(
      () => voltsAtCell({ volts: volts.low, perKelvin: fall.span.low, cellC: cell.value }),
      `best volts of ${one.view.id} then`,
    );
    steps.push(
      taken("best volts at 25 °C, all in series", volts.low, "V", saidAt(plan, "parts", one.view.id, "Vmp")),
      taken(
        "heating",
        heating.high.value,
        "K·m²/W",
        `energy/cell_heating: row ${heating.high.row}`,
        heating.high.trust,
      ),
      ...cell.steps,
      ...hot.steps,
    );
    least += hot.value;
  }
  const says = `${nameOf(m)} has at least ${figureText.volts(least)} at its best in full sun`;
  return [
    {
      section: {
        title: `${m.view.id} in the heat`,
        says: "at its best volts, in full sun and little wind; where it is not said how it lies, as if it were glued down",
        steps,
        way: [],
      },
      figures: [figure("hotV", least, "V", figureText.volts)],
      says,
    },
  ];
}

/** What the strings of an entry give, and push back into one of them. */
function inAmps({ plan }: Built, m: Modules): Part {
  const isc = m.isc.high;
  const all = work(() => greatestCurrent({ strings: m.strings, isc }), "all strings in bright sun");
  const made = work(() => forHours({ amps: all.value }), "what conductor and fuse are made for, before correction");
  const steps = [
    taken("short-circuit current of a string", isc, "A", saidAt(plan, "parts", m.view.id, "Isc")),
    ...all.steps,
    ...made.steps,
  ];
  const figures = [
    figure("brightA", all.value, "A", figureText.amps),
    figure("madeForA", made.value, "A", figureText.amps),
  ];
  let says = `${m.view.id} gives up to ${figureText.amps(all.value)} in bright sun`;
  if (m.strings > 1) {
    const back = work(() => backFeed({ strings: m.strings, isc, others: 0 }), "the others into a failed one");
    steps.push(...back.steps);
    figures.push(figure("backA", back.value, "A", figureText.amps));
    const limit = saysFigure(factsOf(m.view), "largest fuse");
    if (limit !== undefined && limit !== "unknown")
      steps.push(taken("its maker allows a fuse of", limit.low, "A", saidAt(plan, "parts", m.view.id, "largest fuse")));
    says += `, and its strings push ${figureText.amps(back.value)} into one that fails`;
  }
  return { section: { title: `Current of ${m.view.id}`, says: "", steps, way: [] }, figures, says };
}

/** Between which volts a controller works. */
function window({ plan }: Built, input: ArrayInput): Part {
  const { id } = input.view;
  const steps: WorkedStep[] = [];
  const figures: WorkedFigure[] = [];
  const limit = inputLimit(input);
  const said: string[] = [];
  if (limit !== null && limit !== "unknown") {
    steps.push(
      taken("its input bears", limit.low, "V", saidAt(plan, "parts", id, "input limit", "input above battery")),
    );
    figures.push(figure("inputLimitV", limit.low, "V", figureText.volts));
    said.push(`bears ${figureText.volts(limit.low)}`);
  }
  for (const [verb, key, usual] of [
    ["run", "runs above battery", TO_RUN],
    ["start", "starts above battery", TO_START],
  ] as const) {
    const above = figureOr(input.view, key, usual);
    if (above === "unknown") continue;
    const asked = work(() => voltsAsked({ battery: input.charging.high, above: above.high }), `to ${verb}`);
    steps.push(...asked.steps);
    figures.push(figure(`${verb}V`, asked.value, "V", figureText.volts));
    said.push(`needs ${figureText.volts(asked.value)} to ${verb}`);
  }
  return {
    section: { title: `The input of ${id}`, says: "", steps, way: [] },
    figures,
    says: `${id} ${said.join(", ")}`,
  };
}
