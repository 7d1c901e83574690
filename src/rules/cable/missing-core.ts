import { cite } from "../../explain/index.ts";
import type { CircuitView } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { coresNeeded, coresThere } from "./count-cores.ts";

export const missingCore = defineRule({
  id: "cable/missing-core",
  title: "Missing core",
  severity: "must",
  danger: "whoever lays the cable makes the earth do the work of a live core, or leaves the earth out",
  why: `Each thing that a circuit has to do needs a core of its own: plus and minus, or line, neutral and earth. They are counted by what they do, never by
    the second figure of a name: \`12/2\` is two conductors on a boat and three in a wall. A green or green-yellow core is there for the earth alone; a bare
    or concentric one is counted as an earth, and nothing else. Circuits that share a cable are counted together.`,
  silent: [
    "circuits without a cable of their own or a shared one",
    "cables of a single core, of which each conductor has its own",
  ],
  sources: [{ cite: cite("trade-practice", "cores by function; what the count of a cable's name covers", "article") }],
  messages: {
    short: "{place} needs {needs}, and {cable} has {has}",
    earth: "{place} needs a core for the protective conductor, and {cable} has none that may be one",
  },
  cures: ["more-cores"],
  examples: {
    good: [
      {
        says: "two cores for plus and minus",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 14/2 boat duplex }",
      },
      {
        says: "four cores for two circuits",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 4x2.5 mm² H07RN-F, in cable: C1 }\n  W11: { path: PNL:2 → fridge, length: 4 m, in cable: C1 }",
      },
    ],
    bad: [
      {
        says: "an earth that is not there",
        plan: 'circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 14/2 boat duplex, cores: ["+", "−", PE] }',
        fails: "earth",
        about: "circuits.W10",
      },
      {
        says: "two circuits through two cores",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 2x2.5 mm² H07RN-F, in cable: C1 }\n  W11: { path: PNL:2 → fridge, length: 4 m, in cable: C1 }",
        fails: "short",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit } = c;
      const { cable } = circuit;
      if (cable === undefined) report.notApplicable(subject, "the plan names no cable");
      else if (cable.circuits[0] !== c.id)
        report.notApplicable(subject, "it is counted with the first circuit of its cable");
      else if (cable.label === null) {
        // What is written and cannot be read is the matter of another rule.
        if (cable.isUnclear) report.notApplicable(subject, "its cable is asked back where it is written");
        else report.cannotTell(subject, [needed("the make-up of its cable", subject)]);
      } else if (cable.label.cores.total <= 1)
        report.notApplicable(subject, "each of its conductors is a cable of one core");
      else {
        const together = cable.circuits.flatMap((id) => build.circuit(id) ?? []);
        judgeCores(c, together, report);
      }
    }
  },
});

function judgeCores(
  { subject, circuit }: CircuitView,
  together: readonly CircuitView[],
  report: Report<"short" | "earth">,
): void {
  const label = circuit.cable?.label;
  if (label == null) return;
  const needs = coresNeeded(together);
  const has = coresThere(label);
  const cable = `“${label.label}”`;
  const live = {
    measured: has.live.high,
    limit: needs.live,
    unit: "count",
    margin: has.live.high / needs.live - 1,
  } as const;
  const words = {
    needs: sayCores(together, needs.live, needs.earth),
    cable,
    has: sayHas(has.live.low, has.live.high, has.earth),
  };
  if (has.live.high < needs.live) report.fail(subject, "short", { ...live, words });
  else if (needs.earth && has.earth === false) report.fail(subject, "earth", { words });
  else if (has.live.low < needs.live || (needs.earth && has.earth === "not stated"))
    report.cannotTell(subject, [needed(`whether one of the cores of ${cable} is an earth`, subject)]);
  else report.pass(subject, live);
}

function sayCores(together: readonly CircuitView[], live: number, earth: boolean): string {
  const of = together.length > 1 ? ` for ${together.length} circuits` : "";
  return `${live} ${live === 1 ? "core" : "cores"}${of}${earth ? " and an earth" : ""}`;
}

const sayHas = (low: number, high: number, earth: boolean | "not stated"): string =>
  `${low === high ? high : `${low} or ${high}`}${earth === true ? " beside its earth" : ""}`;
