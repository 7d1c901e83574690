import type { ShownDrawing, WireCard, WireQuestion } from "../../../act/wire-card/index.ts";
import type { Bench, Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import { CarriedTable } from "./carried-table.tsx";
import { CutView } from "./cut-view.tsx";
import { FitsList } from "./fits-list.tsx";
import { LadderView } from "./ladder-view.tsx";
import { NamesList } from "./names-list.tsx";
import { ConvertPart, NeighboursPart } from "./neighbours-part.tsx";
import { RunningPart } from "./running-part.tsx";
import { rungLabel } from "./rung-label.ts";
import { SheetLinks } from "./sheet-links.tsx";

/** All that is known of a wire: the size ladder and its neighbours at the left, the cut and what follows from it at the right. */
export function WireSheetView({
  bench,
  ladder,
  card,
  units,
  asked,
  onAsked,
  onRead,
}: {
  readonly bench: Bench;
  readonly ladder: ShownDrawing | null;
  /** Null: no name is read; the ladder is there all the same. */
  readonly card: (WireCard & { readonly verdict: "exact" }) | null;
  readonly units: Units;
  readonly asked: Pick<WireQuestion, "convert" | "amps" | "trueSize">;
  readonly onAsked: (part: Partial<WireQuestion>) => void;
  readonly onRead: (label: string) => void;
}) {
  const sheet = card?.sheet ?? null;
  const section = sheet?.section ?? null;
  return (
    <div class="name-columns">
      <div class="name-column">
        <section class="name-part" aria-label="Size ladder">
          <h2>Size ladder</h2>
          <p class="dim">Same height, same copper. A substitute may only stand higher.</p>
          {ladder !== null && (
            <LadderView
              ladder={ladder}
              onRead={(rung) => {
                const label = rungLabel(rung);
                if (label !== null) onRead(label);
              }}
            />
          )}
          <SheetLinks bench={bench} units={units} />
        </section>
        {sheet !== null && (
          <>
            <NeighboursPart neighbours={sheet.neighbours} units={units} onRead={onRead} />
            {sheet.conversion !== null && (
              <ConvertPart
                wish={asked.convert}
                conversion={sheet.conversion}
                units={units}
                onWish={(convert) => {
                  onAsked({ convert });
                }}
                onRead={onRead}
              />
            )}
          </>
        )}
      </div>
      {sheet !== null && (
        <div class="name-column">
          {section !== null && (
            <section class="name-part" aria-label="Cut through">
              <h2>Cut through</h2>
              <p class="dim">{inSentence(sheet.exactLabel, units)}</p>
              <CutView
                section={section}
                units={units}
                trueSize={asked.trueSize}
                onTrueSize={(trueSize) => {
                  onAsked({ trueSize });
                }}
              />
            </section>
          )}
          <NamesList bench={bench} names={sheet.names} units={units} onRead={onRead} />
          {sheet.carried !== null && (
            <CarriedTable
              carried={sheet.carried}
              units={units}
              onInsulation={(insulationC) => {
                onAsked({ insulationC });
              }}
            />
          )}
          {sheet.running !== null && (
            <RunningPart
              running={sheet.running}
              units={units}
              amps={asked.amps}
              onAmps={(amps) => {
                onAsked({ amps });
              }}
            />
          )}
          {sheet.assumed.length > 0 && (
            <p class="dim">Taken for granted: {sheet.assumed.map((says) => inSentence(says, units)).join("; ")}.</p>
          )}
          <FitsList fits={sheet.fits} units={units} />
        </div>
      )}
    </div>
  );
}
