import { nearestNames } from "../plan/text/index.ts";
import { printCitation } from "../explain/index.ts";
import type { Finding } from "../rules/index.ts";
import { studyFaults } from "../size/study-faults.ts";
import { judgedAt, type Built } from "./built.ts";
import { assumedIn } from "./assumed.ts";
import { bareThing, readRule, type RuleAsked, type Said } from "./why-rule.ts";
import { circuitTopics, type CircuitTopic } from "./why-circuit.ts";
import { partTopics, type PartTopic } from "./why-part.ts";
import { studyTopics, type StudyTopic } from "./why-study.ts";

/** What is asked about, found in the plan. */
export type Subject =
  | { readonly kind: "circuit"; readonly id: string; readonly topic: CircuitTopic | StudyTopic }
  | { readonly kind: "part"; readonly id: string; readonly topic: PartTopic | "fault" | "string" }
  | { readonly kind: "state"; readonly id: string; readonly state: string }
  | { readonly kind: "assumption"; readonly id: string }
  | { readonly kind: "copper" }
  | { readonly kind: "earth" }
  | { readonly kind: "finding"; readonly finding: Finding }
  | { readonly kind: "rule"; readonly asked: RuleAsked };

export type ReadSubject =
  | { readonly ok: true; readonly subject: Subject }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

/** A computed build with what its rules found, where that is at hand. */
export type Judged = Built & { readonly judgement?: Said };

/** Words that people use for a topic. */
const topicWords: Readonly<Record<string, CircuitTopic | StudyTopic>> = {
  wire: "size",
  conductor: "size",
  ampacity: "ampacity",
  iz: "ampacity",
  amps: "current",
  fuse: "device",
  breaker: "device",
  voltage: "volts",
  "voltage drop": "drop",
  "short circuit": "fault",
  short: "fault",
  withstand: "fault",
  coordination: "selectivity",
  "interrupt rating": "interrupt",
  run: "length",
  "earth loop": "loop",
  "earth-loop": "loop",
  "earth fault": "loop",
  zs: "loop",
  ...Object.fromEntries([...circuitTopics, ...studyTopics].map((t) => [t, t])),
};

const partWords: Readonly<Record<string, PartTopic | "fault" | "string">> = {
  voltage: "volts",
  "voltage drop": "drop",
  start: "volts",
  "short circuit": "fault",
  short: "fault",
  fault: "fault",
  sharing: "fault",
  string: "string",
  strings: "string",
  "string volts": "string",
  "cold volts": "string",
  ...Object.fromEntries(partTopics.map((t) => [t, t])),
};

/**
 * Finds what a person asks about: `W12`, `W12+`, `W12.drop`, `W12 fuse`, `fridge`, `fridge@at anchor`, `B1`, `copper`, `earth`, the id of an assumption, or
 * a finding as its rule and the thing it is about.
 *
 * @param text as typed; capitals do not matter where no other name differs by them alone
 */
