import type { Pair } from "../size/standing.ts";
import { judgedAt, type Built } from "./built.ts";
import { emptyExplanation, finish } from "./finish.ts";
import type { Explanation, WorkedSection, WorkedStep } from "./explanation.ts";
import { ofCircuit, ofPart, type Thing } from "./leans-on.ts";
import { figureText } from "./print-number.ts";
import type { Part } from "./why-ampacity.ts";
import { wiresOf } from "./why-circuit.ts";
import { workCurrentIn, workTaking } from "./why-current.ts";
import { batterySteps, sourceSteps, wayBetween, workDrop, workLoss, workVolts } from "./why-volts.ts";
import { between, plainCase, solvedStandpoint } from "./standpoint.ts";
import { voltsLeft } from "./laws.ts";
import { figure, summed, taken, work } from "./work.ts";

/** What can be asked of a part. */
export const partTopics = ["volts", "drop"] as const;
export type PartTopic = (typeof partTopics)[number];

/** Explains the volts at a load or panel, in the cases that are worst for it. */
export function explainLoad(built: Built, part: string, topic: PartTopic): Explanation | null {
  const found = judgedAt(built, part);
  if (found === null) return null;
  const { model, judged } = found;
  const w = built.settled.weigher.worst(model).find((x) => x.judged === judged);
  const subject = topic === "volts" ? part : `${part}.drop`;
  const question = topic === "volts" ? `What has ${part} left?` : `What is lost on the way to ${part}?`;
  const things: Thing[] = [ofPart(part), ofCircuit(model.circuit.id)];
  if (w === undefined || w.dropVolts === -Infinity) {
    return finish(built, emptyExplanation(subject, question, `${part} is never on and never judged.`), things);
  }
  const parts: Part[] = [];
  const add = (p: Part | null): void => {
    if (p !== null) parts.push(p);
  };
  if (topic === "drop") add(workDrop(built, model, judged, w.dropCase));
  else {
    add(workVolts(built, model, judged, w.leastCase));
    if (!Number.isNaN(w.startVolts)) add(workVolts(built, model, judged, "start"));
  }
  const figures = parts.flatMap((p) => p.figures);
  const text = (name: string): string | null => figures.find((f) => f.name === name)?.text ?? null;
  const needs = (name: string): string => (text(name) === null ? "" : `, and needs ${text(name) ?? ""}`);
  const started = text("startVolts");
  const answer =
    topic === "drop"
      ? `${part} loses ${text("dropV") ?? "–"}, ${text("dropShare") ?? "–"}; ${text("dropLimitShare") ?? "no limit"} ${text("dropLimitShare") === null ? "is asked" : "are allowed"}.`
      : `${part} has ${text("leastVolts") ?? "–"} at the worst while it runs${needs("runsAbove")}${started === null ? "" : `; ${started} while it starts${needs("startsAbove")}`}.`;
  things.push(...sourceParts(built, parts), ...parts.flatMap((p) => wiresOf(built, p)));
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures,
      sections: parts.map((p) => p.section),
      further: [
        model.circuit.id,
        `${part}.${topic === "volts" ? "drop" : "volts"}`,
        ...built.system.states.map((s) => `${part}@${s.id}`),
      ],
    },
    things,
  );
}

/** Batteries, whose facts the volts rest on. */
const sourceParts = ({ settled }: Built, parts: readonly Part[]): Thing[] =>
  settled.model.grid.stores.flatMap(({ element }) =>
    parts.some(({ section }) => section.steps.some((s) => s.name.startsWith(`${element.part} `)))
      ? [ofPart(element.part)]
      : [],
  );

