import type { Diagnostic } from "../diagnostic.ts";
import { deviceFamily } from "../device/index.ts";
import { isVerified, printTrust, type Trust } from "../explain/index.ts";
import { stockedSizes } from "../wire/index.ts";
import type { Assumption } from "../system/index.ts";
import type { CircuitDesign, Constraint, ConstraintId, Design, SizeOnPaper } from "./design.ts";
import { deviceFor, planOfQuestion, type QuestionDevice } from "./question-plan.ts";
import type { Question } from "./question.ts";
import type { QuestionField } from "./question-text.ts";

/** The wire and the device for one circuit, with the reasons. */
export interface Answer {
  /** chosen: there is a size · nothing is enough: no size on sale meets what is asked · cannot tell: see `cannotTell` */
  readonly outcome: "chosen" | "nothing is enough" | "cannot tell";
  /** What is missing, when it cannot be told. */
  readonly cannotTell: readonly string[];
  /** The least size that meets every constraint; null when there is none. */
  readonly size: SizeOnPaper | null;
  /** What each constraint alone asks for, whether the size meets it, and where that comes from. */
  readonly constraints: readonly Constraint[];
  /** The constraint that asks for the largest size; of equals the first in the list. */
  readonly deciding: ConstraintId | null;
  /** Volts lost from source to load and back at running current, and what part that is of the nominal volts. */
  readonly drop: {
    /** Volts lost, V. */
    readonly volts: number | null;
    /** Of the nominal volts, %. */
    readonly percent: number | null;
    /** Greatest lawful drop, %. */
    readonly limitPercent: number | null;
  };
  /** The protective device at the start of the circuit; null when nothing on sale carries the load. */
  readonly device: {
    /** Id of its family. */
    readonly family: string;
    /** What the trade calls it. */
    readonly familyName: string;
    /** Least rating that the load asks for, before standard ratings, A. */
    readonly least: number;
    /** Greatest rating that the rule set allows for this wire, A; null when that cannot be told. */
    readonly most: number | null;
    /** The standard rating that is chosen, A. */
    readonly chosen: number;
  } | null;
  /** What the wire may carry for good, after every factor, A. */
  readonly ampacity: number | null;
  /** How far the ampacity can be leaned on. */
  readonly ampacityTrust: Trust | null;
  /** Running current, A. */
  readonly amps: number;
  /** Current of the start, A; null when none is given. */
  readonly startAmps: number | null;
  /** Temperature of the metal at the running current, °C. */
  readonly conductorC: number | null;
  /** Volts at the load while it runs, V. */
  readonly loadVolts: number | null;
  /** Volts at the load while it starts, V; null when no start is given. */
  readonly startVolts: number | null;
  /** The length, both ways of saying it. */
  readonly run: {
    /** Length of the run, one way, m. */
    readonly oneWayM: number;
    /** Conductor that the current flows through, out and back, m. */
    readonly loopM: number;
    /** Which of the two the question gave. */
    readonly asked: "one way" | "there and back";
  };
  /** How the next thinner size on sale fails; null when the size is the thinnest there is. */
  readonly nextDown: {
    readonly size: SizeOnPaper;
    readonly fails: readonly {
      readonly id: ConstraintId;
      readonly says: string;
    }[];
  } | null;
  /** Nominal volts, V, and the volts that the source holds, V. */
  readonly supply: {
    /** Base of the drop in percent, V. */
    readonly nominalV: number;
    /** What the source is taken to hold whatever is drawn, V. */
    readonly sourceV: number;
  };
  readonly make: {
    readonly metal: string;
    readonly strands: string;
    /** Temperature rating of the insulation, °C. */
    readonly insulationC: number;
  };
  /** Rule set and edition whose numbers were used. */
  readonly rules: string;
  /** Defaults that were used; `pin` is the field of the question that says otherwise. */
  readonly assumptions: readonly Assumption[];
  /** What a reader has to know before leaning on the answer. */
  readonly notes: readonly string[];
}

/** The compiler, as far as a question needs it: text in, design and messages out. */
export type Compile = (text: string) => { readonly design: Design; readonly diagnostics: readonly Diagnostic[] };

