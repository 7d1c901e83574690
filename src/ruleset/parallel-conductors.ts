import { cite, type Citation } from "../explain/index.ts";
import { awgSize, type WireSize } from "../wire/index.ts";

/** From which size on conductors may be run in parallel, all alike and equally long. */
export interface ParallelRules {
  readonly least: WireSize;
  readonly source: Citation;
}

const LEAST = awgSize("1/0");
const BY_CODE = ["us-cabin", "us-rv"];

/**
 * The least size of conductors in parallel under a rule set. Where a set is not known to say anything, the size of the American code stands in as common practice.
 *
 * @param id of the rule set
 * @source NFPA 70 310.10(G)
 * @example
 * parallelRules("us-rv").source.trust //=> "read"
 * parallelRules("iso-small-craft").least.label //=> "1/0 AWG"
 */
export function parallelRules(id: string): ParallelRules {
  if (LEAST === null) throw new Error("AWG has no 1/0");
  return {
    least: LEAST,
    source: BY_CODE.includes(id)
      ? cite("nfpa-70-2023", "310.10(G)", "read")
      : cite("trade-practice", "conductors in parallel from 1/0 AWG on", "practice"),
  };
}
