import { useEffect, useRef, useState } from "preact/hooks";
import type { Outcome } from "../contract.ts";
import type { CellEdit } from "./table.ts";

/**
 * A figure that is being typed over. Enter or leaving it makes the edit, Escape gives the old one back; what could not be read stays as typed, with
 * what was expected under it.
 */
export function CellField({
  edit,
  onCommit,
  onClose,
}: {
  readonly edit: CellEdit;
  readonly onCommit: (text: string) => Promise<Outcome>;
  /** @param byKey the person is still here: the cell takes the focus back */
  readonly onClose: (byKey: boolean) => void;
}) {
  const [text, setText] = useState(edit.text);
  const [problem, setProblem] = useState<{ readonly message: string; readonly hint: string } | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const isBusy = useRef(false);
  const isClosed = useRef(false);
  const id = `cell-${edit.about}-${edit.field}`.replace(/[^A-Za-z0-9_-]/g, "_");

  useEffect(() => {
    field.current?.focus();
    field.current?.select();
    return () => {
      isClosed.current = true;
    };
  }, []);

  const close = (byKey: boolean): void => {
    if (isClosed.current) return;
    isClosed.current = true;
    onClose(byKey);
  };
  const commit = async (byKey: boolean): Promise<void> => {
    if (isBusy.current || isClosed.current) return;
    if (text.trim() === edit.text.trim()) {
      close(byKey);
      return;
    }
    isBusy.current = true;
    const outcome = await onCommit(text.trim());
    isBusy.current = false;
    if (outcome.ok) close(byKey);
    else if (!isClosed.current) setProblem(outcome);
  };

  return (
    <span class="schedules-edit">
      <input
        ref={field}
        class="blank"
        type="text"
        size={Math.max(6, Math.min(24, text.length + 1))}
        aria-label={edit.label}
        aria-invalid={problem !== null}
        {...(problem === null ? {} : { "aria-describedby": id })}
        autocomplete="off"
        spellcheck={false}
        value={text}
        onInput={(event) => {
          setText(event.currentTarget.value);
        }}
        onClick={(event) => {
          event.stopPropagation();
        }}
        onKeyDown={(event) => {
          // The keys of the table and of the page rest while somebody types.
          event.stopPropagation();
          if (event.key === "Enter") {
            event.preventDefault();
            void commit(true);
          } else if (event.key === "Escape") {
            event.preventDefault();
            close(true);
          }
        }}
        onBlur={() => {
          void commit(false);
        }}
      />
      {problem === null ? null : (
        <span class="schedules-problem" id={id} role="alert">
          {problem.message}
          {problem.hint === "" ? null : `. ${problem.hint}`}
        </span>
      )}
    </span>
  );
}
