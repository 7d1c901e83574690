import type { BoundPart } from "./bind-parts.ts";
import type { SystemPart } from "./system.ts";
import { given, type Value } from "./value.ts";

type Facts = Readonly<Record<string, { readonly value: unknown } | undefined>>;

/** What a part's label says of its limits, as far as the plan repeats it; what is not written is not stated by its maker. */
export type ReadMarks = Pick<SystemPart, "rated" | "intermittent" | "gives" | "largestDevice" | "duty" | "marks">;

/** Reads the limits that stand on a part, whatever its kind: kinds that have no such key never give one. */
export function readMarks({ plan, traits }: BoundPart): ReadMarks {
  const facts: Facts = { ...plan.facts, ...plan.kindFacts };
  // A load's or a source's `rated` is its output, not what may flow through it.
  const carries = traits.distributes === true || traits.passes === true;
  const rated = carries ? valueOf(facts["rated"]) : undefined;
  const intermittent = traits.passes === true ? valueOf(facts["intermittent"]) : undefined;
  const ahead = traits.lead === true ? valueOf(facts["upstream"]) : undefined;
  const gives =
    traits.enters === true
      ? givenOutput(facts["rated"])
      : ahead === undefined || ahead === "unknown"
        ? ahead
        : ({ value: ahead, unit: "A" } as const);
  const largestDevice = traits.load === true ? valueOf(facts["largest fuse"]) : undefined;
  const duty = wordOf(facts["duty"], ["continuous", "intermittent"] as const);
  const use = wordOf(facts["for"], ["DC", "AC", "both"] as const);
  const reset = wordOf(facts["reset"], ["manual", "automatic"] as const);
  const dcVolts = valueOf(facts["DC volts"]) ?? valueOf(facts["volts"]);
  const acVolts = valueOf(facts["AC volts"]);
  const marks = {
    ...(use === undefined ? {} : { use }),
    ...(reset === undefined ? {} : { reset }),
    ...(dcVolts === undefined ? {} : { dcVolts }),
    ...(acVolts === undefined ? {} : { acVolts }),
  };
  return {
    ...(rated === undefined ? {} : { rated }),
    ...(intermittent === undefined ? {} : { intermittent }),
    ...(gives === undefined ? {} : { gives }),
    ...(largestDevice === undefined ? {} : { largestDevice }),
    ...(duty === undefined ? {} : { duty }),
    ...(traits.passes === true ? { marks } : {}),
  };
}

function valueOf(fact: Facts[string]): Value | "unknown" | undefined {
  const value = fact?.value;
  if (value === "unknown") return "unknown";
  return isMeasure(value) ? given(value) : undefined;
}

/** A rating in amps, or in watts or volt-amperes, which a rating does not tell apart. */
function givenOutput(fact: Facts[string]): SystemPart["gives"] {
  const value = valueOf(fact);
  if (value === undefined || value === "unknown") return value;
  const dimension = (fact?.value as { readonly dimension?: string }).dimension; // read as a quantity of several dimensions
  return { value, unit: dimension === "current" ? "A" : "VA" };
}

const isMeasure = (v: unknown): v is { low: number; high: number; text: string } =>
  typeof v === "object" && v !== null && "low" in v && "high" in v;

function wordOf<const W extends string>(fact: Facts[string], words: readonly W[]): W | "unknown" | undefined {
  const value = fact?.value;
  return value === "unknown" ? value : words.find((w) => w === value);
}
