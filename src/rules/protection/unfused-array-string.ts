import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { arraysOf, type ArrayInput, type Modules } from "../charging/arrays.ts";
import { backFeed, BRIGHTER } from "../charging/string-formulas.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";
import { guardsOf } from "./guards.ts";

/** With so many strings, and nothing else that pushes, what one gets from the others is less than any module bears. */
const FEW = 2;

const array = (strings: number, module: string, controller = "", wire = "wire: 10 mm²"): string => `parts:
  MPPT: { kind: solar controller, output: 30 A${controller} }
  PV: { kind: solar module, rated: 200 W, Voc: 24.3 V, Vmp: 20.4 V, Isc: 10 A, strings in parallel: ${strings}${module} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m, ${wire}, fuse: none }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const unfusedArrayString = defineRule({
  id: "protection/unfused-array-string",
  title: "Unfused array string",
  severity: "must",
  danger: "the good strings roast the one that is shaded or shorted",
  why: `Strings side by side feed one that fails: (n − 1) × 1.25 × Isc, and whatever else stands on the same metal or behind a controller that lets its battery push back.
    That is no more than the largest fuse that the module's maker allows and than the string's own wire carries, or each string has a fuse of its own for direct current
    (\`string fuse\`, or a device in the circuit of an entry that is one string). One or two strings with nothing else behind them need none.`,
  silent: ["one or two strings without another source"],
  sources: [
    { cite: cite("nfpa-70-2023", "690.9(A)", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("iec-60364-7-712", "712.433", "memory"), sets: ["iec-cabin"] },
    { cite: cite("nfpa-70-2023", "690.9(A), as good practice elsewhere", "read") },
  ],
  messages: {
    module:
      "{place}: into a failed string {sources} push {measured}; its maker allows a fuse of {limit} at most, and its strings have none",
    wire: "{place}: into a failed string {sources} push {measured}; its wire carries {limit}, and its strings have no fuse",
    battery:
      "{place}: through {sources} the battery pushes into a failed string without limit, and its strings have no fuse",
  },
  cures: ["string-fuse"],
  examples: {
    good: [
      { says: "two strings", plan: array(2, "") },
      { says: "three strings that their modules bear", plan: array(3, ", largest fuse: 25 A") },
      {
        says: "four strings, each with a fuse",
        plan: array(4, ", largest fuse: 20 A, string fuse: { rated: 20 A, DC volts: 80 V }"),
      },
    ],
    bad: [
      { says: "four strings", plan: array(4, ", largest fuse: 20 A"), fails: "module", about: "parts.PV" },
      {
        says: "two strings on a controller that lets the battery back, which does not limit itself",
        plan: array(2, ", largest fuse: 20 A", ", back-feed: yes, self-limited: no"),
        fails: "battery",
        about: "parts.PV",
      },
      {
        says: "two pairs of thin wire",
        plan: array(2, "", "", "wire: 0.75 mm², strings: 2, parallel: 2"),
        fails: "wire",
        about: "parts.PV",
      },
      {
        says: "three strings, and what the module bears is not said",
        plan: array(3, ""),
        fails: "cannot tell",
        about: "parts.PV",
      },
    ],
  },
  judge(build, report) {
    const { modules, inputs } = arraysOf(build);
    for (const m of modules) judgeEntry(build, m, inputs, report);
  },
});

type Message = "module" | "wire" | "battery";

