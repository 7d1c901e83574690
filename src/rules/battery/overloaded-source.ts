import { cite } from "../../explain/index.ts";
import { givesIn, mayWork, suppliedIn, type GivenState, type Value } from "../../system/index.ts";
import { linesOf, lineVoltsOf, plugsOf } from "../ac/inlets.ts";
import type { Build, Subject } from "../build.ts";
import { figure, type FigureUnit } from "../figure.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { coreOf, followAlternating, momentName, walkAlternating, type OnAlternating } from "./alternating-demand.ts";
import { directDemands, type Asked } from "./direct-demand.ts";

const ac =
  "systems:\n  DC: { kind: DC, nominal: 12 V, return: BN }\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nrules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\n";
const inverter = (facts: string, load: string): string =>
  `${ac}parts:\n  INV: { kind: inverter, efficiency: 90 %, ${facts} }\n  kettle: { kind: load, ${load} }\ncircuits:\n  W20: { path: BP → INV:in, length: 1 m }\n  W21: { path: INV:out → kettle, length: 3 m }\nstates:\n  tea: { on: [INV, kettle, lamp], charge: 40 % }`;
const inlet = (rated: string): string =>
  `${ac}parts:\n  INL: { kind: shore inlet${rated} }\n  heater: { kind: load, running: 10 A }\ncircuits:\n  W20: { path: INL → heater, length: 3 m }\nstates:\n  alongside: { shore: in, on: [heater], charge: 40 % }`;
const converter = (output: string): string =>
  `systems:\n  DC: { kind: DC, nominal: 12 V, return: BN }\n  DC24: { kind: DC, nominal: 24 V, return: BN }\nrules: { DC: iso-small-craft 2020+A1:2022, DC24: iso-small-craft 2020+A1:2022 }\nparts:\n  CONV: { kind: DC-DC converter, nominal: 24 V, output: ${output} }\n  radio: { kind: load, running: 6 A }\ncircuits:\n  W20: { path: BP → CONV:in, length: 1 m }\n  W21: { path: CONV:out → radio, length: 3 m }\nstates:\n  at anchor: { on: [radio], charge: 40 % }`;

