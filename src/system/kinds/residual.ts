import { quantity, residualCurrent, word, yesNo, type Fact, type Measure } from "../../plan/index.ts";
import type { InternalElement, ResidualGuard } from "../element.ts";
import { givenOrUnknown, present } from "../value.ts";

/** What stands on a device that opens on leakage. */
export const residualFacts = {
  "residual device": {
    value: residualCurrent(),
    doc: "Residual current that it opens at.",
  },
  "residual type": {
    value: word(["AC", "A", "F", "B"]),
    doc: "Waveforms of leakage that it sees, by its letter in IEC 60755.",
  },
  "residual time": {
    value: quantity("time", { min: 0 }),
    doc: "Longest time that it takes at its residual current.",
  },
  "residual delay": {
    value: yesNo(),
    doc: "`yes`: it waits on purpose, so that one behind it opens first.",
  },
} as const;

interface ResidualFacts {
  readonly "residual device"?: Fact<Measure>;
  readonly "residual type"?: Fact<"AC" | "A" | "F" | "B">;
  readonly "residual time"?: Fact<Measure>;
  readonly "residual delay"?: Fact<boolean>;
}

/**
 * The guard against leakage in a device, where the plan says that there is one.
 *
 * @param passed what lies between the two sides of the device
 */
export function residualGuard(
  id: string,
  part: string,
  passed: readonly InternalElement[],
  facts: ResidualFacts,
): ResidualGuard[] {
  const fact = facts["residual device"];
  if (fact === undefined) return [];
  return [
    {
      is: "residual guard",
      id: `${id}:residual`,
      part,
      ...throughDevice(passed),
      amps: givenOrUnknown(fact) ?? "unknown",
      ...present<Pick<ResidualGuard, "seconds" | "type" | "delayed">>({
        seconds: givenOrUnknown(facts["residual time"]),
        type: facts["residual type"]?.value,
        delayed: facts["residual delay"]?.value,
      }),
    },
  ];
}

/** What a device of these elements opens, and where neutral goes through it unopened. */
export function throughDevice(passed: readonly InternalElement[]): Pick<ResidualGuard, "contacts" | "through"> {
  const contacts = passed.flatMap((e) => (e.is === "contact" ? e.id : []));
  const through = passed.flatMap((e) => (e.is === "join" && e.a.endsWith(":N") ? e.id : []));
  return through.length === 0 ? { contacts } : { contacts, through };
}
