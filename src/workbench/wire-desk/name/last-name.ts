import { recall, remember } from "../../settings/small-memory.ts";
import { labelFromJson, type NamedLabel } from "../question-link.ts";

/** The name on the desk. Whoever asks for one elsewhere, in the ask field or on a drawing, puts it there. */
const listeners = new Set<(label: NamedLabel) => void>();

/** The name that was asked for last, on this visit or an earlier one; null: none. */
export function lastName(): NamedLabel | null {
  const text = recall("name");
  return text === null ? null : labelFromJson(text);
}

/** Remembers what was asked for, without telling anybody. */
export const keepName = ({ text, context }: NamedLabel): void => {
  remember("name", JSON.stringify({ label: text, where: context }));
};

/** Whether a name was laid on the desk that nobody has looked at yet: the desk then opens at its field. */
let isNew = false;

/** Lays a name on the desk; if the desk is open, it changes to it. */
export function layName(label: NamedLabel): void {
  keepName(label);
  isNew = true;
  for (const listener of listeners) listener(label);
}

/** @returns whether a name was laid since this was asked last */
export function takeNews(): boolean {
  const was = isNew;
  isNew = false;
  return was;
}

/** Hears of names that are laid on the desk from elsewhere; what it returns ends that. */
export function onName(listener: (label: NamedLabel) => void): () => void {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
}
