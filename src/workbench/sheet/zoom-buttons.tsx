import { orderDrawing } from "./order-drawing.ts";

/** Smaller, as it fits, larger. @param scale of the drawing, and at which it fits; px per mm */
export function ZoomButtons({ scale, fit }: { readonly scale: number; readonly fit: number }) {
  return (
    <div class="drawing-zoom" role="group" aria-label="Zoom">
      <button
        type="button"
        class="button"
        aria-label="Zoom out"
        title="Zoom out (−)"
        onClick={() => {
          orderDrawing("out");
        }}
      >
        −
      </button>
      <button
        type="button"
        class="button"
        aria-label={`${Math.round((100 * scale) / fit)} %: fit the sheet`}
        title="Fit the sheet (F)"
        onClick={() => {
          orderDrawing("fit");
        }}
      >
        {Math.round((100 * scale) / fit)} %
      </button>
      <button
        type="button"
        class="button"
        aria-label="Zoom in"
        title="Zoom in (+)"
        onClick={() => {
          orderDrawing("in");
        }}
      >
        +
      </button>
    </div>
  );
}