function judgeEntry(build: Build, m: Modules, inputs: readonly ArrayInput[], report: Report<Message>): void {
  const { subject } = m.view;
  const fuse = factsOf(m.view)["string fuse"];
  const outside = pushedFromOutside(build, m, inputs);
  const limit = saysFigure(factsOf(m.view), "largest fuse");
  const all = outside.strings + m.strings;
  if (all === 1 && outside.amps === 0) {
    report.notApplicable(subject, "one string, and nothing else pushes");
    return;
  }
  if (fuse !== undefined && fuse.value !== "unknown") {
    report.pass(subject);
    return;
  }
  const needs: Needed[] = [
    ...(fuse?.value === "unknown" ? [needed("whether its strings have fuses", subject)] : []),
    ...outside.needs,
    ...(m.isc.origin === "unknown" ? [needed(`Isc of ${m.view.id}`, subject)] : []),
  ];
  if (needs.length > 0) {
    report.cannotTell(subject, needs);
    return;
  }
  const amps = backFeed({ strings: m.strings, isc: m.isc.high, others: outside.amps });
  const words = { sources: outside.names.length > 0 ? outside.names.join(" and ") : "the others" };
  if (!Number.isFinite(amps)) {
    report.fail(subject, "battery", { words });
    return;
  }
  const said = (most: number) => ({ measured: amps, limit: most, unit: "A", margin: below(amps, most) }) as const;
  const wire = wireOfString(build, m);
  // A pair that all strings share carries only what comes from outside back into them.
  const intoWire = wire === null ? 0 : wire.isOwn ? amps : outside.amps;
  const isPlain = all <= FEW && !outside.isOther;
  if (typeof limit === "object" && amps > limit.high + 1e-9)
    report.fail(subject, "module", { ...said(limit.high), words });
  else if (wire !== null && intoWire > wire.amps + 1e-9)
    report.fail(subject, "wire", {
      measured: intoWire,
      limit: wire.amps,
      unit: "A",
      margin: below(intoWire, wire.amps),
      words,
    });
  else if (typeof limit === "object" && amps <= limit.low + 1e-9) report.pass(subject, said(limit.low));
  else if (isPlain) report.notApplicable(subject, "one or two strings, and nothing else pushes");
  else report.cannotTell(subject, [needed("the largest fuse that its maker allows", subject)]);
}

/** What pushes into an entry of modules beside its own strings. */
function pushedFromOutside(
  build: Build,
  m: Modules,
  inputs: readonly ArrayInput[],
): {
  readonly amps: number;
  readonly strings: number;
  /** Something that is no string of modules pushes too. */
  readonly isOther: boolean;
  readonly names: readonly string[];
  readonly needs: readonly Needed[];
} {
  const guards = guardsOf(build);
  const push = guards.push(m.plus, -1, "sure");
  const sources = new Set(push.sources.filter((s) => s !== m.view.id));
  const others = arraysOf(build).modules.filter(({ view }) => sources.has(view.id));
  const own = m.feed.amps.high;
  const beside = others.reduce((sum, o) => sum + o.feed.amps.high, 0);
  const rest = [...sources].filter((s) => !others.some((o) => o.view.id === s));
  const came = push.amps - own;
  // What a device on the way holds back is not brighter in brighter sun.
  const amps = rest.length > 0 ? came : came < beside - 1e-9 ? came : BRIGHTER * beside;
  const needs = inputs.flatMap(({ view }) =>
    sources.has(view.id) && saysYes(factsOf(view), "back-feed") === "unknown"
      ? [needed(`whether the battery can push back through ${view.id}`, view.subject)]
      : [],
  );
  return {
    amps: Math.max(0, amps),
    strings: others.reduce((sum, o) => sum + o.strings, 0),
    isOther: rest.length > 0,
    names: [...(m.strings > 1 ? ["the others"] : []), ...sources],
    needs,
  };
}

/** The wire that the strings of an entry leave by: what one pair carries, and whether each string has a pair of its own. Null: not known, or none. */
function wireOfString(build: Build, m: Modules): { readonly amps: number; readonly isOwn: boolean } | null {
  const c = build.circuits.find(({ circuit }) => [circuit.from.part, circuit.to.part].includes(m.view.id));
  const amps = c?.design.ampacityA ?? null;
  if (c === undefined || amps === null) return null;
  const { parallel } = c.circuit;
  const pairs = c.plan?.facts.strings?.value;
  const isOwn = m.strings === 1 || (parallel > 1 && pairs === parallel && parallel === m.strings);
  return isOwn ? { amps: amps / parallel, isOwn } : { amps, isOwn };
}
