import type { Bench } from "../contract.ts";
import { useDroppedFile } from "./drop-file.ts";
import "./start.css";

/** Opens a file that is dropped on the page, whatever it shows, and says why one was not. */
export function DropAnywhere({ bench }: { readonly bench: Bench }) {
  const { over, says, dismiss } = useDroppedFile(bench);
  return (
    <>
      {says === "" ? null : (
        <p class="start-fault" role="alert">
          {says}{" "}
          <button type="button" class="link" onClick={dismiss}>
            Close
          </button>
        </p>
      )}
      {over ? (
        <div class="start-drop" aria-hidden="true">
          Drop the plan to open it
        </div>
      ) : null}
    </>
  );
}
