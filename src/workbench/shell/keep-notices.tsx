import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import type { Keeper } from "../keep/keeper-shape.ts";
import type { GoodCopy } from "../keep/build.ts";
import { later } from "./later.tsx";
import { DropAnywhere } from "../start/drop-anywhere.tsx";
import "./keep-notices.css";

const CopiesDialog = later(async () => (await import("../start/copies-dialog.tsx")).CopiesDialog);

/**
 * What a person has to know or decide about where the plan is kept: nothing merges and nothing is overwritten in silence. Stands on every
 * sheet, and takes files that are dropped on any of them.
 */
export function KeepNotices({
  bench,
  keeper,
  takeOver,
}: {
  readonly bench: Bench;
  readonly keeper: Keeper;
  /** A newer version of the page is ready and can be taken at once. */
  readonly takeOver: (() => void) | null;
}) {
  const [, redraw] = useState(0);
  const [copies, setCopies] = useState<readonly GoodCopy[] | null>(null);
  useEffect(
    () =>
      keeper.subscribe(() => {
        redraw((n) => n + 1);
      }),
    [keeper],
  );
  const now = keeper.current();
  const { comparison = null, damagedLine = null, fileName = "the file" } = now ?? {};
  const showCopies = async (): Promise<void> => {
    setCopies(await keeper.goodCopies());
  };
  return (
    <>
      <DropAnywhere bench={bench} />
      {takeOver === null ? null : (
        <p class="keep-notice" role="status">
          A newer version of the page is ready.{" "}
          <button type="button" class="link" onClick={takeOver}>
            Take it now
          </button>
        </p>
      )}
      {damagedLine === null ? null : (
        <p class="keep-notice" role="status">
          {fileName} can be read to line {Math.max(0, damagedLine - 1)}; from there on it holds bytes that are no text.
          It stays as it is: save under another name.{" "}
          <button type="button" class="link" onClick={() => void showCopies()}>
            Good copies
          </button>
        </p>
      )}
      {comparison === null ? null : (
        <div class="keep-notice" role="alert">
          <p>
            {comparison.fileName} was changed outside at the same lines as here. Which of the two goes on? One undo
            brings the other back.
          </p>
          <details>
            <summary>What stands in the file</summary>
            <pre>{comparison.theirs}</pre>
          </details>
          <p>
            <button type="button" class="button" onClick={() => void keeper.decide("mine")}>
              Mine, as it is here
            </button>{" "}
            <button type="button" class="button" onClick={() => void keeper.decide("theirs")}>
              That of the file
            </button>
          </p>
        </div>
      )}
      {copies === null ? null : (
        <CopiesDialog
          bench={bench}
          name={now?.name ?? "plan"}
          copies={copies}
          onClose={() => {
            setCopies(null);
          }}
        />
      )}
    </>
  );
}
