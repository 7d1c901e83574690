import type { ReadingToChoose } from "../../../act/wire-card/index.ts";
import type { NamedLabel } from "../question-link.ts";

/** What a reading is chosen by: a label that means it alone, else the context that does. */
export function chosenLabel(reading: ReadingToChoose, { text, context }: NamedLabel): NamedLabel | null {
  if (reading.exactLabel !== null) return { text: reading.exactLabel, context };
  const [first] = reading.contexts;
  return first === undefined ? null : { text, context: first };
}
