import type { CircuitDesign } from "../size/index.ts";
import type { CircuitModel, Judged } from "../size/model.ts";
import { judgedAt, type Built, type CircuitAt } from "./built.ts";
import { conflictSections } from "./conflict-sections.ts";
import { emptyExplanation, finish } from "./finish.ts";
import type { Explanation, WorkedFigure } from "./explanation.ts";
import { ofCircuit, ofPart, onTheWay, type Thing } from "./leans-on.ts";
import { saidAt } from "./plan-place.ts";
import { figureText } from "./print-number.ts";
import { sentenceOf } from "./size-sentence.ts";
import { climbLadder } from "./size-ladder.ts";
import { findChanges } from "./what-if.ts";
import { makeAt, workAmpacity, workRun, type Part } from "./why-ampacity.ts";
import { workCurrent, workStart } from "./why-current.ts";
import { workDevice } from "./why-device.ts";
import { workChargingDrop, workDrop, workVolts } from "./why-volts.ts";
import { figure, taken } from "./work.ts";

/** What can be asked of a circuit. */
export const circuitTopics = [
  "size",
  "ampacity",
  "current",
  "start",
  "drop",
  "volts",
  "device",
  "temperature",
  "length",
] as const;
export type CircuitTopic = (typeof circuitTopics)[number];

/** What else an answer is to hold. */
export interface ExplainOptions {
  /** Look for what would change a size: settles the whole build again some dozens of times. */
  readonly changes?: boolean;
}

/** Explains one thing about a circuit. */
export function explainCircuit(
  built: Built,
  at: CircuitAt,
  topic: CircuitTopic,
  options: ExplainOptions = {},
): Explanation {
  const { circuit, design, model } = at;
  const subject = topic === "size" ? circuit.id : `${circuit.id}.${topic}`;
  if (topic === "length") return lengthOf(built, at, subject);
  if (model === null || model.rungs === null) {
    const why = design.cannotTell.join("; ");
    return finish(
      built,
      emptyExplanation(subject, `Why is ${circuit.id} as it is?`, `${circuit.id} cannot be told: ${why}.`),
      [ofCircuit(circuit.id)],
    );
  }
  switch (topic) {
    case "size":
      return sizeOf(built, at, model, options);
    case "ampacity": {
      const make = makeAt(built, model);
      const part = make === null ? null : workAmpacity(built, model, make);
      return one(
        built,
        at,
        subject,
        `What may ${circuit.id} carry?`,
        part,
        (f) =>
          `${circuit.id}, ${make?.size.label ?? ""}, may carry ${f("ampacityA")} in its surroundings; ${figureText.amps(design.steadyA ?? 0)} flow at most.`,
      );
    }
    case "current": {
      const part = workCurrent(built, model);
      return one(
        built,
        at,
        subject,
        `What flows in ${circuit.id}?`,
        part,
        (f) => `${circuit.id} carries ${f("steadyA")} at most for long: ${part.section.says}.`,
      );
    }
    case "start": {
      const part = workStart(built, model);
      return one(
        built,
        at,
        subject,
        `What flows in ${circuit.id} while something starts?`,
        part,
        (f) => `${circuit.id} carries ${f("startA")} while ${part?.section.says ?? ""}.`,
        "nothing behind it states a start",
      );
    }
    case "temperature": {
      const part = workRun(built, model);
      return one(
        built,
        at,
        subject,
        `How warm does ${circuit.id} get?`,
        part,
        (f) =>
          `The metal of ${circuit.id} comes to ${f("conductorC")} at ${figureText.amps(design.steadyA ?? 0)}; its insulation bears ${figureText.degrees(circuit.insulationC.low)}.`,
      );
    }
    case "drop":
      return dropOf(built, at, model);
    case "volts":
      return voltsOf(built, at, model);
    case "device":
      return deviceOf(built, at, model);
  }
}

