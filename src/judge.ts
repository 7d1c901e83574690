import { byPlace, type Settling } from "./compute.ts";
import {
  checkWaivers,
  judgeDesign,
  rules,
  rulesOnDemand,
  type JudgeOptions,
  type Judgement,
  withEarthLoop,
  withWithstand,
} from "./rules/index.ts";

/** Bonds are sized after all else, by the tables of the rules: with them a page fetches that too. */
export { hasLeads, sizeLeads } from "./size/size-leads.ts";

/** What a plan comes to. */
export interface Compiled extends Settling {
  /** What the rules say of it. */
  readonly judgement: Judgement;
}

/** Judges a settled plan by every rule, says what its faults ask of its sizes, and looks through its waivers. */
export function judge(settling: Settling, options: JudgeOptions = {}): Compiled {
  const { plan, system, diagnostics } = settling;
  const { parts, circuits, supplies, assumptions } = system;
  const named = [...parts, ...circuits, ...supplies, ...assumptions].map(({ id }) => id);
  const judgement = judgeDesign(settling, rules, options);
  const waivers = checkWaivers(
    plan,
    [...rules, ...rulesOnDemand].map(({ id }) => id),
    named,
    judgement.findings,
    rulesOnDemand.map(({ id }) => id),
  );
  const design = withEarthLoop(settling, withWithstand(settling));
  return { ...settling, design, judgement, diagnostics: [...diagnostics, ...waivers].sort(byPlace) };
}
