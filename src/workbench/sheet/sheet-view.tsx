import { useLayoutEffect, useMemo, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { Margin } from "../margin/margin.tsx";
import { useBench } from "../use-bench.ts";
import { FirstSource } from "./first-source.tsx";
import { fitScale, Drawing, type Sight } from "./drawing.tsx";
import { SelectionVerbs } from "./selection-verbs.tsx";
import { TitleBlock } from "./title-block.tsx";
import { ZoneBands } from "./zone-bands.tsx";
import { ZoomButtons } from "./zoom-buttons.tsx";
import "./sheet-view.css";

/** The one-line: the drawing at the left, its notes in the margin, tied to their places by leaders. */
export function SheetView({ bench }: { readonly bench: Bench }) {
  const { drawing: inked, pencil, plan, broken, working, selection } = useBench(bench);
  const drawing = pencil?.drawing ?? inked;
  const [sight, setSight] = useState<Sight>({ scale: null, left: 0, top: 0, width: 0, height: 0 });
  const [readAsList, setReadAsList] = useState(false);
  const fit = useMemo(
    () => (drawing === null ? 1 : fitScale(drawing.width, drawing.height, sight.width, sight.height)),
    [drawing?.width, drawing?.height, sight.width, sight.height],
  );
  useLayoutEffect(() => {
    const toggle = (): void => {
      setReadAsList((on) => !on);
    };
    const hear = (event: Event): void => {
      if (event instanceof CustomEvent && event.detail === "list") toggle();
    };
    addEventListener("bench-show", hear);
    return () => {
      removeEventListener("bench-show", hear);
    };
  }, []);
  const { openNote } = bench.state;
  const [marginShown, setMarginShown] = useState(false);
  // Where the margin lies over the sheet it comes with the note that is opened.
  useLayoutEffect(() => {
    if (openNote !== null) setMarginShown(true);
  }, [openNote]);
  const isEmpty = plan !== null && plan.things.every(({ what }) => what !== "part");
  return (
    <div class={`sheet${broken === null ? "" : " sheet-stale"}`}>
      <ZoneBands />
      <div class="sheet-body">
        <main class="sheet-main" aria-label="One-line" aria-busy={working}>
          {drawing === null ? (
            <p class="sheet-waiting dim">{broken ?? "Drawing …"}</p>
          ) : isEmpty ? (
            <FirstSource bench={bench} />
          ) : (
            <Drawing
              bench={bench}
              drawing={drawing}
              before={pencil?.drawing === undefined ? null : inked}
              scale={sight.scale ?? fit}
              fit={fit}
              onSight={setSight}
            />
          )}
          {drawing === null || isEmpty ? null : (
            <div class="sheet-foot">
              <SelectionVerbs bench={bench} />
              <ZoomButtons scale={sight.scale ?? fit} fit={fit} />
            </div>
          )}
          {readAsList && drawing !== null ? <DrawingAsList bench={bench} /> : null}
        </main>
        <button
          type="button"
          class="button sheet-flag"
          aria-expanded={marginShown}
          onClick={() => {
            setMarginShown(!marginShown);
          }}
        >
          {marginShown ? "Hide notes" : "Notes"}
        </button>
        <aside class={`sheet-margin${marginShown ? " sheet-margin-shown" : ""}`} aria-label="Notes">
          <h2 class="unseen">Notes</h2>
          {drawing === null ? null : (
            <Margin
              bench={bench}
              drawing={drawing}
              scale={sight.scale ?? fit}
              scrollTop={sight.top}
              scrollLeft={sight.left}
              selection={selection}
            />
          )}
          <TitleBlock bench={bench} />
        </aside>
      </div>
    </div>
  );
}

/** The same as the drawing, as a list for readers who cannot see it or would rather not. */
function DrawingAsList({ bench }: { readonly bench: Bench }) {
  const { drawing, plan } = useBench(bench);
  if (drawing === null || plan === null) return null;
  return (
    <section class="sheet-list" aria-label="The drawing as a list">
      <p>{drawing.says}</p>
      <ul>
        {plan.things
          .filter(({ about }) => drawing.spoken[about] !== undefined)
          .map(({ about }) => (
            <li key={about}>
              <button
                type="button"
                class="link"
                onClick={() => {
                  bench.select(about);
                }}
              >
                {drawing.spoken[about]}
              </button>
            </li>
          ))}
      </ul>
    </section>
  );
}
