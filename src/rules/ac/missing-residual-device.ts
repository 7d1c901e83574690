import { cite } from "../../explain/index.ts";
import type { SwitchingGroup, TakerState } from "../../switching/index.ts";
import type { Build, Subject } from "../build.ts";
import { defineRule } from "../rule.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import { guardInWords, mainInWords } from "./guard-place.ts";
import {
  blindedAt,
  demandAhead,
  guardsOf,
  isGuarded,
  BORROWS,
  borrows,
  SEES_NOTHING,
  standingOf,
  THIRTY,
  unsureGuard,
  type Blinded,
} from "./guarded.ts";
import { mayFloat } from "./missing-neutral-earth-join.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

const ASKS: ReadonlySet<RuleSetId> = new Set<RuleSetId>(["us-small-craft", "iso-small-craft", "iec-caravan", "au-nz-vehicle", "iec-cabin"]); // prettier-ignore

const bare = (main: string): string =>
  `kind: consumer unit, main: { poles: 2, rated: 16 A${main} }, ways: { 1: breaker 10 A 2-pole }`;

export const missingResidualDevice = defineRule({
  id: "ac/missing-residual-device",
  title: "Missing residual device",
  severity: "must",
  danger: "current through a person, or into the water around swimmers, goes on for as long as it can",
  why: `On boats, in caravans and vehicles whatever mains feeds lies behind a residual device of at most 30 mA in all live poles; in an iec-cabin the outlets do. Under us-small-craft the device stands at the main of shore
    power, and an isolation transformer at the inlet may stand in for it. Where an inlet on board feeds nothing that is guarded, it is told once, of the inlet. A device counts where it sees leakage: neutral through it, the join of neutral and earth ahead of it. One inside an outlet guards what is
    plugged in there, and counts where the set asks for the outlets alone. What is asked where you are is for a
    licensed electrician to say.`,
  silent: [
    "us-cabin and us-rv, which ask by the place of the outlet: see unguarded-outlet",
    "us-small-craft: what no shore power feeds, or only through an isolation transformer",
    "iec-cabin: what is no outlet",
    "what only a source feeds that is joined to earth nowhere: its residual devices see nothing of a first fault, and missing-neutral-earth-join tells whether that may be",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.11.1", "read"), sets: ["us-small-craft"] },
    { cite: cite("iec-60364-7-721", "721.415.1", "article"), sets: ["iec-caravan"] },
    { cite: cite("iec-60364-4-41", "411.3.3", "article"), sets: ["iec-cabin"] },
    { cite: cite("as-nzs-3001-2-2022", "AS/NZS 3000 2.6.3", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("iso-13297-2020", "residual devices", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "30 mA ahead of what people touch", "practice") },
  ],
  messages: {
    inlet:
      "with {state}, no residual device of 30 mA or less that works lies ahead of anything that {place} feeds; one goes into {where}; the way there: {steps}",
    bare: "with {state}, no residual device of 30 mA or less that works lies ahead of {place}; one goes into {where}; the way there: {steps}",
    blind:
      "with {state}, {device} lies ahead of {place} and sees no fault: neutral and earth are joined behind it, in {joins}; open that join, or move it into the source; the way there: {steps}",
  },
  cures: ["unblind", "main-guard", "source-guard", "way-guard", "outlet-guard"],
  examples: {
    good: [
      { says: "30 mA in the main", plan: shoreAndInverter() },
      {
        says: "a way of one switched pole, with neutral through its 30 mA",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            CU: "kind: consumer unit, main: { poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 30 mA }",
          },
        }),
      },
      {
        says: "an isolation transformer on an American boat",
        plan: oneSource({
          set: "us-small-craft ABYC E-11",
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            T1: "kind: isolation transformer, rated: 3600 VA, neutral–earth join: always",
            CU: bare(""),
          },
          circuits: { W20: "path: INL → T1:in, length: 1 m", W21: "path: T1:out → CU:in, length: 1 m" },
        }),
      },
      {
        says: "one inside an outlet of a cabin, which asks for outlets",
        plan: oneSource({
          set: "iec-cabin",
          parts: {
            GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
            CU: bare(""),
            sockets: "kind: outlet, running: 3 A, residual device: 30 mA",
          },
          circuits: { W20: "path: GEN → CU:in, length: 1 m" },
        }),
      },
      {
        says: "30 mA behind the floating side of an isolation transformer sees nothing, and is neither enough nor too little",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            T1: "kind: isolation transformer, rated: 3600 VA, neutral–earth join: never",
            CU: bare(", residual device: 30 mA"),
          },
          circuits: { W20: "path: INL → T1:in, length: 1 m", W21: "path: T1:out → CU:in, length: 1 m" },
        }),
      },
      {
        says: "an American cabin, which asks by place",
        plan: oneSource({ set: "us-cabin NEC 2023", parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare("") } }),
      },
    ],
    bad: [
      {
        says: "a bare outlet in a cabin",
        plan: oneSource({
          set: "iec-cabin",
          parts: { GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth", CU: bare("") },
          circuits: { W20: "path: GEN → CU:in, length: 1 m" },
        }),
        fails: "bare",
        about: "parts.sockets",
      },
      {
        says: "none",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare("") } }),
        fails: "inlet",
        about: "parts.INL",
      },
      {
        says: "one of 300 mA",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare(", residual device: 300 mA") } }),
        fails: "inlet",
        about: "parts.INL",
      },
      {
        says: "one inside the only outlet of a caravan, and nothing at its supply",
        plan: oneSource({
          set: "iec-caravan",
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            CU: bare(""),
            sockets: "kind: outlet, running: 3 A, residual device: 30 mA",
          },
        }),
        fails: "inlet",
        about: "parts.INL",
      },
      {
        says: "5 mA inside the only outlet of an American boat, and nothing at its shore power",
        plan: oneSource({
          set: "us-small-craft ABYC E-11",
          system: "kind: AC, nominal: 120 V, frequency: 60 Hz, cores: [L, N, PE]",
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            CU: bare(""),
            sockets: "kind: outlet, running: 3 A, residual device: 5 mA",
          },
        }),
        fails: "inlet",
        about: "parts.INL",
      },
      {
        says: "a join in the board, behind its main of 30 mA",
        plan: oneSource({
          set: "iec-cabin",
          parts: {
            GEN: "kind: generator, rated: 2 kVA, neutral: floating",
            CU: bare(", residual device: 30 mA").replace("unit,", "unit, neutral–earth join: always,"),
          },
          circuits: { W20: "path: GEN → CU:in, length: 1 m" },
        }),
        fails: "blind",
        about: "parts.sockets",
      },
      {
        says: "nobody knows at what it opens",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare(", residual device: unknown") } }),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const guards = guardsOf(build);
    const sources = sourcesOf(build);
    const found = [...takersOf(build)].map(([id, taker]): Found => {
      const subject = alternatingPart(build, taker.part);
      const exempt = exemption(build, subject.set, taker.part);
      const demand = demandAhead(subject.set);
      const standing = demand === null ? undefined : standingOf(demand);
      const bare: Bare[] = [];
      let some = false;
      let unseen = false;
      let borrowed = false;
      for (const state of exempt === null ? statesOf(build) : []) {
        const at = state.takers.find((t) => t.taker === id);
        if (at === undefined || !isFed(at, taker)) continue;
        const shore = at.sources.filter((s) => sources.get(s)?.kind === "shore");
        if (subject.set === "us-small-craft" && shore.length === 0) continue;
        const is = isGuarded(at, guards, THIRTY, standing);
        if (is === true) some = true;
        else if (is === false && borrows(at, guards, THIRTY)) borrowed = true;
        else if (is === "no join" || (is === false && floats(build, state, at))) unseen = true;
        else bare.push({ state, shore, unsure: is, blinded: blindedAt(state, at, guards, THIRTY, sources) });
      }
      // Guarded with one source and bare with another: the rule of skipped devices tells it.
      const why = exempt ?? (unseen && !some ? SEES_NOTHING : borrowed && !some && bare.length === 0 ? BORROWS : null);
      return { id, part: taker.part, subject, exempt: why, bare: some ? [] : bare, fedFrom: fedFrom(build, id) };
    });
    const inlets = [...sources].filter(([id, { kind }]) => kind === "shore" && isBareInlet(id, found));
    const told = new Set(inlets.map(([id]) => id));
    const verdicts = inlets.map(([id, { part }]) => {
      const verdict = verdictOn<Message>(alternatingPart(build, part));
      const where = mainInWords(build, part);
      for (const { bare } of found) tellBare(verdict, "inlet", bare.filter(({ shore }) => shore.includes(id)), where); // prettier-ignore
      verdict.faults.sort((a, b) => a.state.number - b.state.number);
      return verdict;
    });
    for (const { id, part, subject, exempt, bare } of found) {
      const verdict = verdictOn<Message>(subject);
      const own = bare.filter(({ shore }) => !shore.some((s) => told.has(s)));
      verdict.exempt = exempt ?? (own.length < bare.length ? "it is told of the inlet that feeds it" : null);
      tellBare(verdict, "bare", own, guardInWords(build, part), id);
      verdicts.push(verdict);
    }
    tellStates(build, report, verdicts);
  },
});

