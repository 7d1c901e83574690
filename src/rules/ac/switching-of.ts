import { studySwitching, type SwitchingGroup, type SystemSwitching } from "../../switching/index.ts";
import type { Supply } from "../../system/index.ts";
import type { Build, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";

const seen = new WeakMap<Build["system"], SystemSwitching>();

/** Every position of every switch of a build; worked out once, when the first rule asks. */
export function switchingOf({ system }: Build): SystemSwitching {
  let found = seen.get(system);
  if (found === undefined) seen.set(system, (found = studySwitching(system)));
  return found;
}

/** States that come to rest, nearest first. */
export const statesOf = (build: Build): readonly SwitchingGroup[] =>
  switchingOf(build).study.groups.filter((g) => g.rests);

/** The supply of alternating current that a part belongs to, else the first one. */
export function alternatingSupply({ system }: Build, part?: string): Supply | undefined {
  const own = system.parts.find((p) => p.id === part)?.supply;
  const all = system.supplies.filter((s) => s.current === "AC");
  return all.find((s) => s.id === own) ?? all[0];
}

/** A part as one of the alternating side: judged by the rule set of that side, wherever its other terminals belong to. */
export function alternatingPart(build: Build, id: string): Subject {
  const part = build.part(id);
  const supply = alternatingSupply(build, id);
  const set = supply === undefined ? null : build.supply(supply).set;
  if (part === undefined) return { ...build.whole, set };
  const isOwn = part.part.rules !== undefined || part.supply?.current === "AC";
  return isOwn ? part.subject : { ...part.subject, set };
}

const LARGE = {
  sources: "fewer sources of alternating current",
  positions: "fewer positions of one switch",
  "diagram nodes": "`interlocks:` that say what never stands together, or fewer switches",
  groups: "`interlocks:` that say what never stands together, or fewer switches",
} as const;

/** Why not every state is told: what nobody says of how things move, what goes round for ever, and bounds of the study. Empty: every state is known. */
export function doubtsOf(build: Build): readonly Needed[] {
  const { problem, study } = switchingOf(build);
  if (study.tooLarge !== null)
    return [needed(`its states with ${LARGE[study.tooLarge.tooLarge]} (more than can be followed)`, build.whole)];
  if (study.startForbiddenBy.length > 0)
    return [needed(`where all is off, which ${study.startForbiddenBy.join(" and ")} forbids`, build.whole)];
  const partOf = (mover: string): string => problem.movers.find((m) => m.id === mover)?.part ?? mover;
  const needs = new Map<string, Needed>();
  for (const { mover, says } of study.unclear)
    needs.set(`${mover} ${says}`, needed(`of ${partOf(mover)}: ${says}`, `parts.${partOf(mover)}`));
  for (const { rests, steps } of study.groups) {
    const last = steps.findLast((s) => s.by === "itself");
    if (rests || last === undefined) continue;
    const part = partOf(last.mover);
    needs.set(`round ${part}`, needed(`where ${part} comes to rest, which goes to and fro for ever`, `parts.${part}`));
  }
  return [...needs.values()];
}
