import { cleanText } from "./clean-text.ts";
import { inks } from "./inks.ts";
import { lineCap } from "./line-cap.ts";
import type { Ink, Item, Look, Point, Scene, Shape } from "./scene.ts";
import { fontSize } from "./text-width.ts";

export interface SvgOptions {
  /** Where the font is, as URLs (`data:` or of a file beside the drawing); none: the reader's machine is asked whether it has it. */
  readonly embedFont?: { readonly regular: string; readonly semibold: string };
  /** Whether it goes dark by itself where the reader's screen is dark; on paper it is always light. */
  readonly darkScreens?: boolean;
}

/**
 * The SVG of a scene. The same scene gives the same text on every machine.
 *
 * Each item is a group with the key path of what it stands for in `data-path`; what has a name is told to readers who cannot see it, the rest is
 * hidden from them. A page may set the inks by `--ww-ink`, `--ww-paper` and so on. There are no ids, so that several drawings may stand in one page.
 *
 * @returns ends with a line feed
 * @throws RangeError - a coordinate that is no number, which only a defect can bring
 * @example
 * writeSvg({ width: 50, height: 20, title: "A", says: "Nothing.", items: [] }).startsWith('<svg xmlns="http://www.w3.org/2000/svg" class="wireworthy" width="50mm" height="20mm"') //=> true
 */
