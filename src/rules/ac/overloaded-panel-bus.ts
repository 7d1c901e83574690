import { cite } from "../../explain/index.ts";
import { saySteps, sayState } from "../../switching/index.ts";
import type { Build, PartView, Subject } from "../build.ts";
import { figure } from "../figure.ts";
import { nameSome } from "../battery/name-some.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";
import { fedBuses, ratingsOfWays, type BusFeed, type FedBus } from "./bus-feeds.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { alternatingPart, switchingOf } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

/** The share of its bar's rating that an American code allows where what feeds it sits at opposite ends. */
const OPPOSITE = 1.2;
/** What that code reckons the output of an inverter with. */
const CONTINUOUS = 1.25;

/** A generator on the main of a board, and an inverter that gives beside it on a way. */
const beside = (facts: string, { main = "60 A", more = ", 3: breaker 60 A" } = {}): string =>
  shoreAndInverter({
    set: "us-cabin NEC 2023",
    system: "kind: AC, nominal: 120 V, cores: [L, N, PE]",
    parts: {
      INL: null,
      GEN: "kind: generator, rated: 9 kVA, neutral: joined to earth",
      CU: `kind: load centre, main: breaker ${main} 2-pole, ways: { 1: breaker 15 A, 2: breaker 40 A${more} }, back-fed held: yes${facts}`,
      INV: "kind: inverter/charger, rated: 3600 VA, charging: 30 A, neutral–earth join: never, adds to shore: yes",
      TS: null,
    },
    circuits: {
      W20: "path: GEN → CU:in, length: 2 m",
      W21: "path: CU:1 → sockets, length: 3 m",
      W22: "path: INV:out → CU:2, length: 1 m",
      W23: null,
    },
  });

export const overloadedPanelBus = defineRule({
  id: "ac/overloaded-panel-bus",
  title: "Overloaded panel bus",
  severity: { otherwise: "should", sets: { "us-cabin": "must" } },
  danger:
    "two sources together push more through the bars of a board than either of their breakers would let pass, and nothing opens",
  why: `A bar carries what all that feeds it can give at once, in the worst state that switches and relays can come to. The American code for buildings reckons an inverter with 1.25 times its output: together with the device of
    the main it stays within the rating of the bar, or within 1.2 times that rating where the two sit at opposite ends, marked not to be moved; or all devices but the main add up to no more than the bar is
    rated for.`,
  silent: [
    "boards of which no rating is stated; under us-cabin it is asked for where sources feed together",
    "sources that must never feed together: parallel-sources tells those",
    "sources that a transfer switch or an interlock keeps apart: each counts by itself",
    "what feeds a bar without a device and without a stated rating, where it feeds alone",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "705.12", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "a bar carries the sum of what feeds it", "derived") },
  ],
  messages: {
    sum: "the bar of {place} can be fed with {measured} by {sources}; it is rated {limit}{code}; with {state}, the way there: {steps}",
  },
  cures: ["larger-part"],
  examples: {
    good: [
      { says: "within its rating", plan: beside(", rated: 100 A") },
      { says: "opposite ends", plan: beside(", rated: 85 A, fed from both ends: yes") },
      { says: "all devices but the main", plan: beside(", rated: 60 A", { more: "" }) },
      {
        says: "one at a time",
        plan:
          beside(", rated: 50 A", { main: "50 A" }).replace("adds to shore: yes", "adds to shore: no") +
          "\ninterlocks:\n  slide: { never: [CU:main on, CU:2 on] }",
      },
      {
        says: "nobody says what it bears, and one source feeds it",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }),
      },
    ],
    bad: [
      {
        says: "a main and an inverter side by side",
        plan: beside(", rated: 85 A"),
        fails: "sum",
        about: "parts.CU",
      },
      {
        says: "a main above the rating",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 32 A",
            CU: "kind: consumer unit, rated: 20 A, main: breaker 32 A 2-pole, ways: { 1: breaker 10 A 2-pole }",
          },
        }),
        fails: "sum",
        about: "parts.CU",
      },
      { says: "two together on a bar of no stated rating", plan: beside(""), fails: "cannot tell", about: "parts.CU" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    for (const view of build.parts) {
      if (
        view.part.current === "AC" &&
        view.part.traits.distributes === true &&
        view.part.traits.dropUse === "panel feeder"
      )
        judgeBoard(build, view, report);
    }
  },
});