/** An explanation of one part of the working. */
function one(
  built: Built,
  { circuit }: CircuitAt,
  subject: string,
  question: string,
  part: Part | null,
  answer: (text: (figure: string) => string) => string,
  none = "there is nothing to work out",
): Explanation {
  if (part === null)
    return finish(built, emptyExplanation(subject, question, `${circuit.id}: ${none}.`), [ofCircuit(circuit.id)]);
  const text = (name: string): string => part.figures.find((f) => f.name === name)?.text ?? "–";
  const things = [ofCircuit(circuit.id), ...loadsOf(built, circuit.id).map(ofPart)];
  return finish(
    built,
    { ...emptyExplanation(subject, question, answer(text)), figures: part.figures, sections: [part.section] },
    things,
  );
}

/** Parts whose volts are judged at the end of a circuit. */
const loadsOf = ({ settled }: Built, id: string): string[] =>
  settled.model.circuits.find((c) => c.circuit.id === id)?.judged.map((j) => j.part) ?? [];

function sizeOf(
  built: Built,
  { index, circuit, design }: CircuitAt,
  c: CircuitModel,
  options: ExplainOptions,
): Explanation {
  const ladder = climbLadder(built, c, design);
  const decider = ladder.rungs.find((r) => r.decides)?.id ?? ladder.rungs.find((r) => r.outcome === "not met")?.id;
  const { parts, things } = sizeParts(built, c, design, ladder.thinner.get(decider ?? "stock")?.short[0]?.part);
  const order = (part: Part): number => (decider !== undefined && part.constraint === decider ? 0 : 1);
  const sorted = [...parts].sort((a, b) => order(a) - order(b));
  const size = design.size;
  return finish(
    built,
    {
      ...emptyExplanation(
        circuit.id,
        size === null ? `What of ${circuit.id}?` : `Why is ${circuit.id} ${size.label}?`,
        sentenceOf(built, design, ladder),
      ),
      figures: [
        figure("size", size?.label ?? null, ""),
        figure("areaMm2", size?.areaMm2 ?? null, "mm²"),
        ...parts.flatMap((p) => p.figures),
      ],
      ladder: ladder.rungs,
      sections: [...(options.changes === true ? conflictSections(built, index) : []), ...sorted.map((p) => p.section)],
      // A bond follows from other wires, not from what flows in it.
      changes:
        options.changes === true && circuit.size === undefined && design.decidedBy !== "bond"
          ? findChanges(built, index)
          : [],
      further: [
        ...[...circuitTopics.slice(1), "fault", "selectivity", "heat", "margin"].map((t) => `${circuit.id}.${t}`),
        ...c.judged.map((j) => j.part),
      ],
    },
    [ofCircuit(circuit.id), ...things],
  );
}

/** The working of each constraint on a size, and what it leans on. */
function sizeParts(
  built: Built,
  c: CircuitModel,
  design: CircuitDesign,
  part: string | undefined,
): { parts: Part[]; things: Thing[] } {
  const make = makeAt(built, c);
  const found: (Part | null)[] = [
    tagged(workCurrent(built, c), "ampacity"),
    make === null ? null : tagged(workAmpacity(built, c, make), "ampacity"),
  ];
  const things: Thing[] = [];
  const target = worstJudged(built, c, part);
  if (c.charging !== null) found.push(tagged(workChargingDrop(built, c), "drop"));
  if (target !== null) {
    const { model, judged, dropCase, leastCase } = target;
    things.push(ofPart(judged.part));
    found.push(tagged(workDrop(built, model, judged, dropCase), "drop"));
    if (judged.startsAbove > 0 && !Number.isNaN(judged.startExtra))
      found.push(tagged(workVolts(built, model, judged, "start"), "start"));
    if (judged.runsAbove > 0) found.push(tagged(workVolts(built, model, judged, leastCase, dropCase), "least-volts"));
  }
  found.push(tagged(workRun(built, c), "drop"));
  const placed = built.settled.devices.circuits[c.position]?.devices ?? [];
  placed.forEach((device, k) => {
    const printed = design.devices[k];
    if (printed !== undefined) found.push(tagged(workDevice(built, c, device, printed), "device"));
    if (device.heldTo !== undefined) things.push(ofPart(device.heldTo.part));
  });
  const parts = found.filter((p): p is Part => p !== null);
  for (const part of parts) things.push(...wiresOf(built, part));
  return { parts, things };
}

