import type { Bench } from "../contract.ts";
import { keyFor, type KeyCommand } from "../settings/keys.ts";
import { isTyping, mayAct } from "../settings/typing.ts";
import { carryOut } from "./carry-out.ts";

/** What a key that is held down may do again and again. */
const STEADY: ReadonlySet<KeyCommand> = new Set([
  "undo",
  "redo",
  "zoom-in",
  "zoom-out",
  "next-finding",
  "previous-finding",
]);

/** Acts on the keys that belong to the page as a whole; those of a part it hears itself. @returns what stops it */
export function listenToKeys(bench: Bench): () => void {
  const listen = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    if (document.querySelector("dialog[open]") !== null) return;
    const row = keyFor(event, bench.state.view);
    if (row === null) return;
    if (!mayAct(row, event.target)) return;
    if (isTyping(event.target) && (row.key === "Delete" || row.key === "Escape" || row.key === "Enter")) return;
    if (event.repeat && !STEADY.has(row.does)) return;
    if (carryOut(bench, row.does, false)) event.preventDefault();
  };
  addEventListener("keydown", listen);
  return () => {
    removeEventListener("keydown", listen);
  };
}