export function readSubject(built: Judged, text: string): ReadSubject {
  const asked = text.trim().replace(/\s+/g, " ");
  if (asked === "")
    return {
      ok: false,
      problem: "nothing is asked about",
      hint: "write the name of a circuit or part, such as `W12` or `fridge`",
    };
  const subject =
    wholeName(built, text) ??
    wholeName(built, asked) ??
    findingOf(built, asked) ??
    inState(built, asked) ??
    withTopic(built, asked) ??
    withTopic(built, text);
  if (subject !== null) return { ok: true, subject };
  const rule = built.judgement === undefined ? null : readRule(built.judgement, asked);
  if (rule !== null && "rule" in rule) return { ok: true, subject: { kind: "rule", asked: rule } };
  if (rule !== null)
    return {
      ok: false,
      problem: `that rule says nothing of what is asked: \`${asked}\``,
      hint: `it speaks of ${rule.speaksOf}`,
    };
  const near = nearestNames(
    asked,
    listSubjects(built).map((s) => s.subject),
  );
  return {
    ok: false,
    problem: `nothing here is called \`${asked}\``,
    hint:
      near.length > 0
        ? `did you mean ${near.map((n) => `\`${n}\``).join(" or ")}?`
        : "`--list` shows what can be asked",
  };
}

/** A name out of a list as it was typed, else whatever the capitals. */
function named(names: readonly string[], typed: string): string | null {
  if (names.includes(typed)) return typed;
  const folded = typed.toLowerCase();
  const same = names.filter((n) => n.toLowerCase() === folded);
  return same.length === 1 ? (same[0] ?? null) : null;
}

const circuitIds = ({ system }: Built): string[] => system.circuits.map((c) => c.id);

function partIdOf({ system }: Built, typed: string): string | null {
  const id = named(
    system.parts.map((p) => p.id),
    typed,
  );
  if (id !== null) return id;
  const called = system.parts.filter((p) => p.name.toLowerCase() === typed.toLowerCase());
  return called.length === 1 ? (called[0]?.id ?? null) : null;
}

/** How people ask where neutral meets earth. */
const EARTH: ReadonlySet<string> = new Set(["earth", "ground", "neutral", "neutral to earth"]);

function wholeName(built: Built, asked: string): Subject | null {
  const circuit = named(circuitIds(built), asked) ?? circuitOfConductor(built, asked);
  if (circuit !== null) return { kind: "circuit", id: circuit, topic: "size" };
  const part = partIdOf(built, asked);
  if (part !== null) return { kind: "part", id: part, topic: "volts" };
  if (asked.toLowerCase() === "copper") return { kind: "copper" };
  if (EARTH.has(asked.toLowerCase())) return { kind: "earth" };
  const assumption = named(
    assumedIn(built).map((a) => a.id),
    asked,
  );
  return assumption === null ? null : { kind: "assumption", id: assumption };
}

/** `W12+`, `W12−`, and `W12-` as people type it. */
function circuitOfConductor({ system }: Built, asked: string): string | null {
  const typed = asked.endsWith("-") ? `${asked.slice(0, -1)}−` : asked;
  return system.circuits.find((c) => c.conductors.some((x) => x.id.toLowerCase() === typed.toLowerCase()))?.id ?? null;
}

function findingOf({ judgement }: Judged, asked: string): Subject | null {
  const all = judgement?.findings ?? [];
  const finding =
    all.find((f) => `${f.rule} ${f.about}` === asked) ??
    // As a waiver and a cure name it: the rule, and the thing alone.
    all.find((f) => `${f.rule} ${bareThing(f.about)}`.toLowerCase() === asked.toLowerCase()) ??
    (all.filter((f) => f.rule === asked).length === 1 ? all.find((f) => f.rule === asked) : undefined);
  return finding === undefined ? null : { kind: "finding", finding };
}

function inState(built: Built, asked: string): Subject | null {
  // A name may hold the sign itself, so every one of them is tried.
  for (let at = asked.indexOf("@"); at >= 0; at = asked.indexOf("@", at + 1)) {
    const state = named(
      built.system.states.map((s) => s.id),
      asked.slice(at + 1).trim(),
    );
    const typed = asked
      .slice(0, at)
      .trim()
      .replace(/\.(?:volts|current|amps)$/i, "");
    const id = named(circuitIds(built), typed) ?? partIdOf(built, typed);
    if (state !== null && id !== null) return { kind: "state", id, state };
  }
  return null;
}

function withTopic(built: Built, asked: string): Subject | null {
  for (const sign of [".", " "]) {
    for (let at = asked.indexOf(sign); at >= 0; at = asked.indexOf(sign, at + 1)) {
      const word = asked
        .slice(at + 1)
        .trim()
        .toLowerCase();
      // A name may begin or end with blanks, and then it is listed with them.
      const typed = [asked.slice(0, at), asked.slice(0, at).trim()];
      const circuit = firstOf(typed, (name) => named(circuitIds(built), name) ?? circuitOfConductor(built, name));
      if (circuit !== null && Object.hasOwn(topicWords, word)) {
        return { kind: "circuit", id: circuit, topic: topicWords[word] ?? "size" };
      }
      const part = firstOf(typed, (name) => partIdOf(built, name));
      if (part !== null && Object.hasOwn(partWords, word))
        return { kind: "part", id: part, topic: partWords[word] ?? "volts" };
    }
  }
  return null;
}

function firstOf(names: readonly string[], find: (name: string) => string | null): string | null {
  for (const name of names) {
    const found = find(name);
    if (found !== null) return found;
  }
  return null;
}

/** Something that can be asked, and what it is. */
export interface Askable {
  /** As it is typed. */
  readonly subject: string;
  readonly says: string;
}

/** Everything that can be asked of a build. */
export function listSubjects(built: Judged): Askable[] {
  const { system, design, judgement } = built;
  const sources = new Set(design.states.flatMap((s) => s.sources.map((x) => x.part)));
  const loads = new Set(design.states.flatMap((s) => s.loads.map((x) => x.part)));
  return [
    ...design.circuits.map((c) => ({
      subject: c.id,
      says: `${c.from} → ${c.to}${c.size === null ? "" : `, ${c.size.label}`}`,
    })),
    ...system.parts.flatMap((p): Askable[] => {
      const judged = judgedAt(built, p.id) !== null;
      if (!judged && !sources.has(p.id) && !loads.has(p.id)) return [];
      return [{ subject: p.id, says: sources.has(p.id) ? "what it gives, state by state" : "volts at it" }];
    }),
    ...design.circuits.flatMap((c) =>
      c.current === "AC"
        ? [{ subject: `${c.id}.loop`, says: "what an earth fault in it draws, what opens and when" }]
        : [
            { subject: `${c.id}.fault`, says: "what a short in it draws, what opens, what bears it" },
            { subject: `${c.id}.heat`, says: "how warm it gets, state by state" },
            ...(c.devices.length === 0
              ? []
              : [
                  { subject: `${c.id}.selectivity`, says: "which device opens" },
                  { subject: `${c.id}.interrupt`, says: "what its device may have to break" },
                ]),
          ],
    ),
    ...studyFaults(built.settled).stores.map(({ part }) => ({
      subject: `${part}.fault`,
      says: "what it gives into a short, and how its bank shares",
    })),
    ...solarParts(built).map((id) => ({
      subject: `${id}.string`,
      says: "its strings, cold and hot, and their current",
    })),
    { subject: "copper", says: "copper in all conductors" },
    ...(system.circuits.some((c) => c.current === "AC")
      ? [{ subject: "earth", says: "where neutral meets earth, state by state" }]
      : []),
    ...assumedIn(built).map((a) => ({ subject: a.id, says: a.says })),
    ...(judgement?.findings ?? []).map((f) => ({
      subject: `${f.rule} ${f.about}`,
      says: f.clause === null ? f.title : `${f.title}, ${printCitation(f.clause)}`,
    })),
  ].filter((one, i, all) => all.findIndex((x) => x.subject === one.subject) === i);
}

/** Solar modules, and controllers that track them. */
const solarParts = ({ system }: Built): readonly string[] => [
  ...new Set(
    system.elements.flatMap((e) =>
      (e.is === "feed" && e.runsWith === "sun") || (e.is === "converter" && e.input === "tracks") ? [e.part] : [],
    ),
  ),
];

/** How topics and states are asked, in words. */
export const howToAsk = `A circuit can be asked for one thing: ${[...circuitTopics, ...studyTopics].map((t) => `W12.${t}`).join(", ")}. A load: fridge.volts, fridge.drop, fridge.fault. A battery: B1.fault, for its bank. Solar modules and their controller: PV.string. Where neutral meets earth: earth. What a rule says, also where it passes: return/missing-dc-ac-bond, and a thing behind it. Anything in a state: fridge@at anchor, B1@at anchor, W12@at anchor.`;
