import type { StateDrawing } from "../worker/position-answers.ts";

/** The part of the one-line that alternates: live copper strong, the rest thin, a ring with the sign of earth where neutral meets it. */
export function StatePicture({ drawing, title }: { readonly drawing: StateDrawing | null; readonly title: string }) {
  if (drawing === null) return <p class="dim states-picture">drawing …</p>;
  const { svg, width, height, window, joins } = drawing;
  const share = (mm: number, of: number): string => `${((100 * mm) / of).toFixed(2)}%`;
  return (
    <figure class="states-picture">
      <div class="states-frame" tabIndex={0} role="region" aria-label={`Drawn: ${title}`}>
        <div class="states-drawn" style={{ aspectRatio: `${window.width} / ${window.height}` }}>
          <div
            class="states-svg"
            style={{ top: `-${share(window.y, window.height)}`, height: share(height, window.height) }}
            // Our own drawing: what it writes is escaped there.
            dangerouslySetInnerHTML={{ __html: svg }}
          />
          <svg class="states-joins" viewBox={`0 ${window.y} ${width} ${window.height}`} aria-hidden="true" fill="none">
            {joins.map(({ name, x, y, certain }) => (
              <g key={name} class={certain ? "" : "is-open"} transform={`translate(${x} ${y})`}>
                <circle r="2.6" />
                <path d="M0-1.5V0M-1.5 0h3M-.95.7h1.9M-.4 1.4h.8" />
              </g>
            ))}
          </svg>
        </div>
      </div>
      <figcaption class="dim">
        Strong: live. Thin: dead, or direct current, which is not told here. Ring: neutral meets earth there; dashed: it
        may.
      </figcaption>
    </figure>
  );
}
