import { useState } from "preact/hooks";
import { isVerified, printTrust } from "../../../explain/trust.ts";
import type { ShownSection } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import { pixelsPerMm } from "./screen-scale.ts";
import { MeasureScreen } from "./true-size.tsx";

/** The wire cut through, to scale; in true size once the screen is measured. */
export function CutView({
  section,
  units,
  trueSize,
  onTrueSize,
}: {
  readonly section: ShownSection;
  readonly units: Units;
  readonly trueSize: boolean;
  readonly onTrueSize: (trueSize: boolean) => void;
}) {
  const [measuring, setMeasuring] = useState(false);
  const perMm = pixelsPerMm();
  const isTrue = trueSize && perMm !== null;
  return (
    <>
      <figure class="name-cut-figure">
        <div
          class={isTrue ? "name-cut-true" : "name-cut-drawn"}
          style={isTrue ? { width: `${section.width * perMm}px` } : {}}
          // Our own drawing: what it writes is escaped there.
          dangerouslySetInnerHTML={{ __html: section.svg }}
        />
        <figcaption class="dim">{inSentence(section.says, units)}</figcaption>
      </figure>
      <div class="name-deeds">
        <label class="name-check">
          <input
            type="checkbox"
            checked={trueSize}
            onChange={(event) => {
              onTrueSize(event.currentTarget.checked);
              setMeasuring(event.currentTarget.checked && perMm === null);
            }}
          />
          true size on this screen
        </label>
        {trueSize && !measuring && (
          <button
            type="button"
            class="link"
            onClick={() => {
              setMeasuring(true);
            }}
          >
            measure the screen again
          </button>
        )}
      </div>
      {trueSize && measuring && (
        <MeasureScreen
          onDone={() => {
            setMeasuring(false);
            // Asks anew: now it can be drawn so.
            onTrueSize(true);
          }}
        />
      )}
      {section.assumed.length > 0 && (
        <details class="name-more">
          <summary>Drawn as usual, where the label does not tell ({section.assumed.length})</summary>
          <ul class="desk-list">
            {section.assumed.map(({ about, says, trust }) => (
              <li key={about + says}>
                {about}: {inSentence(says, units)}
                {!isVerified(trust) && <span class="desk-trust"> ({printTrust(trust)})</span>}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
