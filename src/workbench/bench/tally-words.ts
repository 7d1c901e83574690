import type { PagePlan } from "../worker/protocol.ts";

/**
 * What an edit did to the count of findings; empty: nothing, or not judged yet.
 *
 * @example
 * const was = { must: 2, should: 1, note: 0, waived: 0, cannotTellMust: 0, cannotTell: 0, pass: 9, thin: 0, notApplicable: 0 }
 * tallyWords({ judged: "yes", tally: was }, { judged: "yes", tally: { ...was, must: 1 } }) //=> "1 must fail, was 2; 1 should fail; 0 cannot tell"
 */
export function tallyWords(
  before: Pick<PagePlan, "judged" | "tally">,
  now: Pick<PagePlan, "judged" | "tally">,
): string {
  if (before.judged !== "yes" || now.judged !== "yes") return "";
  const [was, is] = [before.tally, now.tally];
  if (was.must === is.must && was.should === is.should && was.cannotTell === is.cannotTell) return "";
  const words = (count: number, old: number, word: string): string =>
    count === old ? `${count} ${word}` : `${count} ${word}, was ${old}`;
  return [
    words(is.must, was.must, "must fail"),
    words(is.should, was.should, "should fail"),
    words(is.cannotTell, was.cannotTell, "cannot tell"),
  ].join("; ");
}
