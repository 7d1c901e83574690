import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { compile } from "../../../src/compile.ts";
import { rules, rulesOnDemand, type Finding } from "../../../src/rules/index.ts";
import { builds, planted, rulings, waiting } from "./planted.ts";
import type { Build, ExpectedFigure, ExpectedFinding, PlantedFault, Ruling, Spoken } from "./planted.ts";

/**
 * What the rules find on four healthy builds and on each of the faults planted in them, held against what was written down before any rule ran:
 * every finding that has to come comes, with its figures, and nothing fails beside it. Where the two differ, `rulings.yaml` says who is right and
 * why, and a figure is held to the one that it gives; a ruling that is not needed any more is as wrong as a difference without one. What a rule cannot tell counts only where it is expected.
 */

const ids = new Set([...rules, ...rulesOnDemand].map(({ id }) => id));
const used = new Set<number>();
const patterns = rulings.map(
  ({ what }) => new RegExp(`^${what.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*")}$`),
);

/** What somebody has ruled on this difference. */
function rulingOn(name: string, is: Ruling["is"], what: string): Ruling | undefined {
  const at = rulings.findIndex(
    (r, i) => r.is === is && (r.in === undefined || r.in.includes(name)) && patterns[i]?.test(what) === true,
  );
  if (at >= 0) used.add(at);
  return rulings[at];
}

const isOf = (expected: ExpectedFinding, finding: Finding): boolean =>
  finding.rule === expected.rule &&
  finding.outcome === expected.outcome &&
  [expected.about, ...(expected.or ?? [])].includes(finding.about);

/** What a finding says otherwise than expected, figure by figure. */
function offFigures(figures: readonly ExpectedFigure[], finding: Finding): string[] {
  return figures.flatMap(({ of, value, unit, within }) => {
    const found = finding[of];
    if (found === null) return [`no figure ${of}`];
    const share = Number.parseFloat(within) / 100;
    // Nought has no share: a figure of nought is met within the share of one unit.
    const near = Math.abs(found.value - value) <= share * (value === 0 ? 1 : Math.abs(value));
    return near && found.unit === unit
      ? []
      : [`${of} ${String(found.value)} ${found.unit} for ${String(value)} ${unit} within ${within}`];
  });
}

/** Differences for which there is no ruling. */
function unruled(
  name: string,
  text: string,
  must: readonly ExpectedFinding[],
  may: readonly Spoken[],
  mustNot: readonly string[],
): string[] {
  const { findings } = compile(text).judgement;
  const differs: string[] = [];
  const tell = (is: Ruling["is"], what: string, words: string): void => {
    if (rulingOn(name, is, what) === undefined) differs.push(`${is} ${what}${words}`);
  };
  for (const expected of must) {
    if (!ids.has(expected.rule)) continue;
    const what = `${expected.rule} ${expected.outcome} ${expected.about}`;
    const found = findings.filter((finding) => isOf(expected, finding));
    const [first] = found;
    if (first === undefined) {
      const beside = findings.filter(({ rule }) => rule === expected.rule);
      tell("missing", what, beside.map((f) => `; but ${f.outcome} ${f.about}: ${f.because}`).join(""));
      continue;
    }
    for (const finding of found)
      if (finding.severity !== expected.severity)
        tell("severity", what, `: ${finding.severity} where ${expected.severity} is expected`);
    const isOff = (figures: readonly ExpectedFigure[]): string[] => {
      const off = found.map((finding) => offFigures(figures, finding));
      return off.every((words) => words.length > 0) ? off.flat() : [];
    };
    let off = isOff(expected.figures ?? []);
    // Ruled to be another figure, it has to be that one.
    if (off.length > 0) off = isOff(rulingOn(name, "figure", what)?.figures ?? expected.figures ?? []);
    if (off.length > 0) differs.push(`figure ${what}: ${off.join(", ")} (${first.because})`);
  }
  for (const finding of findings) {
    if (finding.outcome !== "fail" || must.some((expected) => isOf(expected, finding))) continue;
    if (may.some(({ rule, about }) => rule === finding.rule && about === finding.about)) continue;
    const what = `${finding.rule} fail ${finding.about}`;
    tell(mustNot.includes(finding.rule) ? "noisy" : "extra", what, ` as a ${finding.severity}: ${finding.because}`);
  }
  return differs;
}

const ofFault = (build: Build, fault: PlantedFault): string[] =>
  unruled(
    fault.name,
    planted(build, fault),
    [...build.healthy.fails, ...fault.must],
    fault.mayFail ?? [],
    fault.mustNot,
  );

describe("exactly what was expected is found, or there is a ruling", () => {
  for (const build of builds) {
    test(`${build.base}, healthy`, () => {
      const silent = build.healthy.silent.map(({ rule }) => rule);
      assert.deepEqual(unruled(build.base, build.plan, build.healthy.fails, [], silent), []);
    });
    for (const fault of build.faults) {
      test(`${build.base}, ${fault.name}`, () => {
        assert.deepEqual(ofFault(build, fault), []);
      });
    }
  }
  test("every ruling is needed", () => {
    assert.deepEqual(
      rulings.filter((_, i) => !used.has(i)).map(({ is, what }) => `${is} ${what}`),
      [],
    );
  });
});

test("what waits for a rule that there is not yet is what is listed as waiting", () => {
  const missing = builds.flatMap((build) =>
    build.faults.flatMap((fault) =>
      fault.must
        .filter(({ rule }) => !ids.has(rule))
        .map(({ rule, about }) => `${build.base}, ${fault.name}: ${rule} of ${about}`),
    ),
  );
  if (missing.length > 0) console.log([`${String(missing.length)} wait for their rules:`, ...missing].join("\n  "));
  assert.deepEqual(missing, waiting.rules);
});
