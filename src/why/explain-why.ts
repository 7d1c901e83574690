import { earthLoopOf, viewBuild } from "../rules/index.ts";
import { alternatingView, circuitAt, laidWeigher } from "./built.ts";
import { emptyExplanation, finish } from "./finish.ts";
import type { Explanation } from "./explanation.ts";
import { ofPart } from "./leans-on.ts";
import { readSubject, type Judged, type Subject } from "./subject.ts";
import { explainAssumption, explainCopper } from "./why-build.ts";
import { explainBank } from "./why-bank.ts";
import { circuitTopics, explainCircuit, type ExplainOptions } from "./why-circuit.ts";
import { explainEarth } from "./why-earth.ts";
import { explainFault } from "./why-fault.ts";
import { whyFinding } from "./why-finding.ts";
import { explainInState, explainLoad } from "./why-part.ts";
import { explainRule } from "./why-rule.ts";
import { explainString } from "./why-string.ts";
import { explainStudy, studyTopics } from "./why-study.ts";

/** An explanation, or why there is none. */
export type Explained =
  | { readonly ok: true; readonly explanation: Explanation }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/**
 * Explains one figure of a design: why it is what it is, with its numbers put in, what it leans on and what would change it. The same pure
 * functions are run once more while their steps are kept; nothing of it is worked out until it is asked.
 *
 * @param built a compiled plan
 * @param asked as a person writes it: `W12`, `W12.drop`, `W12 fuse`, `W12 fault`, `fridge`, `fridge@at anchor`, `B1`, `copper`, an assumption's id
 * @returns the explanation; for a name that is not there what is near it
 * @source the rule set's and the method's, with each step
 */
export function explainWhy(built: Judged, asked: string, options: ExplainOptions = {}): Explained {
  const read = readSubject(built, asked);
  if (!read.ok) return read;
  laidWeigher(built);
  const explanation = explain(built, read.subject, options);
  return explanation === null
    ? { ok: false, problem: `there is nothing to explain of \`${asked}\``, hint: "`--list` shows what can be asked" }
    : { ok: true, explanation };
}

function explain(built: Judged, subject: Subject, options: ExplainOptions): Explanation | null {
  switch (subject.kind) {
    case "circuit": {
      const at = circuitAt(built, subject.id);
      if (at === null) return null;
      const { topic } = subject;
      const study = studyTopics.find((t) => t === topic);
      const own = circuitTopics.find((t) => t === topic);
      const side = at.model === null ? alternatingView(built) : null;
      const twin = side === null ? null : circuitAt(side, subject.id);
      // Faults of alternating current are another study.
      const isOfSide =
        side !== null && twin !== null && (study === undefined || study === "heat" || study === "margin");
      if (isOfSide) laidWeigher(side);
      const [view, there] = isOfSide ? [side, twin] : [built, at];
      if (study !== undefined) return explainStudy(view, there, study);
      if (own === undefined) return null;
      const explained = explainCircuit(view, there, own, options);
      return isOfSide && own === "size" ? withLoop(built, explained, subject.id) : explained;
    }
    case "part":
      if (subject.topic === "string") return explainString(built, subject.id) ?? explainPart(built, subject.id);
      if (subject.topic === "fault") return explainBank(built, subject.id) ?? explainFaultAt(built, subject.id);
      return (
        explainLoad(built, subject.id, subject.topic) ??
        explainAlternating(built, subject) ??
        explainPart(built, subject.id)
      );
    case "state":
      return (
        explainInState(built, subject.id, subject.state) ??
        alternatingInState(built, subject.id, subject.state) ??
        absent(built, subject.id, subject.state)
      );
    case "assumption":
      return explainAssumption(built, subject.id);
    case "copper":
      return explainCopper(built);
    case "earth":
      return explainEarth(built);
    case "finding":
      return whyFinding(subject.finding, built);
    case "rule":
      return explainRule(built, subject.asked);
  }
}

/** The ladder of a circuit of alternating current with what earth faults ask: a study of the whole build, not of the side that was sized. */
function withLoop(built: Judged, explanation: Explanation, circuit: string): Explanation {
  const { says } = earthLoopOf(viewBuild(built), circuit);
  return {
    ...explanation,
    ladder: explanation.ladder.map((r) => (r.id === "earth-loop" ? { ...r, says } : r)),
    further: [...explanation.further, `${circuit}.loop`],
  };
}

/** A circuit or load of alternating current in a state. */
function alternatingInState(built: Judged, id: string, state: string): Explanation | null {
  const side = alternatingView(built);
  if (side === null) return null;
  laidWeigher(side);
  return explainInState(side, id, state);
}

/** A load of alternating current. */
function explainAlternating(built: Judged, { id, topic }: Extract<Subject, { kind: "part" }>): Explanation | null {
  if (topic === "string" || topic === "fault") return null;
  const side = alternatingView(built);
  if (side === null) return null;
  laidWeigher(side);
  return explainLoad(side, id, topic);
}

/** A short at a part: in the circuit that leads to it. */
function explainFaultAt(built: Judged, part: string): Explanation {
  const leads = built.system.circuits.filter((c) => c.current === "DC" && [c.to.part, c.from.part].includes(part));
  const own = leads.find((c) => c.to.part === part) ?? leads[0];
  const at = own === undefined ? null : circuitAt(built, own.id);
  return at === null
    ? finish(
        built,
        emptyExplanation(
          `${part}.fault`,
          `What does a short at ${part} draw?`,
          `A short at ${part} cannot be told: no circuit of direct current leads to it.`,
        ),
        [ofPart(part)],
      )
    : explainFault(built, at, part);
}

/** A part that is not judged is told by the state in which it gives or takes most. */
function explainPart(built: Judged, part: string): Explanation | null {
  let worst: { state: string; amps: number } | null = null;
  for (const state of built.design.states) {
    const own = [...state.sources, ...state.loads].find((x) => x.part === part);
    if (own !== undefined && (worst === null || Math.abs(own.amps) > worst.amps))
      worst = { state: state.id, amps: Math.abs(own.amps) };
  }
  const inState =
    worst === null ? null : (explainInState(built, part, worst.state) ?? alternatingInState(built, part, worst.state));
  if (inState !== null) return inState;
  const wires = built.design.circuits.filter((c) =>
    [c.from, c.to].some((end) => end === part || end.startsWith(`${part}:`)),
  );
  return finish(
    built,
    {
      ...emptyExplanation(
        part,
        `What of ${part}?`,
        `${part} has no figure of its own in this design${wires.length === 0 ? "" : `; the wires at it are ${wires.map((c) => c.id).join(", ")}`}.`,
      ),
      further: wires.map((c) => c.id),
    },
    [ofPart(part)],
  );
}

const absent = (built: Judged, name: string, state: string): Explanation =>
  finish(
    built,
    emptyExplanation(
      `${name}@${state}`,
      `What of ${name} in the state "${state}"?`,
      `${name} is off in the state "${state}", or no figure of it is worked out there.`,
    ),
    [],
  );
