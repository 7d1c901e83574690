import { useState } from "preact/hooks";
import { CARD_MM, keepScale, NOMINAL_PER_MM, pixelsPerMm } from "./screen-scale.ts";

/** Measures the screen by a bank card: the bar is made as wide as the card, and from then on a millimetre is one. */
export function MeasureScreen({ onDone }: { readonly onDone: () => void }) {
  const [perMm, setPerMm] = useState(() => pixelsPerMm() ?? NOMINAL_PER_MM);
  return (
    <div class="name-measure">
      <p>
        No page knows how large a screen is. Hold a bank card against it and make the bar as wide as the card: 85.6 mm.
      </p>
      <div class="name-card-bar" style={{ width: `${CARD_MM * perMm}px` }} aria-hidden="true">
        bank card, 85.6 mm
      </div>
      <label class="name-slide">
        <span class="dim">width of the bar</span>
        <input
          type="range"
          min={2}
          max={9}
          step={0.01}
          value={perMm}
          aria-valuetext={`${Math.round(CARD_MM * perMm)} pixels`}
          onInput={(event) => {
            setPerMm(Number(event.currentTarget.value));
          }}
        />
      </label>
      <button
        type="button"
        class="button"
        onClick={() => {
          keepScale(perMm);
          onDone();
        }}
      >
        The bar is as wide as the card
      </button>
    </div>
  );
}
