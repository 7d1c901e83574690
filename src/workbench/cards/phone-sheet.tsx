import { useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { Drawing, LEAST_SCALE, type Sight } from "../sheet/drawing.tsx";
import { ZoomButtons } from "../sheet/zoom-buttons.tsx";
import { TitleBlock } from "../sheet/title-block.tsx";
import { useBench } from "../use-bench.ts";

/** The whole drawing on a phone: as small as it can be read, moved with a finger; a thing that is touched comes up as its card. */
export function PhoneSheet({ bench, onCard }: { readonly bench: Bench; readonly onCard: () => void }) {
  const { drawing: inked, pencil, selection } = useBench(bench);
  const [sight, setSight] = useState<Sight>({ scale: LEAST_SCALE, left: 0, top: 0, width: 0, height: 0 });
  const drawing = pencil?.drawing ?? inked;
  if (drawing === null) return <p class="dim">Drawing …</p>;
  return (
    <div class="phone-sheet">
      <Drawing
        bench={bench}
        drawing={drawing}
        before={pencil?.drawing === undefined ? null : inked}
        scale={sight.scale ?? LEAST_SCALE}
        fit={LEAST_SCALE}
        onSight={setSight}
      />
      <ZoomButtons scale={sight.scale ?? LEAST_SCALE} fit={LEAST_SCALE} />
      <p class="phone-sheet-card">
        <button type="button" class="button" disabled={selection === null} onClick={onCard}>
          {selection === null ? "Touch a wire or a load" : `Card of ${selection.split(".").slice(1).join(".")}`}
        </button>
      </p>
      <TitleBlock bench={bench} />
    </div>
  );
}