type Message = "inlet" | "bare" | "blind";

/** A state in which nothing, or nobody knows what, guards a taker. */
interface Bare {
  readonly state: SwitchingGroup;
  /** Supplies ashore that feed it there. */
  readonly shore: readonly string[];
  /** What nobody knows of a device that is there; false: none is. */
  readonly unsure: Exclude<ReturnType<typeof isGuarded>, true | "no join">;
  /** A device that would do, were there no join behind it: what is amiss is not at the inlet. */
  readonly blinded: Blinded | null;
}

interface Found {
  readonly id: string;
  readonly part: string;
  readonly subject: Subject;
  readonly exempt: string | null;
  readonly bare: readonly Bare[];
  /** Sources that feed it in some state. */
  readonly fedFrom: ReadonlySet<string>;
}

/** Whether nothing that feeds a taker is joined to earth, as its set allows. */
function floats(build: Build, { islands }: SwitchingGroup, { sources }: TakerState): boolean {
  const own = islands.filter((i) => i.sources.some((s) => sources.includes(s)));
  return own.length > 0 && own.every((i) => i.joinsHigh === 0 && mayFloat(build, i.sources));
}

const fedFrom = (build: Build, id: string): ReadonlySet<string> =>
  new Set(statesOf(build).flatMap(({ takers }) => takers.find((t) => t.taker === id)?.sources ?? []));