export const overloadedSource = defineRule<Message>({
  id: "battery/overloaded-source",
  title: "Overloaded source",
  severity: "must",
  danger: "the source trips at the worst moment, or cooks",
  why: `What hangs on an inverter, a converter, a charger or a supply from outside asks for no more than its rating: everything that is on in any state, and
    the largest load that it can reach alone. Where the plan gives no states, all that it can reach is taken to be on together, save what never is. While a load starts, an inverter gives its surge. Alternating current is counted in volt-amperes: watts
    at the power factor that a load states, else at 1. Of several lines each is judged by itself: amps are those of a line, and a rating in watts is taken to be shared out evenly among the lines, so that on each of two
    there is half of it; where an inverter has both its lines in phase, either gives all.`,
  silent: [
    "a source with a battery beside it, which gives what the source does not",
    "solar modules, and supplies that no state plugs in",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "710.15(A)", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "no more on a source than its rating", "practice") },
    { cite: cite("trade-practice", "half the rating of a split-phase source on each line", "practice") },
  ],
  messages: {
    overloaded: "{place} is asked for {measured}{on} ({state}); it is rated {limit}",
    starts: "{place} is asked for {measured}{on} while something starts ({state}); it gives {limit} for that time",
    share:
      "{place} is asked for {measured}{on} ({state}); it is rated {rating}, which is {limit} on each of its {lines} lines",
    "share starts":
      "{place} is asked for {measured}{on} while something starts ({state}); for that time it gives {rating}, which is {limit} on each of its {lines} lines",
  },
  cures: ["stagger", "larger-part"],
  examples: {
    good: [
      { says: "no source but a battery", plan: "" },
      { says: "a kettle within the rating", plan: inverter("rated: 2 kVA", "rated: 2 kW, running: 2 kW") },
      { says: "a start within the surge", plan: inverter("rated: 1 kVA, surge: 2 kVA", "running: 3 A, starting: 8 A") },
      { says: "an inlet of 16 A", plan: inlet(", rated: 16 A") },
      { says: "a converter of 10 A", plan: converter("10 A") },
    ],
    bad: [
      {
        says: "a kettle above the rating",
        plan: inverter("rated: 1.5 kVA", "running: 2 kW"),
        fails: "overloaded",
        about: "parts.INV",
      },
      {
        says: "a start above the surge",
        plan: inverter("rated: 1 kVA, surge: 1.5 kVA", "running: 3 A, starting: 8 A"),
        fails: "starts",
        about: "parts.INV",
      },
      {
        says: "a start above the rating, and nobody says what the surge is",
        plan: inverter("rated: 1 kVA", "running: 3 A, starting: 8 A"),
        fails: "cannot tell",
        about: "parts.INV",
      },
      {
        says: "an isolation transformer of 6 A",
        plan: `${ac}parts:\n  INL: { kind: shore inlet, rated: 16 A }\n  IT: { kind: isolation transformer, rated: 6 A, neutral–earth join: always }\n  heater: { kind: load, running: 10 A }\ncircuits:\n  W20: { path: INL → IT:in, length: 1 m }\n  W21: { path: IT:out → heater, length: 3 m }\nstates:\n  alongside: { shore: in, on: [heater], charge: 40 % }`,
        fails: "overloaded",
        about: "parts.IT",
      },
      { says: "an inlet of 6 A", plan: inlet(", rated: 6 A"), fails: "overloaded", about: "parts.INL" },
      { says: "an inlet of unknown rating", plan: inlet(", rated: unknown"), fails: "cannot tell", about: "parts.INL" },
      { says: "a converter of 5 A", plan: converter("5 A"), fails: "overloaded", about: "parts.CONV" },
    ],
  },
  judge(build, report) {
    const told = new Set<string>();
    judgeAlternating(build, report, told);
    for (const source of directDemands(build)) {
      const subject = build.part(source.part)?.subject;
      if (subject === undefined || told.has(source.part)) continue;
      told.add(source.part);
      if (typeof source.asks === "string") report.notApplicable(subject, source.asks);
      else if (source.limit.origin === "unknown") report.cannotTell(subject, [needed("its rated output", subject)]);
      else if (source.unknown.length > 0) report.cannotTell(subject, source.unknown);
      else tell(report, subject, source.asks, source.limit, "A");
    }
  },
});

type Message = "overloaded" | "starts" | "share" | "share starts";

/** A line's share of a rating. */
const shared = ({ low, high, origin }: Value, lines: number): Value => ({
  low: low / lines,
  high: high / lines,
  origin,
});

/** Tells what of all that is asked comes nearest to what a source gives, or goes furthest beyond. */
function tell(
  report: Report<Message>,
  subject: Subject,
  asks: readonly Asked[],
  limit: Value,
  unit: FigureUnit,
  /** Lines that a rating is shared out among, of which the limit is one share. */
  lines = 1,
): void {
  const [first] = asks;
  if (first === undefined) {
    report.notApplicable(subject, "nothing hangs on it");
    return;
  }
  const worst = asks.reduce((a, b) => (b.amount > a.amount ? b : a));
  const steady = asks.filter((a) => !a.isStart).reduce((a, b) => (b.amount > a.amount ? b : a), first);
  const shown = steady.amount > limit.high ? steady : worst;
  const said = {
    measured: shown.amount,
    limit: limit.low,
    unit,
    margin: below(shown.amount, limit.low),
    state: shown.state,
  };
  const words = {
    rating: figure(limit.low * lines, unit),
    lines: `${lines}`,
    on: shown.line === undefined ? "" : ` on ${shown.line}`,
  };
  if (shown.amount > limit.high && lines > 1)
    report.fail(subject, shown.isStart ? "share starts" : "share", { ...said, words });
  else if (shown.amount > limit.high) report.fail(subject, shown.isStart ? "starts" : "overloaded", { ...said, words });
  else if (shown.amount > limit.low) report.cannotTell(subject, [needed("its rated output, closer", subject)], said);
  else report.pass(subject, said);
}

