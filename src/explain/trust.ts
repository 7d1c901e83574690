/**
 * How far a number can be leaned on, strongest first. The seven words stand in every published table of `reference/`.
 * `practice` stands before `memory`, so that a number made of both prints as unverified rather than as practice.
 */
export const trustWords = ["read", "derived", "article", "practice", "memory", "conflict", "missing"] as const;

/** One of the seven status words; `reference/README.md` says what each allows. */
export type Trust = (typeof trustWords)[number];

const printed: Readonly<Record<Trust, string>> = {
  read: "read",
  derived: "derived",
  article: "as quoted",
  practice: "common practice",
  memory: "unverified",
  conflict: "unverified: sources differ",
  missing: "unverified: no value known",
};

/** Whether a text is one of the seven words. */
export const isTrust = (text: string): text is Trust => Object.hasOwn(printed, text);

/**
 * The trust of a number made from several others: that of the weakest.
 *
 * @param trusts none at all counts as `derived`: pure arithmetic leans on nothing
 * @example
 * weakestTrust("read", "memory", "practice") //=> "memory"
 * weakestTrust("read", "article") //=> "article"
 */
export function weakestTrust(...trusts: readonly Trust[]): Trust {
  let weakest = -1;
  for (const trust of trusts) weakest = Math.max(weakest, trustWords.indexOf(trust));
  return trustWords[weakest] ?? "derived";
}

/**
 * Whether a check may rest on the number: it was read, quoted or computed from such.
 *
 * @example
 * isVerified("article") //=> true
 * isVerified("practice") //=> false
 */
export const isVerified = (trust: Trust): boolean => trust === "read" || trust === "derived" || trust === "article";

/**
 * The words to print beside a number; once a column or a note, not in every cell.
 *
 * @example
 * printTrust("memory") //=> "unverified"
 * printTrust("practice") //=> "common practice"
 */
export const printTrust = (trust: Trust): string => printed[trust];
