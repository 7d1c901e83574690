import { nearestNames } from "../plan/index.ts";

/**
 * A question about one circuit, as a person asks it: which wire for this load? Every figure is a text with its unit, such as `4.3 A`.
 */
export interface QuestionText {
  /** What the load takes while it runs: amps, or watts at the nominal volts. */
  readonly load: string;
  /** What it takes while it starts: amps, or watts at the nominal volts. */
  readonly start?: string;
  /** How long the start lasts; else 0.5 s. */
  readonly startTime?: string;
  /** Nominal volts of the supply, the base of the drop in percent; else 12 V. */
  readonly volts?: string;
  /** Length of the run, one way. Either this or `loop`. */
  readonly run?: string;
  /** Length there and back. Either this or `run`. */
  readonly loop?: string;
  /** Greatest voltage drop in percent of the nominal volts; else what the rule set allows a load of no special kind. */
  readonly drop?: string;
  /** Rule set, any of the eight, and its edition where one is meant; else iso-small-craft. */
  readonly rules?: string;
  /** Air temperature along the run; else 30 °C, in an engine space 50 °C. */
  readonly ambient?: string;
  /** Whether the run lies in an engine space. */
  readonly engineSpace?: boolean;
  /** Number of current-carrying conductors that lie together, the circuit's own two counted; else 2. */
  readonly bundle?: string;
  /** Temperature rating of the insulation; else 90 °C. */
  readonly insulation?: string;
  /** How it is installed, where the rule set's tables ask: `raceway`, `cable`, `free air`, `cord`, or a method of IEC 60364-5-52 by its letter. */
  readonly method?: string;
  /** Temperature marked on the terminals at its ends, the lowest of them; else as the rule set takes unmarked ones. */
  readonly terminals?: string;
  /** Size system that is bought: `mm²`, `AWG` or `SAE`; else mm², and AWG under American sets. */
  readonly stock?: string;
  /** `tinned copper`, `copper` or `aluminium`; else tinned copper. */
  readonly metal?: string;
  /** Stranding, such as `class 5`, `class 2`, `type 2`; else class 5. */
  readonly strands?: string;
  /** Whether the two conductors lie in one sheath. */
  readonly sheathed?: boolean;
  /** Least volts that the load runs with, by its maker. */
  readonly leastVolts?: string;
  /** Least volts that the load starts with, by its maker. */
  readonly startsAbove?: string;
  /** Volts that the source holds; else the nominal volts. */
  readonly sourceVolts?: string;
}

export type QuestionField = keyof QuestionText;

/** Every field of a question, in the order in which they are explained. */
export const questionFields = [
  "load",
  "start",
  "startTime",
  "volts",
  "run",
  "loop",
  "drop",
  "rules",
  "ambient",
  "engineSpace",
  "bundle",
  "insulation",
  "method",
  "terminals",
  "stock",
  "metal",
  "strands",
  "sheathed",
  "leastVolts",
  "startsAbove",
  "sourceVolts",
] as const satisfies readonly QuestionField[];

/** The fields of whatever was given; names that there are not are reported with the nearest that there is. */
export function fieldsOf(
  input: unknown,
  say: (field: "", message: string, hint: string) => void,
): { readonly [F in QuestionField]?: unknown } {
  if (typeof input !== "object" || input === null || Array.isArray(input)) {
    say("", "a question is an object of fields", 'write `{ "load": "4.3 A", "run": "5.2 m" }`');
    return {};
  }
  const fields: { [F in QuestionField]?: unknown } = {};
  for (const [key, value] of Object.entries(input)) {
    const field = questionFields.find((f) => f === key);
    if (field !== undefined) {
      fields[field] = value;
      continue;
    }
    const near = nearestNames(key, questionFields, 1)[0];
    const shown = key.replace(/\p{C}/gu, "·").slice(0, 40);
    say(
      "",
      `a question has no field \`${shown}\``,
      near === undefined ? `the fields are ${questionFields.join(", ")}` : `did you mean \`${near}\`?`,
    );
  }
  return fields;
}
