import type { KeyPath } from "../contract.ts";
import type { PageDrawing } from "../worker/protocol.ts";

/** Width of a line that a pointer can find, mm at the scale at which the sheet fits. */
const HIT_MM = 2.4;
/** Makes of a ring of 1.6 mm a target of 24 px. */
const RING_HIT_MM = 3.8;

/** A drawing as it stands in the page. */
interface Mounted {
  readonly svg: SVGSVGElement;
  /** Text of all that is not a thing: size, styles, ground. */
  readonly frame: string;
  /** Wide unseen doubles of lines, under the drawing. */
  readonly layer: SVGGElement;
  /** The things in their order, with the text that each was made of and its doubles. */
  things: readonly Thing[];
}

interface Thing {
  readonly text: string;
  readonly group: SVGElement;
  readonly twins: readonly SVGElement[];
}

const mounted = new WeakMap<HTMLElement, Mounted>();

/**
 * Puts a drawing into the page: its things can be focused, heard and hit. What is in pencil is marked where it differs from the ink.
 *
 * A drawing that follows another takes over all things that are drawn the same, so that one edit costs what it changes and not the whole sheet.
 *
 * @param before the drawing in ink while `drawing` is in pencil
 */
export function mount(host: HTMLElement, drawing: PageDrawing, before: PageDrawing | null): void {
  const focused = host.contains(document.activeElement)
    ? (document.activeElement?.getAttribute("data-main") ?? null)
    : null;
  const { frame, items } = takeApart(drawing.svg);
  const known = mounted.get(host);
  const now = known?.frame === frame && known.svg.parentNode === host ? known : begin(host, frame);
  if (now === null) return;
  replaceThings(now, items);
  now.svg.setAttribute("aria-label", drawing.says);
  // Told even where an edit changes nothing that is drawn.
  host.setAttribute("data-revision", String(drawing.revision));
  nameThings(now.things, drawing);
  for (const { group } of now.things) {
    const about = group.getAttribute("data-path") ?? "";
    group.classList.toggle("pencilled", before !== null && drawing.told[about] !== before.told[about]);
  }
  if (focused !== null && document.activeElement?.getAttribute("data-main") !== focused) {
    const again = host.querySelector(`[data-main="${CSS.escape(focused)}"]`);
    if (again instanceof SVGElement) again.focus({ preventScroll: true });
  }
}

/** One line of the text is one thing; texts of a plan hold no line ends by then. */
function takeApart(svg: string): { readonly frame: string; readonly items: readonly string[] } {
  const lines = svg.split("\n");
  const items = lines.filter((line) => line.startsWith("<g "));
  // Title and description are told by the label; they change without anything being drawn anew.
  const rest = lines.filter((line) => !line.startsWith("<g ") && !/^<(?:title|desc)>/.test(line));
  return { frame: rest.join("\n"), items };
}

function begin(host: HTMLElement, frame: string): Mounted | null {
  const svg = read(frame);
  if (svg === null) return null;
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  svg.setAttribute("role", "graphics-document");
  const layer = document.createElementNS(svg.namespaceURI ?? "", "g") as SVGGElement; // made in the name space of SVG
  layer.setAttribute("class", "drawing-hits");
  layer.setAttribute("aria-hidden", "true");
  svg.append(layer);
  host.replaceChildren(svg);
  const now: Mounted = { svg, frame, layer, things: [] };
  mounted.set(host, now);
  return now;
}

function read(text: string): SVGSVGElement | null {
  const { documentElement } = new DOMParser().parseFromString(text, "image/svg+xml");
  const node = document.importNode(documentElement, true);
  return node instanceof SVGSVGElement ? node : null;
}

function replaceThings(now: Mounted, items: readonly string[]): void {
  const there = new Map<string, Thing[]>();
  for (const thing of now.things) {
    const list = there.get(thing.text);
    if (list === undefined) there.set(thing.text, [thing]);
    else list.push(thing);
  }
  const kept = items.map((text) => there.get(text)?.shift() ?? null);
  const fresh = readThings(items.filter((_, i) => kept[i] === null));
  for (const list of there.values())
    for (const { group, twins } of list) {
      group.remove();
      for (const twin of twins) twin.remove();
    }
  let next = 0;
  let at: ChildNode | null = now.layer.nextSibling;
  const things: Thing[] = [];
  for (const thing of kept.map((one) => one ?? fresh[next++])) {
    if (thing === undefined) continue;
    things.push(thing);
    if (thing.group === at) at = at.nextSibling;
    else now.svg.insertBefore(thing.group, at);
    for (const twin of thing.twins) if (twin.parentNode === null) now.layer.append(twin);
  }
  now.things = things;
}

function readThings(texts: readonly string[]): Thing[] {
  if (texts.length === 0) return [];
  const svg = read(`<svg xmlns="http://www.w3.org/2000/svg">${texts.join("\n")}</svg>`);
  return [...(svg?.children ?? [])].flatMap((group, i) => {
    if (!(group instanceof SVGElement)) return [];
    const title = group.querySelector(":scope > title");
    // A ring at a free way opens a field, as a figure does.
    const isRing = group.getAttribute("data-role") === "mark" && title?.textContent.startsWith("free way of ") === true;
    if (isRing) group.setAttribute("data-field", "add-load");
    // The browser would show it as a tip over everything; the name is told by the label.
    title?.remove();
    return [{ text: texts[i] ?? "", group, twins: twinsOf(group) }];
  });
}

/** Of all groups of one thing the first is what the focus comes to; the others are hidden from readers, they repeat it. */
function nameThings(things: readonly Thing[], { spoken }: PageDrawing): void {
  const named = new Set<KeyPath>();
  for (const { group } of things) {
    const about = group.getAttribute("data-path");
    const says = about === null || named.has(about) ? undefined : spoken[about];
    if (about === null || says === undefined) {
      if (group.getAttribute("aria-hidden") === "true") continue;
      group.setAttribute("aria-hidden", "true");
      for (const name of ["role", "aria-label", "data-main", "tabindex"]) group.removeAttribute(name);
      continue;
    }
    named.add(about);
    if (group.getAttribute("aria-label") === says) continue;
    group.removeAttribute("aria-hidden");
    group.setAttribute("role", "graphics-symbol");
    group.setAttribute("aria-label", says);
    group.setAttribute("data-main", about);
    if (!group.hasAttribute("tabindex")) group.setAttribute("tabindex", "-1");
  }
}

const HIT_ROLES: ReadonlySet<string | null> = new Set(["wire", "symbol", "bar"]);

/** A thin line can be hit by a double of it that is wide and not seen. */
function twinsOf(group: SVGElement): SVGElement[] {
  const field = group.getAttribute("data-field");
  const about = group.getAttribute("data-path");
  if (about === null || (field !== "add-load" && !HIT_ROLES.has(group.getAttribute("data-role")))) return [];
  return [...group.querySelectorAll("path, rect, ellipse")].flatMap((line) => {
    const twin = line.cloneNode(false);
    if (!(twin instanceof SVGElement)) return [];
    twin.removeAttribute("class");
    twin.removeAttribute("stroke-dasharray");
    twin.setAttribute("data-path", about);
    if (field !== null) twin.setAttribute("data-field", field);
    twin.setAttribute("stroke-width", String(field === null ? HIT_MM : RING_HIT_MM));
    return [twin];
  });
}
