import { ruleSets } from "./rule-sets.ts";
import type { Edition, RuleSet } from "./rule-set.ts";

/** A rule set that a text names. */
export interface FoundRuleSet {
  readonly found: true;
  readonly set: RuleSet;
  /** The edition whose numbers are used. */
  readonly edition: Edition;
  /** Whether the text named an edition at all; if not, the set's first one stands in, which is worth listing. */
  readonly editionNamed: boolean;
  /** What a reader has to be told: an edition that is not carried. */
  readonly remarks: readonly string[];
}

/** A text that names no rule set. */
export interface NoRuleSet {
  readonly found: false;
  /** What is, what was expected. */
  readonly problem: string;
  /** One next step. */
  readonly hint: string;
}

/** What people type between words: spaces, underscores, any dash. */
const BETWEEN = "[\\s_\\u2010-\\u2015\\u2212-]+";

/** One spelling for all: no case, one kind of dash. */
const folded = (text: string): string => text.toLowerCase().replace(new RegExp(BETWEEN, "g"), "-");

/** Finds a name at the start of a text. */
const nameOf = (id: string): RegExp => new RegExp(`^${id.replaceAll("-", BETWEEN)}(?:$|[:,]|${BETWEEN})`, "i");

/** What a message may repeat of a person's text. */
const shown = (text: string): string => {
  const letters = Array.from(
    text
      .slice(0, 200)
      .replace(/\p{C}+/gu, " ")
      .trim(),
  );
  return letters.length > 40 ? `${letters.slice(0, 40).join("")}…` : letters.join("");
};

/** Whether the words after a rule set's name mean an edition. */
function means(edition: Edition, words: string): boolean {
  const bare = (text: string): string => folded(text).replaceAll("-", "");
  if ([edition.name, ...(edition.also ?? [])].some((name) => bare(name) === bare(words))) return true;
  if (edition.years === undefined) return false;
  const years = words.match(/(?:19|20)\d\d/g)?.map(Number) ?? [];
  const [from, to] = edition.years;
  return years.length > 0 && years.every((year) => year >= from && year <= to);
}

/** Pairs of neighbouring letters, for likeness. */
function pairs(text: string): Set<string> {
  const found = new Set<string>();
  for (let i = 0; i + 1 < text.length; i++) found.add(text.slice(i, i + 2));
  return found;
}

/** What to write instead: a name that is nearly it, and all of them. */
function advice(words: string): string {
  const sought = pairs(words.slice(0, 60));
  const likeness = (id: string): number => {
    let shared = 0;
    const own = pairs(id);
    for (const pair of own) if (sought.has(pair)) shared++;
    return (2 * shared) / (own.size + sought.size || 1);
  };
  const all = ruleSets.map(({ id }) => `\`${id}\``);
  const [best] = ruleSets.map(({ id }) => ({ id, like: likeness(id) })).sort((a, b) => b.like - a.like);
  const near = best !== undefined && best.like >= LIKE ? `did you mean \`${best.id}\`? ` : "";
  return `${near}the sets are ${all.slice(0, -1).join(", ")} and ${all.at(-1) ?? ""}`;
}

/** Share of pairs in common from which one name is probably meant for another. */
const LIKE = 0.4;

/**
 * The rule set and edition that a text names, as in `iso-small-craft 2020+A1:2022`.
 *
 * Case, spaces, underscores and kinds of dash do not matter. An edition that is not carried is answered with the one that is, and a remark.
 *
 * @param text as written in a plan; may be anything
 * @example
 * findRuleSet("ISO small craft 2020 + A1:2022").found //=> true
 * findRuleSet("iso boat").found //=> false
 */
export function findRuleSet(text: string): FoundRuleSet | NoRuleSet {
  // Longer than any name and edition; what lies beyond is not worth reading.
  const written = text.slice(0, 200).normalize("NFKC").trim();
  const at = ruleSets.flatMap((set) => {
    const match = nameOf(set.id).exec(written);
    return match === null ? [] : [{ set, rest: written.slice(match[0].length).trim() }];
  })[0];
  if (at === undefined) {
    const problem =
      written === ""
        ? "no rule set is named"
        : `no rule set is called \`${shown(text)}\`; expected a name and an edition`;
    return { found: false, problem, hint: advice(folded(written)) };
  }
  const { set, rest } = at;
  const remarks: string[] = [];
  const carried = set.editions[0];
  const edition = rest === "" ? carried : set.editions.find((each) => means(each, folded(rest)));
  if (edition === undefined) {
    remarks.push(`edition \`${shown(rest)}\` of ${set.id} is not carried; the numbers are those of ${carried.name}`);
  }
  return { found: true, set, edition: edition ?? carried, editionNamed: rest !== "", remarks };
}
