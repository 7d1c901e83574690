import type { NamedRuleSet } from "./rule-set.ts";

/** A rule set of which only name and scope are known here, so that a plan that names it is told so instead of being judged by another. */
export function named(set: {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly scope: string;
}): NamedRuleSet {
  const { id, title, edition, scope } = set;
  return {
    id,
    title,
    editions: [{ name: edition, says: "the edition that the numbers will be taken from" }],
    scope,
    cautions: [],
    carried: false,
    notCarried: `the numbers of ${id} are not carried yet: what they decide cannot be told`,
  };
}