const tagged = (part: Part | null, constraint: Part["constraint"]): Part | null =>
  part === null || constraint === undefined ? part : { ...part, constraint };

const circuitOfConductor = ({ system }: Built, id: string): string =>
  system.circuits.find((c) => c.conductors.some((x) => x.id === id))?.id ?? id;

/** A load or panel with the cases that are worst for it: the one named, else the one of the circuit that loses most. */
function worstJudged(
  built: Built,
  c: CircuitModel,
  part: string | undefined,
): { model: CircuitModel; judged: Judged; dropCase: number; leastCase: number } | null {
  const weigher = built.settled.weigher;
  const owner = part === undefined || c.judged.some((j) => j.part === part) ? c : (judgedAt(built, part)?.model ?? c);
  const worst = weigher.worst(owner).filter((w) => w.dropVolts > -Infinity && (owner === c || w.judged.part === part));
  const named = worst.find((w) => w.judged.part === part);
  const most = worst.reduce<(typeof worst)[number] | null>(
    (a, b) => (a === null || b.dropVolts > a.dropVolts ? b : a),
    null,
  );
  const found = named ?? most;
  return found === null
    ? null
    : { model: owner, judged: found.judged, dropCase: found.dropCase, leastCase: found.leastCase };
}

function dropOf(built: Built, { circuit }: CircuitAt, c: CircuitModel): Explanation {
  const subject = `${circuit.id}.drop`;
  const question = `What is lost behind ${circuit.id}?`;
  const target = worstJudged(built, c, undefined);
  const part =
    c.charging !== null
      ? workChargingDrop(built, c)
      : target === null
        ? null
        : workDrop(built, target.model, target.judged, target.dropCase);
  if (part === null) {
    const says = "nothing that is judged stands at its end; what it loses counts in the drop of every load behind it";
    return finish(built, emptyExplanation(subject, question, `${circuit.id}: ${says}.`), [ofCircuit(circuit.id)]);
  }
  const text = (name: string): string => part.figures.find((f) => f.name === name)?.text ?? "–";
  const whom = c.charging !== null ? circuit.id : (target?.judged.part ?? "");
  const run = workRun(built, c);
  return finish(
    built,
    {
      ...emptyExplanation(
        subject,
        question,
        `${whom} loses ${text("dropV")} out and back, ${text("dropShare")}; ${text("dropLimitShare")} are allowed.`,
      ),
      figures: part.figures,
      sections: [part.section, ...(run === null ? [] : [run.section])],
    },
    [ofCircuit(circuit.id), ...(target === null ? [] : [ofPart(target.judged.part)]), ...wiresOf(built, part)],
  );
}

/** Circuits and contacts on the way, as things that are leaned on. */
export const wiresOf = (built: Built, { section }: Part): Thing[] =>
  section.way.flatMap(({ element, what }) => {
    if (what === "wire") return [onTheWay(circuitOfConductor(built, element))];
    return what === "contact" ? [ofPart(partOfContact(built, element))] : [];
  });

const partOfContact = ({ settled }: Built, id: string): string =>
  settled.model.grid.edges.find((e) => e.id === id)?.contact?.part ?? id;

function voltsOf(built: Built, { circuit }: CircuitAt, c: CircuitModel): Explanation {
  const weigher = built.settled.weigher;
  const worst = weigher.worst(c).filter((w) => w.dropVolts > -Infinity);
  const least = worst.reduce<(typeof worst)[number] | null>(
    (a, b) => (a === null || b.leastVolts < a.leastVolts ? b : a),
    null,
  );
  const start = worst.reduce<(typeof worst)[number] | null>(
    (a, b) => (Number.isNaN(b.startVolts) || (a !== null && a.startVolts <= b.startVolts) ? a : b),
    null,
  );
  const parts = [
    least === null ? null : workVolts(built, c, least.judged, least.leastCase),
    start === null ? null : workVolts(built, c, start.judged, "start"),
  ].filter((p): p is Part => p !== null);
  const subject = `${circuit.id}.volts`;
  const question = `What do the loads of ${circuit.id} have left?`;
  const figures: WorkedFigure[] = parts.flatMap((p) => p.figures);
  const text = (name: string): string | null => figures.find((f) => f.name === name)?.text ?? null;
  if (least === null)
    return finish(built, emptyExplanation(subject, question, `${circuit.id}: no load is judged at its end.`), [
      ofCircuit(circuit.id),
    ]);
  const started = text("startVolts");
  const answer = `${least.judged.part} has ${text("leastVolts") ?? "–"} left at the worst${started === null || start === null ? "" : `, and ${start.judged.part} has ${started} while it starts`}.`;
  const things = [
    ofCircuit(circuit.id),
    ...worst.map((w) => ofPart(w.judged.part)),
    ...parts.flatMap((p) => wiresOf(built, p)),
  ];
  return finish(
    built,
    { ...emptyExplanation(subject, question, answer), figures, sections: parts.map((p) => p.section) },
    things,
  );
}

