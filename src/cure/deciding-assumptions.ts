import type { Span } from "../diagnostic.ts";
import { createPlanMemory, foldName, placed } from "../plan/index.ts";
import type { Edit, Path } from "../plan/text/index.ts";
import type { Build, Finding } from "../rules/index.ts";
import { decidingAssumption } from "../rules/record/deciding-assumption.ts";
import { collect } from "../rules/collect.ts";
import { waive } from "../rules/waivers.ts";
import type { Assumption } from "../system/index.ts";
import { alternativesOf } from "./alternatives.ts";
import type { CureOptions } from "./find-cures.ts";
import { standOf, tryEdits, type CompilePlan, type CompiledPlan, type Tried } from "./try-edits.ts";
import { put } from "./write.ts";

/** What came of moving the defaults of a plan. */
export interface DecidingAssumptions {
  /** One for each default that decides: of the rule `record/deciding-assumption`, about `assumptions.<id>`. */
  readonly findings: readonly Finding[];
  /** Ids of defaults that were moved and decide nothing. */
  readonly idle: readonly string[];
  /** Ids of defaults that have no range, or that no key of the plan can pin. */
  readonly notVaried: readonly string[];
  /** Plans that were compiled. */
  readonly tried: number;
  /** All of them were moved; false: the search was stopped, or came to its bound. */
  readonly complete: boolean;
}

/** Without another word so many plans are compiled; there are about twenty defaults, with two ends each. */
const MOST_TRIED = 120;
/** So many things that come out otherwise are named. */
const NAMED = 3;

/**
 * Looks for defaults that decide something: each is pinned to the ends of its range, everywhere it was used, and the plan is compiled again.
 *
 * @param text the plan
 * @param compile the compiler of whole plans
 */
export function findDecidingAssumptions(
  text: string,
  compile: CompilePlan,
  options: CureOptions = {},
): DecidingAssumptions {
  const { most = MOST_TRIED, isCancelled = () => false, memory = createPlanMemory() } = options;
  const before = standOf(text, compile, memory, options);
  const collector = collect();
  const report = collector.reportFor(decidingAssumption);
  const idle: string[] = [];
  const notVaried: string[] = [];
  let tried = 0;
  let complete = true;
  for (const assumption of before.compiled.design.assumptions) {
    const others = alternativesOf(assumption, positionsOf(before.build, assumption));
    const flips: string[] = [];
    let moved = false;
    for (const other of others) {
      if (tried >= most || isCancelled()) {
        complete = false;
        break;
      }
      const edits = pinEdits(before, assumption, other);
      if (edits.length === 0) continue;
      tried++;
      const trial = tryEdits(before, edits, compile, memory, options);
      if (trial === null) continue;
      moved = true;
      const turned = flipsOf(before.compiled, trial.tried.compiled);
      if (turned.length > 0) flips.push(`with ${other} ${inWords(turned)}`);
    }
    if (!complete) break;
    if (!moved) notVaried.push(assumption.id);
    else if (flips.length === 0) idle.push(assumption.id);
    else {
      const at = placesOf(before.build, assumption);
      report.fail({ path: `assumptions.${assumption.id}`, name: assumption.says, at, set: null }, "decides", {
        words: { assumption: assumption.says, flips: flips.join("; "), pin: assumption.pin },
        trust: assumption.trust,
      });
    }
  }
  const findings = waive(collector.findings(), before.compiled.plan, options.today);
  return { findings, idle, notVaried, tried, complete };
}

const positionsOf = (build: Build, { id }: Assumption): readonly string[] =>
  build.part(id.replace(/^position-/, ""))?.part.positions ?? [];

/** Sections that a pin may begin with: `stock: metal`. */
const SECTIONS = new Set(["stock", "climate"]);

/** Edits that pin a default to a value wherever it was used. */
function pinEdits({ document, build }: Tried, { pin, about }: Assumption, value: string): readonly Edit[] {
  const [head = "", ...rest] = pin.split(": ");
  const key = rest.join(": ");
  if (head === "states") {
    const open = build.plan.states.filter((s) => !s.positions.some((p) => foldName(p.part) === foldName(key)));
    return open.filter((s) => s.facts.like === undefined).map((s) => put(document, ["states", s.key, key], value));
  }
  if (SECTIONS.has(head)) return [put(document, [head, key], value)];
  return about.flatMap((name): Edit[] => {
    const section = build.part(name) !== undefined ? "parts" : build.circuit(name) !== undefined ? "circuits" : null;
    const path: Path | null = section === null ? null : [section, name, ...pin.split(": ")];
    return path === null ? [] : [put(document, path, value)];
  });
}

/** Places of what uses a default. */
const placesOf = (build: Build, { about }: Assumption): readonly Span[] =>
  about.flatMap((name) => {
    const item = build.part(name)?.plan ?? build.circuit(name)?.plan;
    return item === undefined ? [] : [placed(item.base, item.keySpan)];
  });

/** What comes out otherwise: sizes that were chosen, devices that were proposed, musts. */
function flipsOf(before: CompiledPlan, after: CompiledPlan): readonly string[] {
  const flips: string[] = [];
  for (const [i, was] of before.design.circuits.entries()) {
    const is = after.design.circuits[i];
    if (is?.id !== was.id) continue;
    const [a, b] = [was.size?.label ?? "no size", is.size?.label ?? "no size"];
    if (was.outcome === "chosen" && a !== b) flips.push(`${was.id} takes ${b} instead of ${a}`);
    for (const [n, device] of was.devices.entries()) {
      const other = is.devices[n];
      if (device.by !== "proposed" || other === undefined || other.ratingA === device.ratingA) continue;
      const rating = (amps: number | null): string => (amps === null ? "no rating" : `${amps} A`);
      flips.push(
        `the ${device.kind} of ${was.id} at ${device.at} has ${rating(other.ratingA)} instead of ${rating(device.ratingA)}`,
      );
    }
  }
  const mustsOf = ({ judgement }: CompiledPlan): Map<string, Finding> =>
    new Map(
      judgement.findings.filter((f) => f.severity === "must").map((f) => [`${f.rule} ${f.about} ${f.outcome}`, f]),
    );
  const [was, is] = [mustsOf(before), mustsOf(after)];
  const told = ({ rule, about, outcome }: Finding): string =>
    `${rule} of ${about.replace(/^\w+\./, "")} ${outcome === "fail" ? "fails" : "cannot be told"}`;
  for (const [key, f] of is) if (!was.has(key)) flips.push(told(f));
  for (const [key, f] of was) if (!is.has(key)) flips.push(`${told(f)} no more`);
  return flips;
}

function inWords(flips: readonly string[]): string {
  const named = flips.slice(0, NAMED).join(", ");
  return flips.length > NAMED ? `${named}, and ${flips.length - NAMED} more come out otherwise` : named;
}