function judgeAlternating(build: Build, report: Report<Message>, told: Set<string>): void {
  const { system, settled } = build;
  const inverters = settled.model.grid.draws.flatMap(({ inverter }) => inverter ?? []);
  const sourceOf = ({ elements }: Build["parts"][number]) => elements.find((e) => e.is === "source");
  const entries = [
    ...build.parts.flatMap((view) => (view.part.traits.enters === true ? [{ view, source: sourceOf(view) }] : [])),
    ...plugsOf(build),
  ];
  if (inverters.length === 0 && entries.length === 0) return;
  // What a transformer gives it is led by an entry.
  const transformers = build.parts.flatMap((view) => {
    const source = sourceOf(view);
    return source?.is === "source" && source.from === "transformer" ? [{ view, source }] : [];
  });
  const walk = walkAlternating(system);
  const isLed = (near: readonly string[], state: GivenState): boolean =>
    entries.some(({ view, source }) => {
      if (source?.is !== "source" || !givesIn(state, view.part.id, system)) return false;
      const reached = walk(linesOf(source), state);
      return near.some((t) => reached.has(t));
    });
  const follow = followAlternating(system);
  const may = mayWork(system);
  const supplied = suppliedIn(system);

  for (const inverter of inverters) {
    const subject = build.part(inverter.part)?.subject;
    if (subject === undefined) continue;
    told.add(inverter.part);
    const { amps, volts, surgeWatts, surgeSeconds } = inverter;
    const out = inverter.outLines ?? [inverter.outPlus];
    // What swings together is one output on both lines.
    const judged = inverter.linesInPhase === true ? [out] : out.map((line) => [line]);
    const lines = judged.length;
    const rated = shared({ low: amps.low * volts.low, high: amps.high * volts.high, origin: amps.origin }, lines);
    const asks: Asked[] = [];
    const unknown = new Map<string, Needed>();
    for (const state of system.states) {
      // What comes in from outside it passes on.
      const isPassing = inverter.passesFrom !== undefined && supplied(state)(inverter.passesFrom);
      if (isPassing || !may(inverter, state)) continue;
      for (const from of judged) {
        const list = follow(from, state).filter((l) => l.part !== inverter.part);
        noteUnknown(build, list, unknown);
        asks.push(...askedOf(list, momentName(state), surgeSeconds, lines > 1 ? from[0] : undefined));
      }
    }
    const start = asks.filter((a) => a.isStart).reduce((most, a) => Math.max(most, a.amount), 0);
    const steady = asks.filter((a) => !a.isStart);
    const overloaded = steady.some((a) => a.amount > rated.low);
    if (rated.origin === "unknown") report.cannotTell(subject, [needed("its rated output", subject)]);
    else if (overloaded) tell(report, subject, steady, rated, "VA", lines);
    else if (unknown.size > 0) report.cannotTell(subject, [...unknown.values()]);
    else if (start <= rated.low) tell(report, subject, asks, rated, "VA", lines);
    else if (surgeWatts === undefined || surgeWatts === "unknown")
      report.cannotTell(subject, [needed("its surge", subject)]);
    else if (start <= surgeWatts.low / lines) tell(report, subject, steady, rated, "VA", lines);
    else
      tell(
        report,
        subject,
        asks.filter((a) => a.isStart),
        shared(surgeWatts, lines),
        "VA",
        lines,
      );
  }

  for (const { view, source } of [...entries, ...transformers]) {
    const { part, subject } = view;
    told.add(part.id);
    // Its own terminals: a breaker that is written in the line stands between them and the conductors.
    const isWired = system.circuits.some((c) => c.from.part === part.id || c.to.part === part.id);
    const lines = source?.is === "source" && isWired ? linesOf(source) : [];
    const volts = source?.is === "source" ? lineVoltsOf(source) : 0;
    const near = source?.is === "source" && source.from === "transformer" ? (source.fedBy ?? []) : null;
    const states = system.states.filter((s) => (near === null ? givesIn(s, part.id, system) : isLed(near, s)));
    const gives = source?.is === "source" ? source.gives : undefined;
    if (states.length === 0 || lines.length === 0) {
      report.notApplicable(subject, near === null ? "no state plugs it in" : "no state leads a supply to it");
      continue;
    }
    if (gives === undefined || gives === "unknown") {
      report.cannotTell(subject, [needed("its rating", subject)]);
      continue;
    }
    const per = gives.unit === "A" ? volts : 1;
    // Amps are those of a line; watts are shared out.
    const shares = gives.unit === "A" ? 1 : lines.length;
    const limit = shared(gives.value, shares / per);
    const unknown = new Map<string, Needed>();
    const moments = states.flatMap((state) => lines.map((line) => ({ state, line })));
    const asks = moments.map(({ state, line }) => {
      const list = follow([line], state).filter((l) => l.isOn);
      noteUnknown(build, list, unknown);
      const sum = (of: (l: OnAlternating) => number): number => list.reduce((all, l) => all + of(l), 0);
      return {
        amount: sum((l) => l.low),
        most: sum((l) => l.high),
        state: momentName(state),
        line: lines.length > 1 ? coreOf(line) : undefined,
        isStart: false,
        list,
      };
    });
    const worst = asks.reduce((a, b) => (b.most > a.most ? b : a));
    const open = worst.list.filter((l) => l.low < l.high);
    const inAmps = (list: readonly Asked[]): Asked[] => list.map((a) => ({ ...a, amount: a.amount / per }));
    const [shown, unit] = gives.unit === "A" ? [gives.value, "A" as const] : [limit, "VA" as const];
    if (asks.some((a) => a.amount > limit.high)) tell(report, subject, inAmps(asks), shown, unit, shares);
    else if (unknown.size > 0) report.cannotTell(subject, [...unknown.values()]);
    else if (worst.most > limit.low)
      report.cannotTell(
        subject,
        open.map((l) => needed(`the charger input of ${l.part}`, build.part(l.part)?.subject ?? subject)),
        {
          measured: worst.most / per,
          limit: shown.low,
          unit,
          margin: below(worst.most, limit.low),
          state: worst.state,
        },
      );
    else tell(report, subject, inAmps(asks.map((a) => ({ ...a, amount: a.most }))), shown, unit, shares);
  }
}