function deviceOf(built: Built, { circuit, design }: CircuitAt, c: CircuitModel): Explanation {
  const subject = `${circuit.id}.device`;
  const placed = built.settled.devices.circuits[c.position]?.devices ?? [];
  const parts = placed.flatMap((device, k): Part[] => {
    const printed = design.devices[k];
    return printed === undefined ? [] : [workDevice(built, c, device, printed)];
  });
  const bare = design.bareEnds.map(
    ({ end, why }) => `no device at ${end === "from" ? circuit.fromText : circuit.toText}: ${why}`,
  );
  const [first] = design.devices;
  const question =
    first === undefined
      ? `Why has ${circuit.id} no device?`
      : `Why ${figureText.amps(first.ratingA ?? 0)} for ${circuit.id}?`;
  const says = design.devices.map(({ ratingA, familyName, kind, at, leastA, mostA, by }, k) => {
    if (ratingA === null) return `at ${at} a ${familyName ?? kind} of unknown rating`;
    const heldTo = placed[k]?.heldTo;
    const asks = `the load asks for at least ${figureText.amps(leastA)}`;
    const since =
      heldTo === undefined
        ? asks
        : `${asks}, the maker of ${heldTo.part} allows no more than ${figureText.amps(heldTo.amps)}`;
    return `${by === "given" ? "the plan puts" : "it takes"} a ${figureText.amps(ratingA)} ${familyName ?? kind} at ${at}, since ${since}${mostA === null ? "" : ` and the wire allows at most ${figureText.ampacity(mostA)}`}`;
  });
  const answersFor = built.settled.devices.circuits[c.position]?.answersFor ?? 0;
  const guarded =
    answersFor > 0 ? [`its size answers for ${figureText.amps(answersFor)} that devices behind it let through`] : [];
  const answer = [...says, ...bare, ...guarded].join("; ");
  const makers = placed.flatMap(({ heldTo }) => (heldTo === undefined ? [] : [heldTo.part]));
  const loads = new Set([...loadsOf(built, circuit.id), ...makers]);
  const things = [ofCircuit(circuit.id), ...[...loads].map(ofPart)];
  return finish(
    built,
    {
      ...emptyExplanation(
        subject,
        question,
        `${circuit.id}: ${answer === "" ? "no source can push into it, so it has none" : answer}.`,
      ),
      figures: parts.flatMap((p) => p.figures),
      sections: parts.map((p) => p.section),
    },
    things,
  );
}

function lengthOf(built: Built, { circuit, design }: CircuitAt, subject: string): Explanation {
  const { low, high, origin } = design.lengthM;
  const source = saidAt(built.plan, "circuits", circuit.id, "length");
  const range = low === high ? figureText.metres(high) : `${figureText.metres(low)} to ${figureText.metres(high)}`;
  const answer =
    origin === "unknown"
      ? `The length of ${circuit.id} is not known.`
      : `${circuit.id} runs ${range} one way, as the plan says (${source}).`;
  return finish(
    built,
    {
      ...emptyExplanation(subject, `How long is ${circuit.id}?`, answer),
      figures: [figure("lengthM", origin === "unknown" ? null : high, "m", figureText.metres)],
      sections:
        origin === "unknown"
          ? []
          : [{ title: "Its length", says: "", steps: [taken("one way", high, "m", source)], way: [] }],
    },
    [ofCircuit(circuit.id)],
  );
}
