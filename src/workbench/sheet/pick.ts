import type { KeyPath } from "../contract.ts";
import type { PageDrawing } from "../worker/protocol.ts";
import type { OpenFigure } from "./figure-field.tsx";

interface Picked {
  readonly about: KeyPath | null;
  /** The figure that can be typed over, if that was hit. */
  readonly figure: OpenFigure | null;
}

/** What was hit: a thing, a figure of it, a free way. */
export function thingAt(target: Element, host: HTMLElement, scale: number, drawing: PageDrawing): Picked {
  const group = target.closest("[data-path]");
  const about = group?.getAttribute("data-path") ?? null;
  if (about === null) return { about: null, figure: null };
  const field = target.closest("[data-field]")?.getAttribute("data-field") ?? null;
  if (field === null) return { about, figure: null };
  return { about, figure: openAt(target.closest("[data-field]") ?? target, host, about, field, scale, drawing) };
}

/** The figure of a thing that a key asks for; where it is not drawn, the field opens at the thing itself. */
export function figureAt(
  host: HTMLElement,
  about: KeyPath,
  field: string,
  scale: number,
  drawing: PageDrawing,
): OpenFigure | null {
  const own = [...host.querySelectorAll(`[data-path="${CSS.escape(about)}"]`)];
  const drawn = own
    .map((group) => group.querySelector(`[data-field="${CSS.escape(field)}"]`))
    .find((text) => text !== null);
  if (drawn !== undefined && drawn !== null) return openAt(drawn, host, about, field, scale, drawing);
  const place = drawing.places[about];
  if (place === undefined) return null;
  return { about, field, text: "", x: (place.x + place.width / 2) * scale, y: place.y * scale };
}

function openAt(
  text: Element,
  host: HTMLElement,
  about: KeyPath,
  field: string,
  scale: number,
  drawing: PageDrawing,
): OpenFigure {
  const [box, ground] = [text.getBoundingClientRect(), host.getBoundingClientRect()];
  const sized = box.width > 0 ? box : null;
  const place = drawing.places[about];
  return {
    about,
    field,
    // What parts it from the figure before is no part of it.
    text: (text.textContent ?? "").replace(/^[·\s]+|\*$/g, "").trim(),
    x: sized === null ? (place?.x ?? 0) * scale : box.left - ground.left,
    y: sized === null ? (place?.y ?? 0) * scale : box.top - ground.top,
  };
}
