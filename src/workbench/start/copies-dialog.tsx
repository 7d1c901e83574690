import type { Bench } from "../contract.ts";
import type { GoodCopy } from "../keep/build.ts";
import { timeOf } from "../keep/saved-line.ts";
import { Dialog } from "../settings/dialog.tsx";

/** Texts of a plan that were read without an error, newest first; each is opened as a plan of its own. */
export function CopiesDialog({
  bench,
  name,
  copies,
  onClose,
}: {
  readonly bench: Bench;
  /** Of the plan. */
  readonly name: string;
  readonly copies: readonly GoodCopy[];
  readonly onClose: () => void;
}) {
  const now = Date.now();
  return (
    <Dialog title={`Good copies of ${name}`} onClose={onClose}>
      <p>{copies.length === 0 ? "This browser keeps none." : "As it was when it was last read without an error."}</p>
      <ul class="start-copies">
        {copies.map(({ at, text, summary: { revision } }) => (
          <li key={at}>
            <span>
              {timeOf(at, now)}
              {revision === "" ? "" : `, revision ${revision}`}
            </span>
            <button
              type="button"
              class="button"
              aria-label={`Open beside: copy of ${timeOf(at, now)}`}
              onClick={() => {
                onClose();
                void bench.openText(text, `${name}, copy`);
              }}
            >
              Open beside
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