export function writeSvg(scene: Scene, options: SvgOptions = {}): string {
  const [width, height] = [number(scene.width), number(scene.height)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="wireworthy" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="group" fill="none" stroke-linecap="round" stroke-linejoin="round">`,
    `<title>${escape(scene.title)}</title>`,
    `<desc>${escape(scene.says)}</desc>`,
    `<style>${escape(styleSheet(options, inksOf(scene)))}</style>`,
    `<rect width="${width}" height="${height}" class="f-paper"/>`,
    ...scene.items.map(writeItem),
    "</svg>\n",
  ].join("\n");
}

function writeItem({ role, about, name, shapes }: Item): string {
  const path = about === null ? "" : ` data-path="${escape(about)}"`;
  const spoken = name === "" ? ' aria-hidden="true">' : ` role="img"><title>${escape(name)}</title>`;
  let text = `<g data-role="${role}"${path}${spoken}`;
  for (const shape of shapes) text += writeShape(shape);
  return `${text}</g>`;
}

function writeShape(shape: Shape): string {
  switch (shape.is) {
    case "polyline": {
      let d = "";
      for (const point of shape.points) d += `${d === "" ? "M" : "L"}${pair(point)}`;
      return `<path d="${d}${shape.closed === true ? "Z" : ""}"${look(shape)}/>`;
    }
    case "rectangle": {
      const [[x1, y1], [x2, y2]] = [shape.from, shape.to];
      const size = `width="${number(Math.abs(x2 - x1))}" height="${number(Math.abs(y2 - y1))}"`;
      const corner = shape.radius === undefined ? "" : ` rx="${number(shape.radius)}"`;
      return `<rect x="${number(Math.min(x1, x2))}" y="${number(Math.min(y1, y2))}" ${size}${corner}${look(shape)}/>`;
    }
    case "ellipse": {
      const { centre, radii } = shape;
      const [x, y, rx, ry] = [centre[0], centre[1], radii[0], radii[1]].map(number);
      return `<ellipse cx="${x ?? ""}" cy="${y ?? ""}" rx="${rx ?? ""}" ry="${ry ?? ""}"${look(shape)}/>`;
    }
    case "arc": {
      const r = number(shape.radius);
      const flags = `${shape.large ? 1 : 0} ${shape.sweep ? 1 : 0}`;
      return `<path d="M${pair(shape.from)}A${r} ${r} 0 ${flags} ${pair(shape.to)}"${look(shape)}/>`;
    }
    case "text": {
      const anchor = shape.anchor === "start" ? "" : ` text-anchor="${shape.anchor}"`;
      const weight = shape.weight === "regular" ? "" : ' font-weight="600"';
      const spaces = /^ | $| {2}/.test(shape.text) ? ' xml:space="preserve"' : "";
      const field = shape.field === undefined ? "" : ` data-field="${shape.field}"`;
      const at = `x="${number(shape.at[0])}" y="${number(shape.at[1])}"`;
      return `<text ${at} font-size="${number(fontSize(shape.capMm))}"${anchor}${weight}${spaces} class="f-${shape.ink}"${field}>${escape(shape.text)}</text>`;
    }
  }
}

function look({ stroke, fill }: Look): string {
  const names = stroke === undefined ? "" : `s-${stroke.ink}`;
  const all = fill === undefined ? names : names === "" ? `f-${fill}` : `${names} f-${fill}`;
  let text = all === "" ? "" : ` class="${all}"`;
  if (stroke === undefined) return text;
  text += ` stroke-width="${number(stroke.width)}"`;
  if (stroke.dash === undefined) return lineCap(stroke) === "butt" ? `${text} stroke-linecap="butt"` : text;
  text += ` stroke-dasharray="${stroke.dash.map(number).join(" ")}"`;
  return lineCap(stroke) === "butt" ? `${text} stroke-linecap="butt"` : text;
}

/** To 0.01 mm, a tenth of the thinnest line. Put together from whole numbers, which takes a quarter of the time of writing out a fraction. */
function number(mm: number): string {
  const hundredths = Math.round(mm * 100);
  if (!Number.isSafeInteger(hundredths)) throw new RangeError(`${mm} is no place on paper`);
  const size = Math.abs(hundredths);
  const rest = size % 100;
  const whole = `${hundredths < 0 ? "-" : ""}${(size - rest) / 100}`;
  if (rest === 0) return whole;
  return rest % 10 === 0 ? `${whole}.${rest / 10}` : `${whole}${rest < 10 ? ".0" : "."}${rest}`;
}

const pair = ([x, y]: Point): string => `${number(x)} ${number(y)}`;

const SPECIAL = /[&<>"']/;
const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

function escape(text: string): string {
  const clean = cleanText(text);
  return SPECIAL.test(clean) ? clean.replace(/[&<>"']/g, (mark) => entities[mark] ?? "") : clean;
}

const inkNames = Object.keys(inks) as Ink[]; // the type of inks says that it has no other keys

/** Inks that every drawing carries; of the others those that it uses. */
const ALWAYS: readonly Ink[] = ["ink", "ink2", "frame", "hair", "paper", "fail", "warn", "pass", "unknown", "focus"];

function inksOf({ items }: Scene): readonly Ink[] {
  const used = new Set(ALWAYS);
  for (const { shapes } of items) {
    for (const shape of shapes) {
      if (shape.is === "text") used.add(shape.ink);
      else {
        if (shape.stroke !== undefined) used.add(shape.stroke.ink);
        if (shape.fill !== undefined) used.add(shape.fill);
      }
    }
  }
  return inkNames.filter((ink) => used.has(ink));
}

const variables = (names: readonly Ink[], theme: "light" | "dark", important = ""): string =>
  names.map((ink) => `--ww-${ink}:${inks[ink][theme]}${important}`).join(";");

/** A renderer that knows no variables takes the colour before. */
const rule = (selector: string, property: string, ink: Ink): string =>
  `.wireworthy .${selector}-${ink}{${property}:${inks[ink].light};${property}:var(--ww-${ink},${inks[ink].light})}`;

function styleSheet({ embedFont, darkScreens = false }: SvgOptions, names: readonly Ink[]): string {
  const face = (url: string, weight: number) =>
    `@font-face{font-family:"IBM Plex Sans";font-weight:${weight};src:url("${encodeURI(cleanText(url)).replaceAll("%25", "%")}")}`;
  return [
    ...(embedFont === undefined ? [] : [face(embedFont.regular, 400), face(embedFont.semibold, 600)]),
    // Widths are counted without kerning and ligatures, and so it is drawn.
    `.wireworthy text{font-family:"IBM Plex Sans",system-ui,"Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif;font-kerning:none;font-variant-ligatures:none;white-space:pre}`,
    ...names.map((ink) => rule("s", "stroke", ink) + rule("f", "fill", ink)),
    ...(darkScreens ? [`@media screen and (prefers-color-scheme:dark){.wireworthy{${variables(names, "dark")}}}`] : []),
    `@media print{.wireworthy{${variables(names, "light", "!important")}}}`,
  ].join("");
}
