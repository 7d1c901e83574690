import { cite } from "../../explain/index.ts";
import type { GridEdge } from "../../system/index.ts";
import type { Build, PartView } from "../build.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysCount, saysFigure, type Stated } from "../stated.ts";
import { guardsOf, partOfTerminal } from "../protection/guards.ts";
import { arraysOf, lacksOf, overChain, type ArrayInput, type Modules, type Span } from "./arrays.ts";

const array = (path: string, parts = "", module = "", set = "iec-cabin"): string => `rules: { DC: ${set} }
parts:
  MPPT: { kind: solar controller, output: 30 A, input limit: 150 V }
  PV: { kind: solar module, rated: 400 W, Voc: 40 V, Vmp: 33 V, Isc: 12 A, Voc per kelvin: -0.28 %, in series: 2${module} }
${parts}circuits:
  W20: ${path}
  W21: { path: MPPT:out → BP, length: 1 m }`;
const STRAIGHT = "{ path: PV → MPPT:in, length: 3 m }";
const THROUGH = "{ path: PV → ISO → MPPT:in, legs: [2 m, 1 m] }";
const iso = (volts: string): string => `  ISO: { kind: switch, rated: 32 A, poles: 2${volts} }\n`;

/** What can stand between modules and their controller. */
interface Isolator {
  readonly name: string;
  readonly about: string;
  readonly volts: Stated<Span>;
  /** Null: of a part of its own, which protection/missing-pole counts. */
  readonly poles: Stated<number> | null;
}

type Message = "missing" | "volts" | "pole";