/**
 * Answers a question about one circuit by compiling the small plan that it comes to.
 *
 * Ignores everything ahead of the circuit: the source holds its volts.
 *
 * @param compile the compiler of whole plans, so that the same engine answers
 * @throws RangeError - the plan that was made of the question is refused: a defect of this file
 */
export function answerQuestion(question: Question, compile: Compile): Answer {
  const device = deviceFor(question);
  const { circuit, assumptions } = designOf(planOfQuestion(question, device), compile);
  const { size, constraints } = circuit;
  const isTold = circuit.outcome !== "cannot tell";
  const outcome = !isTold ? "cannot tell" : circuit.nothingIsEnough ? "nothing is enough" : "chosen";
  const chosen = outcome === "chosen" ? size : null;
  return {
    outcome,
    cannotTell: circuit.cannotTell,
    size: chosen,
    constraints: constraints.map((c) => ({ ...c, source: sourceAsked(c, question) })),
    deciding: circuit.decidedBy,
    drop: {
      volts: circuit.dropV,
      percent: percent(circuit.dropShare),
      limitPercent: percent(circuit.dropLimitShare),
    },
    device:
      device === null
        ? null
        : {
            family: device.family,
            familyName: deviceFamily(device.family).name,
            least: device.leastA,
            most: circuit.devices[0]?.mostA ?? null,
            chosen: device.ratingA,
          },
    ampacity: circuit.ampacityA,
    ampacityTrust: circuit.ampacityTrust,
    amps: question.loadA,
    startAmps: question.startA,
    conductorC: circuit.conductorC,
    loadVolts: circuit.leastVolts,
    startVolts: circuit.startVolts,
    run: { oneWayM: question.oneWayM, loopM: 2 * question.oneWayM, asked: question.runAsked },
    nextDown: chosen === null ? null : nextDown(question, device, chosen, compile),
    supply: { nominalV: question.nominalV, sourceV: question.sourceV },
    make: {
      metal: circuit.make.metal,
      strands: circuit.make.strands,
      insulationC: circuit.make.insulationC,
    },
    rules: `${question.rules.id} ${question.rules.edition}`,
    assumptions: [...ownAssumptions(question, circuit), ...pinnedByFields(assumptions)],
    notes: notesOn(question, circuit, device),
  };
}

/** A question has no plan: what it states was asked, and sizes are those on sale. */
function sourceAsked({ id, source }: Constraint, question: Question): string {
  if (source === "the plan" || (id === "drop" && question.dropShare !== null)) return "as asked";
  return source === "stock of the plan" ? "sizes on sale" : source;
}

/** In percent, without the dust of a share that was divided and multiplied again. */
const percent = (share: number | null): number | null =>
  share === null ? null : Number((100 * share).toPrecision(12));

function designOf(text: string, compile: Compile): { circuit: CircuitDesign; assumptions: readonly Assumption[] } {
  const { design, diagnostics } = compile(text);
  const [circuit] = design.circuits;
  const fault = diagnostics.find((d) => d.level === "error" || d.level === "warning");
  if (circuit === undefined || fault !== undefined) {
    throw new RangeError(`the plan of a question is refused: ${fault?.message ?? "no circuit"}\n${text}`);
  }
  return { circuit, assumptions: design.assumptions };
}

/** The next thinner size on sale, judged as if it were pinned. */
function nextDown(
  question: Question,
  device: QuestionDevice | null,
  chosen: SizeOnPaper,
  compile: Compile,
): Answer["nextDown"] {
  const size = stockedSizes(question.stock).findLast((s) => s.areaMm2 < chosen.areaMm2 * (1 - 1e-9));
  if (size === undefined) return null;
  const { circuit } = designOf(planOfQuestion(question, device, size.label), compile);
  const fails = circuit.constraints
    .filter((c) => c.outcome === "not met")
    .map(({ id, source }) => ({ id, says: failure(id, source, circuit, question, device) }));
  return { size: { label: size.label, areaMm2: size.areaMm2 }, fails };
}

const round = (x: number, digits: number): string => String(Number(x.toFixed(digits)));

