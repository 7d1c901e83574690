import { quantity, word, yesNo, type Fact, type Measure } from "../../plan/index.ts";
import type { InternalElement, ResidualGuard } from "../element.ts";
import { givenOrUnknown, present } from "../value.ts";

/** What stands on a device that opens on leakage. */
export const residualFacts = {
  "residual device": {
    value: quantity("current", { min: 0 }),
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

/** The guard against leakage in a device, where the plan says that there is one. */
export function residualGuard(
  id: string,
  part: string,
  contacts: readonly string[],
  facts: ResidualFacts,
): ResidualGuard[] {
  const fact = facts["residual device"];
  if (fact === undefined) return [];
  return [
    {
      is: "residual guard",
      id: `${id}:residual`,
      part,
      contacts,
      amps: givenOrUnknown(fact) ?? "unknown",
      ...present<Pick<ResidualGuard, "seconds" | "type" | "delayed">>({
        seconds: givenOrUnknown(facts["residual time"]),
        type: facts["residual type"]?.value,
        delayed: facts["residual delay"]?.value,
      }),
    },
  ];
}

export const contactIds = (elements: readonly InternalElement[]): string[] =>
  elements.flatMap((e) => (e.is === "contact" ? e.id : []));
