import type { CompiledPlan, CompilePlan } from "../cure/try-edits.ts";
import { createPlanMemory, foldName, shown } from "../plan/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { viewBuild, type JudgeOptions } from "../rules/index.ts";
import { drawnMake } from "../rules/conductor/bought-of.ts";
import { readLabel } from "../wire/label/read-label.ts";
import { resistancePerMetre20, type ConductorMake } from "../wire/index.ts";
import { act } from "./act.ts";
import { compareStands } from "./compare-stands.ts";
import type { Comparison } from "./comparison.ts";
import { isRefusal, refuse } from "./draft.ts";
import { lentFacts } from "./lent-facts.ts";
import { holdSizes } from "./hold-sizes.ts";
import type { Acted, NotActed } from "./request.ts";

/** A wire that is bought in place of the drawn one, judged in its place. Plain data. */
export interface Substitution {
  readonly ok: true;
  readonly circuit: string;
  /** Sizes as printed. */
  readonly drawn: string;
  readonly bought: string;
  /** Resistance of the bought one over that of the drawn, less 1; null where either is not known. */
  readonly resistanceChange: number | null;
  /** Every figure of the circuit and every finding, with all other copper held as it lies. */
  readonly comparison: Comparison;
  /** It raises no finding and has no more resistance. */
  readonly does: boolean;
  /** The verdict in a sentence. */
  readonly says: string;
  /** What no computation tells: ends, glands, tools. */
  readonly lookAt: readonly string[];
  /** The edit of the plan itself that pins the bought size. */
  readonly acted: Acted;
}

/** Resistances this near are one. */
const SAME = 1e-4;

/**
 * Puts another wire in the place of a drawn one and judges the whole build again: drop, ampacity, device, starts, every rule. All other copper stays as it
 * was chosen, so that what differs comes of the substitute alone.
 *
 * @param label of the wire that can be bought, in any system: `16 mm²`, `6 AWG`, `65/0.30`; of a cable where the circuit is drawn with one
 * @returns the judgement, with the edit that would write it; or what is to be asked first
 */
export function substitute(
  text: string,
  compiled: CompiledPlan,
  circuit: string,
  label: string,
  compile: CompilePlan,
  options: JudgeOptions = {},
): Substitution | NotActed {
  const before = circuitOf(compiled, circuit);
  if (before === undefined) {
    const ids = compiled.design.circuits.slice(0, 8).map(({ id }) => id);
    return refuse(`there is no circuit \`${shown(circuit)}\``, `the plan has ${ids.join(", ")} …`);
  }
  if (before.size === null) {
    const missing = before.cannotTell.join(", ");
    return refuse(`no size is drawn for \`${before.id}\` yet, so nothing can stand in for it`, `it lacks: ${missing}`);
  }
  const field = isCable(label) ? "cable" : "wire";
  const drawnAs = compiled.plan.circuits.find(({ key }) => foldName(key) === foldName(before.id));
  if (field === "cable" && drawnAs?.keys["cable"] === undefined)
    return refuse(
      `\`${shown(label)}\` is the label of a cable, and \`${before.id}\` does not say that it lies in one`,
      "give the label of one conductor, such as `12 AWG`, or write `cable:` with the drawn cable on the circuit first",
    );
  const request = { do: "set-figure", about: `circuits.${before.id}`, field, text: label } as const;
  const acted = act(text, compiled, request);
  if (isRefusal(acted)) return acted;
  const stand = (of: string): CompiledPlan => compile(of, createPlanMemory(), options);
  const now = stand(holdSizes(text, compiled));
  const held = act(now.plan.text, now, request);
  if (isRefusal(held)) return held;
  const then = held.splices.length === 0 ? now : stand(held.text);
  const comparison = compareStands(now, then, `circuits.${before.id}`);
  const against = contradictionOf(then, now, before.id, field);
  if (against !== null) return against;
  const [drawn, bought] = [makeIn(now, before.id), makeIn(then, before.id)];
  const resistanceChange = drawn === null || bought === null ? null : ohms(bought) / ohms(drawn) - 1;
  const grows = resistanceChange === null || resistanceChange > SAME;
  const raised = comparison.raises.length;
  return {
    ok: true,
    circuit: before.id,
    drawn: drawn?.size.label ?? before.size.label,
    bought: bought?.size.label ?? label,
    resistanceChange,
    comparison,
    does: !grows && raised === 0,
    says: verdict(resistanceChange, raised),
    lookAt:
      drawn?.size.label === bought?.size.label
        ? []
        : [...lookAt(drawn, bought), ...[lentFacts(then, before.id, field)].flatMap((lent) => lent ?? [])],
    acted,
  };
}

const circuitOf = ({ design }: CompiledPlan, id: string): CompiledPlan["design"]["circuits"][number] | undefined =>
  design.circuits.find((c) => foldName(c.id) === foldName(id));

/** A key of the circuit that counts against what the label says: what is judged then is not the wire that would be bought. */
function contradictionOf(then: CompiledPlan, now: CompiledPlan, id: string, field: "wire" | "cable"): NotActed | null {
  const of = ({ diagnostics }: CompiledPlan) =>
    diagnostics.filter((d) => d.id === "plan/label-disagrees" && d.about === `circuits.${id}.${field}`);
  const there = new Set(of(now).map(({ message }) => message));
  const found = of(then).find(({ message }) => !there.has(message));
  return found === undefined ? null : refuse(found.message, found.hint ?? "write the label as the plan has it");
}

function makeIn(plan: CompiledPlan, id: string): ConductorMake | null {
  const build = viewBuild(plan);
  const view = build.circuit(id);
  return view === undefined ? null : drawnMake(build, view);
}

const ohms = (make: ConductorMake): number => resistancePerMetre20(make).ohmsPerMetre;

/** The verdict with what it rests on. */
function verdict(change: number | null, raised: number): string {
  const findings =
    raised === 0 ? "no finding is raised" : `${raised} ${raised === 1 ? "finding is" : "findings are"} raised`;
  const said = `${resistanceSays(change)}; ${findings}`;
  if (change !== null && change <= SAME)
    return `${said}: ${raised === 0 ? "it can stand in" : "it does not stand in as it is"}`;
  return change === null
    ? `${said}: it does not stand in as it is`
    : `${resistanceSays(change)} than the drawn wire, so it does not stand in; ${findings}`;
}

/** Whether whatever the label can mean has several conductors. */
function isCable(label: string): boolean {
  const read = readLabel(label);
  return read.verdict !== "rejected" && read.readings.every(({ make }) => (make.cores?.total ?? 1) > 1);
}

function resistanceSays(change: number | null): string {
  if (change === null) return "its resistance is not known";
  if (Math.abs(change) <= SAME) return "the same resistance";
  return `${decimalText(100 * Math.abs(change), { decimals: 1 })} % ${change > 0 ? "more" : "less"} resistance`;
}

/** What is bought or made by the size of the wire. */
function lookAt(drawn: ConductorMake | null, bought: ConductorMake | null): readonly string[] {
  const wider = drawn !== null && bought !== null && bought.size.areaMm2 > drawn.size.areaMm2;
  return [
    `lugs, ferrules and the crimping die are those of ${bought?.size.label ?? "the bought wire"}; a terminal takes no more than the size it is marked for`,
    wider
      ? "the outside is likely wider: measure it against gland, grommet, conduit fill and bend"
      : "measure the outside against the gland: one that is too thin does not seal",
  ];
}