/** How a thinner wire fails, with its figures. */
function failure(
  id: ConstraintId,
  source: string,
  c: CircuitDesign,
  question: Question,
  device: QuestionDevice | null,
): string {
  const iz = round(c.ampacityA ?? 0, 1);
  switch (id) {
    case "ampacity":
      return `it may carry ${iz} A, the load takes ${round(question.loadA, 2)} A`;
    case "drop":
      return `it would lose ${round(c.dropV ?? 0, 2)} V, ${round(100 * (c.dropShare ?? 0), 1)} %; the limit is ${round(100 * (c.dropLimitShare ?? 0), 1)} %`;
    case "start":
      return `it would leave ${round(c.startVolts ?? 0, 2)} V at the start; ${round(question.startsAbove ?? 0, 2)} V are needed`;
    case "least-volts":
      return `it would leave ${round(c.leastVolts ?? 0, 2)} V; ${round(question.leastVolts ?? 0, 2)} V are needed`;
    case "device":
      return `the load needs a device of ${device?.ratingA ?? 0} A, more than the rule set allows over ${iz} A`;
    case "mechanical":
      return `it is thinner than the rule set allows (${source})`;
    default:
      return source;
  }
}

function ownAssumptions(q: Question, c: CircuitDesign): Assumption[] {
  const assume = (id: string, says: string, field: QuestionField): Assumption => ({
    id,
    says,
    trust: "practice",
    pin: field,
    about: [],
  });
  const limit = c.dropLimitShare === null ? "" : ` ${round(100 * c.dropLimitShare, 1)} %`;
  const all: Partial<Record<QuestionField, Assumption>> = {
    volts: assume("nominal-volts", `a ${round(q.nominalV, 2)} V supply`, "volts"),
    sourceVolts: assume("source-volts", `the source holds ${round(q.sourceV, 2)} V, whatever is drawn`, "sourceVolts"),
    drop: assume("drop-limit", `a load of no special kind: greatest drop${limit} (${q.rules.id})`, "drop"),
    rules: assume("rule-set", `rule set ${q.rules.id} ${q.rules.edition}`, "rules"),
    stock: assume("stock-sizes", `wire is bought in ${q.stock}`, "stock"),
    bundle: assume("bundle", "no other loaded conductors lie with the circuit's own two", "bundle"),
  };
  return q.absent.flatMap((field) => all[field] ?? []);
}

/** Where the plan's own defaults are pinned in a question. */
const fieldOf: Readonly<Record<string, QuestionField>> = {
  "stock: metal": "metal",
  "stock: strands": "strands",
  "stock: insulation": "insulation",
  "climate: ambient": "ambient",
  "start time": "startTime",
  "starts above": "startsAbove",
};

const pinnedByFields = (assumptions: readonly Assumption[]): Assumption[] =>
  assumptions
    .filter(({ id }) => !TOLD_OTHERWISE.includes(id))
    .map((a) => ({ ...a, pin: fieldOf[a.pin] ?? a.pin, about: [] }));

/** Defaults of a plan that a question has words of its own for, or a note. */
const TOLD_OTHERWISE: readonly string[] = ["bundle-own", "engine-space-air", "joint-resistance"];

/** Greatest direct volts that both small-craft rule sets are made for: ISO 13297 scope, 33 CFR 183.425. */
const SCOPE_VOLTS = 50;

function notesOn(q: Question, c: CircuitDesign, device: QuestionDevice | null): string[] {
  const { ampacityTrust: trust } = c;
  return [
    ...q.remarks,
    ...(trust === null || isVerified(trust)
      ? []
      : [`the ampacity is ${printTrust(trust)}: check it against the edition in force`]),
    ...(q.nominalV > SCOPE_VOLTS
      ? ["the rule sets carried here are made for direct current of no more than 50 V"]
      : []),
    ...(q.ambientC === null && q.engineSpace ? ["air in the engine space is taken at 50 °C"] : []),
    "each joint is counted at 0.1 mΩ (common practice)",
    "what is lost ahead of this circuit, in the battery, its leads and the feeder, is not counted",
    device === null
      ? "no device on sale that is made for these volts carries this load: none is counted"
      : "the device stands where the circuit starts, at a bus bar or panel; straight on a battery it must also interrupt the current that the battery gives into a short circuit",
    ...(q.startA !== null && q.startsAbove === null
      ? ["the maker's least volts for the start are not given, so the start is not judged"]
      : []),
  ];
}