/** What a bar is asked for by one way of reckoning, and the share of its rating that this way allows. */
interface Reckoned {
  readonly amps: number;
  readonly share: number;
}

function judgeBoard(build: Build, view: PartView, report: Report<"sum">): void {
  const subject = alternatingPart(build, view.id);
  const rated = saysFigure(factsOf(view), "rated");
  // Without a rating only what feeds together is asked for one, and one source feeds nothing together.
  if (rated === undefined && sourcesOf(build).size < 2) {
    report.notApplicable(subject, "the rating of its bar is not stated");
    return;
  }
  // Sources that must never meet are told as such, and not what they would do to a bar.
  const fed = fedBuses(build, view).filter(({ state }) => state.parallel.every((p) => p.lawful === true));
  const together = fed.filter(({ feeds }) => feeds.flatMap((f) => f.sources).length > 1);
  if (rated === undefined || rated === "unknown") {
    if (rated === undefined && (together.length === 0 || subject.set !== "us-cabin"))
      report.notApplicable(subject, "the rating of its bar is not stated");
    else report.cannotTell(subject, [needed("what its bar is rated for", subject)]);
    return;
  }
  let isTold = false;
  for (const bus of fed) isTold = judgeBus(build, view, subject, bus, rated.low, report) || isTold;
  if (!isTold)
    report.notApplicable(
      subject,
      fed.length === 0 ? "nothing feeds it" : "what feeds it states no rating and has no device",
    );
}

/** @returns whether something was told */
function judgeBus(
  build: Build,
  view: PartView,
  subject: Subject,
  { state, feeds }: FedBus,
  limit: number,
  report: Report<"sum">,
): boolean {
  const all = feeds.flatMap((f) => f.sources);
  const parts = [...new Set(all.map((id) => sourcesOf(build).get(id)?.part ?? id))];
  const untold = feeds.filter((f) => f.amps === null);
  if (untold.length > 0 && feeds.length === 1) return false;
  const { problem } = switchingOf(build);
  const ways = reckonings(subject, view, feeds);
  const sum = feeds.reduce((total, f) => total + (f.amps ?? 0), 0);
  const best =
    ways.length === 0 ? { amps: sum, share: 1 } : ways.reduce((a, b) => (b.amps / b.share < a.amps / a.share ? b : a));
  const most = limit * best.share;
  const said = {
    measured: best.amps,
    limit: most,
    unit: "A",
    margin: below(best.amps, most),
    state: sayState(problem, state),
  } as const;
  // What is known of them is too much already, whatever the rest gives.
  if (best.amps > most * (1 + 1e-9)) {
    const code = best.share === 1 ? "" : ", with 1.2 times that allowed";
    report.fail(subject, "sum", {
      ...said,
      positions: state.example,
      words: { sources: nameSome(parts), steps: saySteps(state.steps), code, limit: figure(limit, "A") },
    });
  } else if (untold.length > 0) {
    for (const id of untold.flatMap((f) => f.sources)) {
      const part = sourcesOf(build).get(id)?.part ?? id;
      const about = build.part(part)?.subject ?? subject;
      report.cannotTell(subject, [needed(`what ${part} gives`, about)]);
    }
  } else report.pass(subject, said);
  return true;
}

/** The ways of reckoning that a set allows; any one of them is enough. */
function reckonings({ set }: Subject, view: PartView, feeds: readonly BusFeed[]): readonly Reckoned[] {
  const inverters = feeds.filter((f) => f.isInverter);
  const mains = feeds.filter((f) => !f.isInverter);
  if (set !== "us-cabin" || inverters.length === 0 || feeds.length < 2) return [];
  const main = mains.reduce((sum, f) => sum + (f.deviceAmps ?? f.amps ?? 0), 0);
  const amps = main + CONTINUOUS * inverters.reduce((sum, f) => sum + (f.amps ?? 0), 0);
  const found: Reckoned[] = [{ amps, share: 1 }];
  if (saysYes(factsOf(view), "fed from both ends") === true) found.push({ amps, share: OPPOSITE });
  const ways = ratingsOfWays(view);
  if (ways.size > 0 && ways.size === wayCount(view))
    found.push({ amps: [...ways.values()].reduce((a, b) => a + b, 0), share: 1 });
  return found;
}

const wayCount = ({ elements }: PartView): number =>
  new Set(elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.way] : []))).size;
