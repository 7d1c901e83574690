import type { KeyPath } from "../contract.ts";
import type { PageDrawing } from "../worker/protocol.ts";

const PAD = 0.8;

/** Frames of what is selected and what the pointer is over. */
export function Overlay({
  drawing,
  selection,
  hovered,
  focused,
}: {
  readonly drawing: PageDrawing;
  readonly selection: KeyPath | null;
  readonly hovered: KeyPath | null;
  /** Has the keyboard's focus. */
  readonly focused: KeyPath | null;
}) {
  const frame = (about: KeyPath | null, name: string) => {
    const place = about === null ? undefined : drawing.places[about];
    return place === undefined ? null : (
      <rect
        class={name}
        x={place.x - PAD}
        y={place.y - PAD}
        width={place.width + 2 * PAD}
        height={place.height + 2 * PAD}
        rx="0.8"
      />
    );
  };
  return (
    <svg class="drawing-overlay" viewBox={`0 0 ${drawing.width} ${drawing.height}`} aria-hidden="true">
      {hovered === selection ? null : frame(hovered, "drawing-hovered")}
      {frame(selection, "drawing-selected")}
      {frame(focused, "drawing-focused")}
    </svg>
  );
}