/** Explains a load, a source or a circuit in a state of the plan; null where the state has no such thing. */
export function explainInState(built: Built, name: string, stateId: string): Explanation | null {
  const j = built.settled.cases.findIndex((one) => one.kind === "given" && one.name === stateId);
  const state = built.design.states.find((s) => s.id === stateId);
  if (j < 0 || state === undefined) return null;
  const subject = `${name}@${stateId}`;
  const named = `the state "${stateId}"`;
  const circuit = built.settled.model.circuits.find((c) => c.circuit.id === name);
  if (circuit !== undefined) {
    const at = solvedStandpoint(built, j);
    if (at === null) return null;
    const part = workCurrentIn(built, circuit, at);
    const text = part.figures[0]?.text ?? "";
    return finish(
      built,
      {
        ...emptyExplanation(subject, `What flows in ${name} in ${named}?`, `${name} carries ${text} in ${named}.`),
        figures: part.figures,
        sections: [part.section],
      },
      [ofCircuit(name)],
    );
  }
  const load = state.loads.find((l) => l.part === name);
  if (load !== undefined) {
    if (load.volts === null || load.condition === "collapsed") {
      const why =
        load.volts === null
          ? "no source reaches it"
          : (state.collapses.find((x) => x.load === name)?.says ?? "the network cannot bear it");
      return finish(
        built,
        emptyExplanation(
          subject,
          `What has ${name} in ${named}?`,
          `${name} is on in ${named} and does not run: ${why}.`,
        ),
        [ofPart(name)],
      );
    }
    const part = loadInState(built, name, stateId, j);
    if (part === null) return null;
    const [volts, amps] = part.figures;
    return finish(
      built,
      {
        ...emptyExplanation(
          subject,
          `What has ${name} in ${named}?`,
          `${name} has ${volts?.text ?? "–"} and takes ${amps?.text ?? "–"} in ${named}.`,
        ),
        figures: part.figures,
        sections: [part.section],
      },
      [ofPart(name), ...sourceParts(built, [part]), ...wiresOf(built, part)],
    );
  }
  const source = state.sources.find((s) => s.part === name);
  if (source === undefined) return null;
  const part = sourceInState(built, name, stateId, j, source.condition);
  if (part === null) return null;
  const [volts, amps] = part.figures;
  const gives = typeof amps?.value === "number" && amps.value < 0 ? "takes" : "gives";
  return finish(
    built,
    {
      ...emptyExplanation(
        subject,
        `What does ${name} do in ${named}?`,
        `${name} stands at ${volts?.text ?? "–"} and ${gives} ${(amps?.text ?? "–").replace("−", "")} in ${named}.`,
      ),
      figures: part.figures,
      sections: [part.section],
    },
    [ofPart(name)],
  );
}

function loadInState(built: Built, part: string, stateId: string, j: number): Part | null {
  const d = built.settled.model.grid.draws.findIndex((x) => x.element.part === part);
  const draw = built.settled.model.grid.draws[d];
  if (draw === undefined) return null;
  const solved = solvedStandpoint(built, j);
  if (solved === null) return null;
  const at = { ...solved, overlay: plainCase(j, built.settled.weigher.pairs.ofDraw[d] ?? 0) };
  const way = wayBetween(built, stateId, at, draw);
  if (way === null) return null;
  const { steps, lost } = workLoss(way);
  const left = work(() => voltsLeft({ source: way.sourceVolts, lost }), `left at ${part}`);
  const takes = workTaking(built, d, at);
  return {
    section: {
      title: `${part} in the state "${stateId}"`,
      says: "",
      steps: [...sourceSteps(built, way), ...steps, ...left.steps, ...takes.steps],
      way: way.elements,
    },
    figures: [figure("volts", left.value, "V", figureText.volts), figure("amps", takes.amps, "A", figureText.amps)],
  };
}

/** What the conditions of a source mean, in words. */
const meanings: Readonly<Record<string, string>> = {
  pushing: "it pushes",
  taking: "it is charged",
  resting: "nothing flows",
  holding: "it holds its volts",
  limited: "it is at its limit",
  blocked: "what else pushes there stands higher than its own volts",
  "input limited": "it is at the limit of its input",
  passing: "it passes on what it gets",
};

function sourceInState(built: Built, part: string, stateId: string, j: number, condition: string): Part | null {
  const { grid } = built.settled.model;
  const at = solvedStandpoint(built, j);
  if (at === null) return null;
  const section = (steps: readonly WorkedStep[]): WorkedSection => ({
    title: `${part} in the state "${stateId}"`,
    says: meanings[condition] ?? condition,
    steps,
    way: [],
  });
  const figures = (volts: number, amps: number) => [
    figure("volts", volts, "V", figureText.volts),
    figure("amps", amps, "A", figureText.amps),
  ];
  const s = grid.stores.findIndex((x) => x.element.part === part);
  const store = grid.stores[s];
  if (store !== undefined) {
    const { steps, amps } = batterySteps(built, j, s, between(at, store));
    return { section: section(steps), figures: figures(between(at, store), amps) };
  }
  const port: Pair | undefined =
    grid.feeds.find((x) => x.element.part === part) ?? grid.converters.find((x) => x.element.part === part)?.out;
  if (port === undefined) return null;
  const flows = (grid.at[port.plus] ?? []).map((e) => {
    const edge = grid.edges[e];
    const ohms = built.settled.weigher.ohmsOf(e, built.settled.chosen.rungs);
    const other = edge?.a === port.plus ? edge.b : (edge?.a ?? 0);
    const on = built.settled.cases[j]?.edgeOn[e] !== 0 && ohms > 0;
    return {
      says: edge?.id ?? "",
      value: on ? (at.voltsAt(port.plus) - at.voltsAt(other)) / ohms : 0,
    };
  });
  const steps: WorkedStep[] = [
    taken(`volts at ${part}`, between(at, port), "V", "the solved network", "derived"),
    summed(`${part} gives`, flows, "A", "I"),
  ];
  return {
    section: section(steps),
    figures: figures(
      between(at, port),
      flows.reduce((sum, f) => sum + f.value, 0),
    ),
  };
}
