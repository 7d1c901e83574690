import { useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { Dialog } from "../settings/dialog.tsx";

/** All steps of the plan, the last on top: the one undo list over drawing, tables, text and cures. */
export function StepsList({ bench }: { readonly bench: Bench }) {
  const [open, setOpen] = useState(false);
  const { names, done } = open ? bench.steps() : { names: [], done: 0 };
  const go = (to: number): void => {
    bench.undoTo(to);
    setOpen(false);
  };
  return (
    <>
      <button
        type="button"
        class="head-step head-steps"
        aria-haspopup="dialog"
        aria-label="All steps"
        title="All steps"
        onClick={() => {
          setOpen(true);
        }}
      >
        <svg
          width="12"
          height="12"
          viewBox="0 0 12 12"
          fill="none"
          stroke="currentColor"
          stroke-width="1.6"
          aria-hidden="true"
        >
          <path d="M2 4l4 4 4-4" />
        </svg>
      </button>
      {open ? (
        <Dialog
          title="Steps"
          onClose={() => {
            setOpen(false);
          }}
        >
          {names.length === 0 ? <p>Nothing was done to this plan yet.</p> : null}
          <ol class="head-list" reversed>
            {names
              .map((name, i) => ({ name, to: i + 1 }))
              .reverse()
              .map(({ name, to }) => (
                <li key={to}>
                  <button
                    type="button"
                    class="link"
                    aria-current={to === done ? "step" : undefined}
                    onClick={() => {
                      go(to);
                    }}
                  >
                    {name}
                    {to === done ? ": now" : to > done ? ": undone" : ""}
                  </button>
                </li>
              ))}
          </ol>
          {names.length > 0 && done > 0 ? (
            <button
              type="button"
              class="link"
              onClick={() => {
                go(0);
              }}
            >
              Before the first of them
            </button>
          ) : null}
        </Dialog>
      ) : null}
    </>
  );
}
