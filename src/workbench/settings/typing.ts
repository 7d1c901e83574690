import { readSettings } from "./settings.ts";
import { isSingle, type KeyRow } from "./keys.ts";

/** Whether a key goes into a field. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) {
    return true;
  }
  return (
    target instanceof HTMLInputElement && !["button", "checkbox", "radio", "submit", "range"].includes(target.type)
  );
}

/** Keys that a field has a use for itself. */
const OF_FIELDS: readonly string[] = ["undo", "redo"];

/**
 * Whether a row may act now. Single characters never while somebody types or a dialog is open, nor when they are switched off;
 * a field takes its own keys back itself.
 */
export function mayAct(row: KeyRow, target: EventTarget | null): boolean {
  if (OF_FIELDS.includes(row.does)) return !isTyping(target);
  if (!isSingle(row)) return true;
  return !isTyping(target) && document.querySelector("dialog[open]") === null && readSettings().singleKeys;
}
