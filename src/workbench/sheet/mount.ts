import type { KeyPath } from "../contract.ts";
import type { PageDrawing } from "../worker/protocol.ts";

/** Width of a line that a pointer can find, mm at the scale at which the sheet fits. */
const HIT_MM = 2.4;
/** Makes of a ring of 1.6 mm a target of 24 px. */
const RING_HIT_MM = 3.8;

/**
 * Puts a drawing into the page: its things can be focused, heard and hit. What is in pencil is marked where it differs from the ink.
 *
 * @param before the drawing in ink while `drawing` is in pencil
 */
export function mount(host: HTMLElement, drawing: PageDrawing, before: PageDrawing | null): void {
  const focused = host.contains(document.activeElement)
    ? (document.activeElement?.getAttribute("data-main") ?? null)
    : null;
  const svg = read(drawing.svg);
  if (svg === null) return;
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  svg.setAttribute("role", "graphics-document");
  svg.setAttribute("aria-label", drawing.says);
  markFreeWays(svg);
  // The browser would show them as tips over everything; the names are told by their labels.
  for (const title of svg.querySelectorAll("title, desc")) title.remove();
  nameThings(svg, drawing);
  if (before !== null) markPencil(svg, drawing, before);
  svg.prepend(hitsOf(svg));
  host.replaceChildren(svg);
  if (focused !== null) {
    const again = host.querySelector(`[data-main="${CSS.escape(focused)}"]`);
    if (again instanceof SVGElement) again.focus({ preventScroll: true });
  }
}

function read(text: string): SVGSVGElement | null {
  const { documentElement } = new DOMParser().parseFromString(text, "image/svg+xml");
  const node = document.importNode(documentElement, true);
  return node instanceof SVGSVGElement ? node : null;
}

/** Of all groups of one thing the first is what the focus comes to; the others are hidden from readers, they repeat it. */
function nameThings(svg: SVGSVGElement, { spoken }: PageDrawing): void {
  const named = new Set<KeyPath>();
  for (const group of svg.querySelectorAll("g[data-path]")) {
    const about = group.getAttribute("data-path") ?? "";
    const says = spoken[about];
    if (named.has(about) || says === undefined) {
      group.setAttribute("aria-hidden", "true");
      group.removeAttribute("role");
      continue;
    }
    named.add(about);
    group.removeAttribute("aria-hidden");
    group.setAttribute("role", "graphics-symbol");
    group.setAttribute("aria-label", says);
    group.setAttribute("data-main", about);
    group.setAttribute("tabindex", "-1");
  }
  for (const group of svg.querySelectorAll("g:not([data-path])")) {
    group.setAttribute("aria-hidden", "true");
    group.removeAttribute("role");
  }
}

/** What reads otherwise than in ink is in pencil; that a thing stands elsewhere on the sheet is no change of the plan. */
function markPencil(svg: SVGSVGElement, drawing: PageDrawing, before: PageDrawing): void {
  for (const group of svg.querySelectorAll("g[data-path]")) {
    const about = group.getAttribute("data-path") ?? "";
    if (drawing.told[about] !== before.told[about]) group.classList.add("pencilled");
  }
}

/** A ring at a free way opens a field, as a figure does. */
function markFreeWays(svg: SVGSVGElement): void {
  for (const title of svg.querySelectorAll('g[data-role="mark"] > title'))
    if (title.textContent.startsWith("free way of ")) title.parentElement?.setAttribute("data-field", "add-load");
}

/** Wide unseen doubles of all lines under the drawing: a thin line can be hit. */
function hitsOf(svg: SVGSVGElement): SVGGElement {
  const layer = document.createElementNS(svg.namespaceURI ?? "", "g") as SVGGElement; // made in the name space of SVG
  layer.setAttribute("class", "drawing-hits");
  layer.setAttribute("aria-hidden", "true");
  for (const group of svg.querySelectorAll(
    'g[data-path][data-role="wire"], g[data-path][data-role="symbol"], g[data-path][data-role="bar"], g[data-field="add-load"]',
  )) {
    for (const line of group.querySelectorAll("path, rect, ellipse")) {
      const twin = line.cloneNode(false);
      if (!(twin instanceof SVGElement)) continue;
      twin.removeAttribute("class");
      twin.removeAttribute("stroke-dasharray");
      twin.setAttribute("data-path", group.getAttribute("data-path") ?? "");
      const field = group.getAttribute("data-field");
      if (field !== null) twin.setAttribute("data-field", field);
      twin.setAttribute("stroke-width", String(field === null ? HIT_MM : RING_HIT_MM));
      layer.append(twin);
    }
  }
  return layer;
}