/** Whether a device at the inlet is what lacks: the sets of all it feeds ask for one there, and it feeds nothing that is guarded. */
function isBareInlet(inlet: string, found: readonly Found[]): boolean {
  const behind = found.filter(({ fedFrom }) => fedFrom.has(inlet));
  const lacks = ({ subject, bare }: Found): boolean =>
    subject.set !== "iec-cabin" && bare.some(({ shore, blinded }) => shore.includes(inlet) && blinded === null);
  return behind.length > 0 && behind.every(lacks);
}

function tellBare(
  verdict: StateVerdict<Message>,
  message: Message,
  bare: readonly Bare[],
  /** Where a device for it goes. */
  where: string,
  taker?: string,
): void {
  for (const { state, unsure, blinded } of bare) {
    if (unsure !== false) verdict.needs.push(unsureGuard(unsure, verdict.subject));
    else if (blinded !== null)
      verdict.faults.push({ message: "blind", state, said: { words: { ...blinded } }, ...(taker === undefined ? {} : { taker }) }); // prettier-ignore
    else verdict.faults.push({ message, state, said: { words: { where } }, ...(taker === undefined ? {} : { taker }) });
  }
}

function exemption(build: Build, set: RuleSetId | null, part: string): string | null {
  if (set === null || !ASKS.has(set)) return "its rule set does not ask for it, or asks by place";
  const isOutlet = build.part(part)?.part.traits.outlet === true;
  return set === "iec-cabin" && !isOutlet ? "it is no outlet" : null;
}