export const missingArrayIsolator = defineRule<Message>({
  id: "charging/missing-array-isolator",
  title: "Missing array isolator",
  severity: { otherwise: "should", sets: { "us-cabin": "must", "iec-cabin": "must" } },
  danger: "modules cannot be switched off, and pulling a live connector draws an arc",
  why: `Between modules and their controller stands a switch or breaker that is made to open direct current at the open-circuit volts of the string in the cold, in all poles that
    are not earthed: a part of its own on the path, or one that the combiner or the controller holds (\`isolator\`). Fuses and plug-in connectors isolate
    only what carries no current; where a roof of a boat or vehicle has nothing but its connectors, stated, it is a note. The polarity of each string is
    proven before its fuses go in.`,
  silent: ["modules that feed no controller"],
  sources: [
    { cite: cite("nfpa-70-2023", "690.13, 690.15", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-7-712", "712.536", "memory"), sets: ["iec-cabin"] },
    { cite: cite("trade-practice", "an isolator for direct current between modules and controller", "practice") },
  ],
  messages: {
    missing: "nothing isolates {place} from {controller} under load",
    volts: "{place}: {isolator} opens {measured} of direct current, and the string gives {limit} in the cold",
    pole: "{place}: {isolator} opens one pole, and no pole of the array is joined to earth",
  },
  cures: ["array-isolator", "larger-part"],
  examples: {
    good: [
      { says: "a switch for 150 V on the path", plan: array(THROUGH, iso(", DC volts: 150 V")) },
      {
        says: "one in the combiner",
        plan: array(
          "{ path: PV → CB, length: 3 m }\n  W22: { path: CB → MPPT:in, length: 1 m }",
          "  CB: { kind: combiner, isolator: { poles: 2, DC volts: 150 V } }\n",
        ),
      },
    ],
    bad: [
      { says: "straight to the controller", plan: array(STRAIGHT), fails: "missing", about: "parts.PV" },
      {
        says: "nothing but plugs on a boat",
        plan: array(STRAIGHT, "", ", connectors: make A 4 mm", "iso-small-craft 2020+A1:2022"),
        fails: "missing",
        about: "parts.PV",
      },
      { says: "a switch for 60 V", plan: array(THROUGH, iso(", DC volts: 60 V")), fails: "volts", about: "parts.PV" },
      { says: "a switch that states no volts", plan: array(THROUGH, iso("")), fails: "cannot tell", about: "parts.PV" },
    ],
  },
  judge(build, report) {
    const { modules, inputs } = arraysOf(build);
    for (const m of modules) {
      const own = inputs.filter((i) => i.modules.includes(m));
      const { subject } = m.view;
      const isBehind = inputs.some((i) => i.modules.some((head) => head !== m && head.chain.includes(m)));
      if (own.length === 0)
        report.notApplicable(
          subject,
          isBehind ? "it stands in a string whose other end is isolated" : "it feeds no controller",
        );
      else for (const each of own) judgeOne(build, m, each, report);
    }
  },
});

function judgeOne(build: Build, m: Modules, input: ArrayInput, report: Report<Message>): void {
  const { subject } = m.view;
  const { isolators, isReached, untold } = isolatorsBetween(build, m, input);
  if (isReached) {
    const isPlugged = typeof factsOf(m.view)["connectors"]?.value === "string";
    const isRoof = subject.set !== "us-cabin" && subject.set !== "iec-cabin";
    if (untold.length > 0)
      report.cannotTell(
        subject,
        untold.map((v) => needed(`whether ${v.id} holds an isolator`, v.subject)),
      );
    else
      report.fail(subject, "missing", {
        words: { controller: input.view.id },
        ...(isPlugged && isRoof ? { severity: "note" } : {}),
      });
    return;
  }
  const cold = overChain(m, (one) => one.cold);
  for (const isolator of isolators) {
    const { volts, poles, name, about } = isolator;
    const words = { isolator: name };
    if (poles === 1 && m.view.supply?.earthed === false) report.fail(subject, "pole", { words });
    else if (poles === "unknown") report.cannotTell(subject, [needed(`how many poles ${name} opens`, about)]);
    if (volts === undefined || volts === "unknown")
      report.cannotTell(subject, [needed(`the direct volts that ${name} opens`, about)]);
    else if (volts.high < cold.low)
      report.fail(subject, "volts", {
        measured: volts.high,
        limit: cold.low,
        unit: "V",
        margin: above(volts.high, cold.low),
        words,
      });
    else if (volts.low < cold.high)
      report.cannotTell(subject, [
        ...lacksOf(m),
        ...(volts.low < volts.high ? [needed(`the direct volts that ${name} opens`, about)] : []),
      ]);
    else
      report.pass(subject, { measured: volts.low, limit: cold.high, unit: "V", margin: above(volts.low, cold.high) });
  }
}

/** Isolators on the ways from modules to a controller, and whether one way has none. */
function isolatorsBetween(
  build: Build,
  { plus }: Modules,
  input: ArrayInput,
): { readonly isolators: readonly Isolator[]; readonly isReached: boolean; readonly untold: readonly PartView[] } {
  const { grid } = build.settled.model;
  const isolators = new Map<string, Isolator>();
  const untold: PartView[] = [];
  const inPart = (view: PartView): "yes" | "no" => {
    const fact = factsOf(view)["isolator"];
    if (fact === undefined) return "no";
    if (fact.value === "unknown") {
      untold.push(view);
      return "no";
    }
    const facts = recordOfFacts(factsOf(view), "isolator", []);
    const name = `the isolator of ${view.id}`;
    isolators.set(view.id, {
      name,
      about: view.subject.path,
      volts: saysFigure(facts, "DC volts"),
      poles: saysCount(facts, "poles") ?? null,
    });
    return "yes";
  };
  const breakers = breakersIn(build);
  const seen = new Set([plus]);
  for (const node of seen) {
    if (node === input.plus) break;
    const box = build.part(partOfTerminal(grid.nodeNames[node] ?? ""));
    if (node !== plus && box !== undefined && inPart(box) === "yes") continue;
    for (const e of grid.at[node] ?? []) {
      const edge = grid.edges[e];
      if (edge?.live !== true) continue;
      const own = breakers.get(e) ?? switchIn(build, edge);
      if (own !== undefined) isolators.set(own.name, own);
      else seen.add(edge.a === node ? edge.b : edge.a);
    }
  }
  const isReached = seen.has(input.plus) && inPart(input.view) === "no";
  return { isolators: [...isolators.values()], isReached, untold };
}

/** A switch or a breaker that is a part of its own. */
function switchIn(build: Build, { contact }: GridEdge): Isolator | undefined {
  const view = contact === null || contact.way !== undefined ? undefined : build.part(contact.part);
  if (view === undefined || view.part.traits.passes !== true) return undefined;
  // Whatever has no position to open, a shunt, and fuses isolate nothing under load.
  if (!view.part.positions.includes("off") || view.part.traits.guards === "fuse") return undefined;
  return { name: view.id, about: view.subject.path, volts: view.part.marks?.dcVolts, poles: null };
}

/** Breakers in the line of a circuit, by the edge that they stand in. */
function breakersIn(build: Build): ReadonlyMap<number, Isolator> {
  const found = new Map<number, Isolator>();
  const guards = guardsOf(build);
  for (const view of build.circuits) {
    const c = guards.of(view);
    for (const { placed, end, part } of c?.guards ?? []) {
      if (placed?.given?.kind !== "breaker") continue;
      const marks = part === null ? undefined : build.part(part)?.part.marks;
      found.set(c?.edge[end] ?? -1, {
        name: `the breaker of ${view.id}`,
        about: view.subject.path,
        volts: marks?.dcVolts,
        poles: placed.given.poles ?? null,
      });
    }
  }
  return found;
}
