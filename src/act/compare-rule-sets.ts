import { compareFindings, type CompilePlan } from "../cure/try-edits.ts";
import type { FindingName } from "../cure/index.ts";
import { put } from "../cure/write.ts";
import { createPlanMemory, foldName } from "../plan/index.ts";
import { applySplices, readDocument } from "../plan/text/index.ts";
import { planEdit } from "../plan/text/plan-edit.ts";
import type { JudgeOptions, JudgementTally } from "../rules/index.ts";
import { findRuleSet } from "../ruleset/index.ts";
import type { CircuitDesign } from "../size/index.ts";
import { refuse } from "./draft.ts";
import { holdSizes } from "./hold-sizes.ts";
import type { NotActed } from "./request.ts";
import type { CompiledPlan } from "./stand.ts";

/** A circuit under one rule set. */
export interface CircuitUnderRules {
  /** As printed, with the conductors in parallel: `2 × 50 mm²`; null: cannot be told. */
  readonly size: string | null;
  /** Of all its conductors together, mm². */
  readonly areaMm2: number | null;
  readonly ampacityA: number | null;
  /** Greatest drop that is allowed; null: none is asked. */
  readonly dropLimitShare: number | null;
  /** `60 A at BP`. */
  readonly devices: readonly string[];
  readonly decidedBy: string | null;
  readonly cannotTell: readonly string[];
}

/** A circuit under two rule sets. */
export interface ComparedCircuit {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly now: CircuitUnderRules;
  /** Chosen anew, everything else of the plan as it is. */
  readonly then: CircuitUnderRules;
  /** Its wire as it is chosen now, under the other set. Null: not told. */
  readonly heldAmpacityA: number | null;
  /** Something of it would change. */
  readonly changed: boolean;
}

/** A design judged under another rule set. Plain data. */
export interface RuleSetComparison {
  readonly ok: true;
  /** The sets that the plan names, by system, and the one it is held against with its edition. */
  readonly now: readonly { readonly system: string; readonly rules: string }[];
  readonly then: string;
  /** What a reader has to know of the other set before leaning on its numbers. */
  readonly cautions: readonly string[];
  readonly circuits: readonly ComparedCircuit[];
  /** Findings that come and go with all copper as it lies, and devices that the plan gives. */
  readonly raises: readonly FindingName[];
  readonly clears: readonly FindingName[];
  /** Findings under the plan's own sets, under the other one with the copper as it lies, and with everything chosen anew. */
  readonly tally: { readonly now: JudgementTally; readonly held: JudgementTally; readonly anew: JudgementTally };
  /** Copper in all conductors. */
  readonly copper: { readonly nowMm2M: number; readonly anewMm2M: number };
}

/**
 * Judges a design under another rule set: once with its copper as it lies, for what would be found, and once with everything chosen anew, for what would be
 * built. Of the plan itself nothing is changed.
 *
 * Every system of the plan is judged by the other set, of alternating current as well; a build that is lawful under one set and not under the other is the use of it.
 *
 * @param rules a set and its edition, as a plan names them
 * @returns the comparison, or what was expected in place of the set
 */
export function compareRuleSets(
  text: string,
  compiled: CompiledPlan,
  rules: string,
  compile: CompilePlan,
  options: JudgeOptions = {},
): RuleSetComparison | NotActed {
  const found = findRuleSet(rules);
  if (!found.found) return refuse(found.problem, found.hint);
  const { set, edition } = found;
  const named = `${set.id} ${edition.name}`;
  const { supplies } = compiled.system;
  if (supplies.length === 0)
    return refuse("the plan has no system that a rule set could be named for", "write `systems:` first");
  const stand = (of: string): CompiledPlan => compile(of, createPlanMemory(), options);
  const ids = supplies.map(({ id }) => id);
  const anew = stand(withRules(text, ids, named));
  const heldText = holdSizes(text, compiled);
  const heldNow = stand(heldText);
  const held = stand(withRules(heldText, ids, named));
  const { raises, clears } = compareFindings(heldNow, held);
  const of = ({ design }: CompiledPlan, id: string): CircuitDesign | undefined =>
    design.circuits.find((c) => foldName(c.id) === foldName(id));
  return {
    ok: true,
    now: supplies.map((s) => ({ system: s.id, rules: s.rules ?? "none" })),
    then: named,
    cautions: [...found.remarks, ...set.cautions],
    circuits: compiled.design.circuits.map((circuit): ComparedCircuit => {
      const now = underRules(circuit);
      const then = underRules(of(anew, circuit.id));
      return {
        id: circuit.id,
        from: circuit.from,
        to: circuit.to,
        now,
        then,
        heldAmpacityA: of(held, circuit.id)?.ampacityA ?? null,
        changed: isOther(now, then),
      };
    }),
    raises,
    clears,
    tally: { now: compiled.judgement.tally, held: held.judgement.tally, anew: anew.judgement.tally },
    copper: { nowMm2M: compiled.design.copperMm2M, anewMm2M: anew.design.copperMm2M },
  };
}

/** The text with another set named for every system. For a plan that is only thought of: it is not proved as an edit is. */
function withRules(text: string, systems: readonly string[], rules: string): string {
  return systems.reduce((before, id) => {
    const document = readDocument(before).value;
    const planned = planEdit(document, put(document, ["rules", id], rules), []);
    return "refusal" in planned ? before : applySplices(before, planned.splices);
  }, text);
}

function underRules(circuit: CircuitDesign | undefined): CircuitUnderRules {
  const { size = null, make, ampacityA = null, dropLimitShare = null, devices = [] } = circuit ?? {};
  const parallel = make?.parallel ?? 1;
  return {
    size: size === null ? null : `${parallel > 1 ? `${parallel} × ` : ""}${size.label}`,
    areaMm2: size === null ? null : parallel * size.areaMm2,
    ampacityA,
    dropLimitShare,
    devices: devices.map(({ ratingA, at }) => `${ratingA === null ? "?" : ratingA} A at ${at}`),
    decidedBy: circuit?.decidedBy ?? null,
    cannotTell: circuit?.cannotTell ?? [],
  };
}

/** Figures that print alike are alike: settling leaves a millionth between them. */
const SAME = 1e-4;

function isOther(now: CircuitUnderRules, then: CircuitUnderRules): boolean {
  const differs = (a: number | null, b: number | null): boolean =>
    (a === null) !== (b === null) || (a !== null && b !== null && Math.abs(a - b) > SAME * Math.abs(a));
  return (
    now.size !== then.size ||
    differs(now.ampacityA, then.ampacityA) ||
    differs(now.dropLimitShare, then.dropLimitShare) ||
    now.devices.join() !== then.devices.join()
  );
}
