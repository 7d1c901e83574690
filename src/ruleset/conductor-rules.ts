import type { Citation } from "../explain/index.ts";
import type { Celsius } from "../quantity/index.ts";
import { strandClasses, type Metal, type Strands } from "../wire/index.ts";

/** A value that a rule set asks for, with its source. */
export interface Asked<Value> {
  readonly value: Value;
  readonly source: Citation;
}

/** What a rule set asks of a conductor beside its size. */
export interface ConductorRules {
  readonly metals: Asked<readonly Metal[]>;
  readonly solidAllowed: Asked<boolean>;
  /** Strand classes fit for places where the conductor bends often. */
  readonly flexing: Asked<readonly Strands[]>;
  /** Least temperature rating of the insulation, °C. */
  readonly leastInsulationC: Asked<Celsius>;
  /** The same in engine spaces. */
  readonly engineInsulationC: Asked<Celsius>;
  /** Wet, oil and the like, in words: what a chosen wire has to be bought for. */
  readonly purchase: readonly Asked<string>[];
}

/** What a rule set has against the strands of a conductor; null where it has nothing. */
export function strandsFault(rules: ConductorRules, strands: Strands, bends: boolean): Citation | null {
  const { solidAllowed, flexing } = rules;
  if (strandClasses[strands].isSolid && !solidAllowed.value) return solidAllowed.source;
  if (bends && !flexing.value.includes(strands)) return flexing.source;
  return null;
}
