import { ampacityIn, suppliesBySet, type CircuitDesign, type CircuitModel } from "../size/index.ts";
import { viewBuild, type Build, type Computed, type Subject } from "./build.ts";
import type { Report } from "./report.ts";

/** A build as one of the rule sets of its circuits has it, and what it is judged for. */
export interface BuildBySet {
  readonly build: Build;
  /** Whether something is judged here; what follows one set alone is judged in the first. */
  readonly speaksOf: (about: Subject) => boolean;
}

/**
 * A build for each rule set that its circuits follow at once: in the first every circuit follows its first set, in the next those with two follow their second, and
 * so on. Rules judge all of them and know of one set only.
 *
 * @returns one, where no circuit follows more than one set
 */
export function buildsBySet(computed: Computed): readonly [BuildBySet, ...BuildBySet[]] {
  const several = computed.system.circuits.filter((c) => (c.rules?.length ?? 1) > 1);
  const first = { build: viewBuild(asSetAsks(computed, 0), 0), speaksOf: () => true };
  const most = Math.max(1, ...several.map((c) => c.rules?.length ?? 1));
  const others = Array.from({ length: most - 1 }, (_, i): BuildBySet => {
    const paths = several.flatMap((c) => ((c.rules?.length ?? 1) > i + 1 ? [`circuits.${c.id}`] : []));
    return {
      build: viewBuild(asSetAsks(computed, i + 1), i + 1),
      speaksOf: ({ path }) => paths.some((own) => path === own || path.startsWith(`${own}.`)),
    };
  });
  return [first, ...others];
}

/**
 * The same for the circuits of alternating current, told in the words of the direct side: one engine sized them, and rules that know of no current judge them as
 * they stand there.
 *
 * @returns none, where nothing alternates
 */
export function alternatingBuilds(computed: Computed): readonly BuildBySet[] {
  const { alternating, system } = computed;
  if (alternating === null || alternating === undefined) return [];
  const paths = system.circuits.flatMap((c) => (c.current === "AC" ? [`circuits.${c.id}`] : []));
  const isOf = ({ path }: Subject): boolean => paths.some((own) => path === own || path.startsWith(`${own}.`));
  return buildsBySet({ ...computed, system: alternating.model.system, settled: alternating, alternating: null }).map(
    ({ build, speaksOf }) => ({ build, speaksOf: (about) => isOf(about) && speaksOf(about) }),
  );
}

/** Whether something is a circuit of direct current, or no circuit at all. */
export const directOnly = ({ system }: Pick<Computed, "system">): BuildBySet["speaksOf"] => {
  const paths = new Set(system.circuits.flatMap((c) => (c.current === "AC" ? [`circuits.${c.id}`] : [])));
  return ({ path }) => !paths.has(path.replace(/\.(?:from|to)$/, ""));
};

/** A report to which only some things may be told. */
export const onlyOf = (report: Report, speaksOf: BuildBySet["speaksOf"]): Report => ({
  pass: (about, ...rest) => {
    if (speaksOf(about)) report.pass(about, ...rest);
  },
  fail: (about, ...rest) => {
    if (speaksOf(about)) report.fail(about, ...rest);
  },
  notApplicable: (about, ...rest) => {
    if (speaksOf(about)) report.notApplicable(about, ...rest);
  },
  cannotTell: (about, ...rest) => {
    if (speaksOf(about)) report.cannotTell(about, ...rest);
  },
});

/** What was computed, with the circuits of several sets as one of them has them. */
function asSetAsks(computed: Computed, at: number): Computed {
  const { design, settled, runs } = computed;
  if (settled.model.circuits.every((c) => c.bySet.length === 0)) return computed;
  const circuits = settled.model.circuits.map((c): CircuitModel => {
    const set = c.bySet[Math.min(at, c.bySet.length - 1)];
    if (set === undefined) return c;
    const supply = suppliesBySet(c.circuit, c.supply)[at] ?? c.supply;
    return { ...c, supply, ruleSet: set.ruleSet, rungs: c.rungs === null ? null : set.rungs, judged: set.judged };
  });
  const designs = design.circuits.map((own, i): CircuitDesign => {
    const c = circuits[settled.model.at[i] ?? -1];
    const run = runs.runs[i];
    if (c === undefined || c.bySet.length === 0 || c.rungs === null || run === undefined) return own;
    if (own.ampacityA === null) return own;
    const { amps, trust, zone } = ampacityIn(c, c.rungs, settled.chosen.rungs[c.position] ?? 0, run);
    return { ...own, ampacityA: amps, ampacityTrust: trust, ampacityZone: zone };
  });
  // A copy, so that what rules remember of a build they remember of each apart.
  return {
    ...computed,
    design: { ...design, circuits: designs },
    settled: { ...settled, model: { ...settled.model, circuits } },
  };
}
