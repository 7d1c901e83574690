import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import "./settings.css";

/** A sheet over the page, with a title and a way out. Esc, a press beside it, and the button close it; focus goes back to where it was. */
export function Dialog({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const before = document.activeElement;
    dialog.current?.showModal();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      class="settings-dialog"
      aria-labelledby={id}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === dialog.current) dialog.current?.close();
      }}
    >
      <div class="settings-inside">
        <div class="settings-head">
          <h2 id={id}>{title}</h2>
          <button type="button" class="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
        {children}
      </div>
    </dialog>
  );
}
