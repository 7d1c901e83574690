import { isVerified, printTrust } from "../explain/index.ts";
import { missingSays, type Assumption, type MissingFact } from "../system/index.ts";
import { clip, wrap } from "./text-width.ts";

/** At most so many names stand behind an assumption. */
const MOST_NAMES = 6;

/**
 * Defaults that were used, each with the key that says otherwise. The word that stands for most of them is said once, at the head.
 *
 * @param pinned how a key is written where it is to be typed
 */
export function printAssumptions(
  assumptions: readonly Assumption[],
  width: number,
  pinned: (key: string) => string = (key) => `\`${key}\``,
): string[] {
  if (assumptions.length === 0) return [];
  const words = assumptions.map(({ trust }) => (isVerified(trust) ? "" : printTrust(trust)));
  const usual =
    words.filter((word) => word === words[0]).length === words.length ? (words[0] ?? "") : "common practice";
  const lines = assumptions.flatMap(({ says, pin, about }, i) => {
    const word = words[i] ?? "";
    const trust = word === usual || word === "" ? "" : `, ${word}`;
    const names = about.length > MOST_NAMES ? [...about.slice(0, MOST_NAMES), "…"] : about;
    const whom = names.length === 0 ? "" : ` (${names.map((name) => clip(name, 30)).join(", ")})`;
    return wrap(`- ${says}${trust}${whom}${pin === "" ? "" : `; pin with ${pinned(pin)}`}`, width, 2);
  });
  return [...wrap(`Assumed${usual === "" ? "" : `, ${usual} unless it says otherwise`}`, width), ...lines];
}

/** Facts that somebody should supply. */
export function printMissing(missing: readonly MissingFact[], width: number): string[] {
  if (missing.length === 0) return [];
  return [
    "Missing facts",
    ...missing.flatMap(({ about, fact, why }) => wrap(`- ${about}: \`${fact}\` is ${missingSays[why]}`, width, 2)),
  ];
}

/** What no study of this page looks at yet; said wherever its results are. */
const NOT_CHECKED =
  "Not judged yet: terminals and lugs, short circuits between two lines of alternating current, harmonics, and the rule sets' further rules. What a short circuit does to a conductor is shown and chooses no size. Work on mains voltage is for licensed people: the local code decides, not this.";

const CAUTION =
  "Wiring can burn, shock and sink. These figures are advice to a competent person, not a certificate: local law, the edition of the rules in force and a licensed electrician or surveyor decide. Isolate before working.";

/** What was not checked, and the caution, as paragraphs. */
export const cautions: readonly string[] = [NOT_CHECKED, CAUTION];

/** The same for a screen of fixed width. */
export const printCaution = (width: number): string[] => cautions.flatMap((text) => wrap(text, width));