/** What is on together in a state, with each load's start; and the largest that can be reached, alone. */
function askedOf(
  list: readonly OnAlternating[],
  state: string,
  surgeSeconds: Value | "unknown" | undefined,
  terminal: string | undefined,
): readonly Asked[] {
  const on = list.filter((l) => l.isOn);
  const together = on.reduce((sum, l) => sum + l.high, 0);
  // A start that outlasts the surge is borne by the rating.
  const bornByRating = (l: OnAlternating): boolean =>
    surgeSeconds !== undefined && surgeSeconds !== "unknown" && l.startSeconds > surgeSeconds.high;
  const line = terminal === undefined ? undefined : coreOf(terminal);
  const asks: Asked[] = [
    ...(on.length > 0 ? [{ amount: together, state, isStart: false }] : []),
    ...on
      .filter((l) => l.start > l.high)
      .map((l) => ({
        amount: together - l.high + l.start,
        state: `${l.part} starting, ${state}`,
        isStart: !bornByRating(l),
      })),
    ...list.map((l) => ({ amount: l.high, state: `${l.part} alone`, isStart: false })),
    ...list
      .filter((l) => l.start > l.high)
      .map((l) => ({ amount: l.start, state: `${l.part} starting alone`, isStart: !bornByRating(l) })),
  ];
  return asks.map((a) => ({ ...a, line }));
}

function noteUnknown(build: Build, list: readonly OnAlternating[], into: Map<string, Needed>): void {
  for (const { part, isUnknown } of list)
    if (isUnknown) into.set(part, needed(`what ${part} takes`, build.part(part)?.subject ?? `parts.${part}`));
}
