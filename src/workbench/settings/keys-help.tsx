import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { Dialog } from "./dialog.tsx";
import { capsOf, isSingle, keyFor, keysOf } from "./keys.ts";
import { readSettings } from "./settings.ts";
import { mayAct } from "./typing.ts";
import { useOrder } from "./use-order.ts";

/** The keys of the view that is shown; `?` opens it, and the button, where one is wanted. */
export function KeysHelp({ bench, button = false }: { readonly bench: Bench; readonly button?: boolean }) {
  const { view } = useBench(bench);
  const [open, setOpen] = useState(false);
  useOrder("keys", () => {
    setOpen(true);
  });
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const row = keyFor(event, view);
      if (row?.does !== "keys" || !mayAct(row, event.target) || event.defaultPrevented) return;
      event.preventDefault();
      setOpen(true);
    };
    document.addEventListener("keydown", press);
    return () => {
      document.removeEventListener("keydown", press);
    };
  }, [view]);

  return (
    <>
      {button && (
        <button
          type="button"
          class="link"
          aria-haspopup="dialog"
          onClick={() => {
            setOpen(true);
          }}
        >
          Keys
        </button>
      )}
      {open && (
        <Dialog
          title="Keys of this view"
          onClose={() => {
            setOpen(false);
          }}
        >
          <table class="settings-keys">
            <thead>
              <tr>
                <th scope="col">key</th>
                <th scope="col">does</th>
              </tr>
            </thead>
            <tbody>
              {keysOf(view).map((row) => (
                <tr key={capsOf(row).join(" ")}>
                  <th scope="row">
                    {capsOf(row).map((cap) => (
                      <kbd key={cap}>{cap}</kbd>
                    ))}
                  </th>
                  <td>{row.verb}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p class="dim">
            {readSettings().singleKeys
              ? "Single letters never act while a field has the focus. They can be switched off under units."
              : `Single letters are switched off: ${keysOf(view).filter(isSingle).length} of these keys do not act.`}
          </p>
        </Dialog>
      )}
    </>
  );
}
