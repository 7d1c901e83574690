import { decimalText } from "../../quantity/decimal-text.ts";
import type { Settled } from "../../size/index.ts";
import { markUnknown } from "../bench/mark-unknown.ts";
import { readState, type StateView } from "../bench/read-state.ts";
import { spokenNumber } from "../bench/spoken-figures.ts";
import { cleanText } from "../clean-text.ts";
import { byGravity, gravityOf, isUnjudged } from "../one-line/drawn-finding.ts";
import { readGraph } from "../one-line/graph.ts";
import { coresOf } from "../../system/index.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import type { PartView } from "../one-line/part-view.ts";
import type { DeviceView, WireView } from "../one-line/wire-view.ts";
import type { Field, Ink, Item, ItemRole, Point, Scene, Shape } from "../scene.ts";
import { drawMark, MARK_MM } from "../sheet/draw-mark.ts";
import { fitText } from "../sheet/fit-text.ts";
import { placeStripSymbol } from "./place-strip-symbol.ts";
import { voltsOnWay } from "./volts-on-way.ts";

export interface StripOptions {
  readonly variant: "iec" | "na";
  /** Operating state; null: contacts at rest, and what is lost at worst instead of volts. */
  readonly state: string | null;
}

/** A build; with what it was settled with, the strip tells volts on the way in a state. */
export type StripBuild = OneLineBuild & { readonly settled?: Settled };

/** mm; 5 px each on a phone. */
const WIDTH = 70;
const LINE = 13;
const CAPTION = 23;
const VOLTS = 68;
const HEAD = 2.1;
const BODY = 1.8;
const PITCH = 3.7;
const WIRE = { ink: "ink", width: 0.3 } as const;

/** Where the pen is, and what it has left. */
interface Strip {
  readonly items: Item[];
  y: number;
}

/**
 * One circuit from top to bottom, for a card on a phone or beside an explanation: what feeds it, its device, its wire, its loads; what each is, and
 * what is lost in it.
 *
 * Symbols are three times as large as on the one-line. In a state volts are those of that state; without one the drop is that of the worst case.
 *
 * @param circuitId `W13`
 * @returns mm; 70 wide, which is 350 px at 5 px each mm. A circuit that the plan does not have: a scene that says so
 */
export function drawStrip(build: StripBuild, circuitId: string, { variant, state: stateId }: StripOptions): Scene {
  const graph = readGraph(build.plan, build.system, build.design, "unknown fact");
  const wire = graph.wires.find(({ id }) => id === circuitId);
  const strip: Strip = { items: [], y: 3 };
  if (wire === undefined) {
    const says = `the plan has no circuit ${cleanText(circuitId)}`;
    say(strip, null, "", [[fitText(says, HEAD, "regular", WIDTH - 6), 3, HEAD, "ink2"]], strip.y + HEAD);
    return { width: WIDTH, height: 10, title: says, says, items: strip.items };
  }
  const state = readState(build.system, build.design, stateId);
  const told = tellOf(build, wire, state);
  const from = graph.parts.get(wire.from.part);
  const loads = [wire.to.part, ...wire.draws.filter((id) => id !== wire.to.part)].flatMap((id) => graph.parts.get(id) ?? []); // prettier-ignore
  const isOn = state === null || state.live.has(wire.about);
  const hand: Hand = { strip, variant, state, isOn };
  drawTop(hand, from, wire, told);
  const stands = (end: DeviceView["end"]): DeviceView[] => wire.devices.filter((d) => d.end === end);
  for (const device of stands("from")) drawDevice(hand, wire, device, told);
  for (const id of wire.inline) {
    const part = graph.parts.get(id);
    if (part !== undefined) drawInline(hand, part);
  }
  drawWire(hand, build, wire, told);
  for (const device of stands("to")) drawDevice(hand, wire, device, told);
  loads.forEach((load, i) => {
    drawEnd(hand, load, told, i === loads.length - 1);
  });
  const title = `${wire.number}, ${name(from, wire.from.part)} to ${name(loads[0], wire.to.part)}`;
  return {
    width: WIDTH,
    height: strip.y + 3,
    title,
    says: wire.says,
    items: [...strip.items, ...strip.items.flatMap(markUnknown)],
  };
}

interface Hand {
  readonly strip: Strip;
  readonly variant: "iec" | "na";
  readonly state: StateView | null;
  readonly isOn: boolean;
}

const name = (part: PartView | undefined, id: string): string => part?.called ?? part?.label ?? cleanText(id);
const volts = (v: number): string => `${decimalText(v, { decimals: 1 })} V`;
const lost = (v: number): string => `−${decimalText(v, { decimals: 2 })} V`;

/** Figures of the way, as they are printed; empty: not known. */
interface Told {
  readonly top: string;
  readonly device: string;
  readonly wire: string;
  readonly loads: ReadonlyMap<string, { readonly amps: string; readonly volts: string; readonly start: string }>;
}

function tellOf(build: StripBuild, wire: WireView, state: StateView | null): Told {
  const found = build.design.states.find(({ id }) => id === state?.id);
  const of = build.design.circuits.find(({ id }) => id === wire.id);
  const way =
    state === null || build.settled === undefined ? null : voltsOnWay(build, build.settled, wire.id, state.id);
  const loads = new Map<string, { amps: string; volts: string; start: string }>();
  let [top, here] = ["", -1];
  for (const part of new Set([wire.to.part, ...wire.draws])) {
    const draw = build.system.elements.find((e) => e.is === "draw" && e.part === part);
    const level = (which: string): number | undefined => {
      const amps = draw?.is === "draw" ? draw.levels.find((l) => l.name === which)?.amps : undefined;
      return amps === undefined || amps.origin === "unknown" ? undefined : amps.high;
    };
    const now = found?.loads.find((l) => l.part === part);
    const judged = of?.loads.find((l) => l.part === part);
    const [running, starting] = [now?.amps ?? level("running"), level("starting")];
    const amps = [running === undefined ? "" : `${spokenNumber(running)} A`, starting === undefined ? "" : `start ${spokenNumber(starting)} A`]; // prettier-ignore
    const least = judged?.startVolts ?? null;
    const asked = judged?.startsAbove ?? null;
    loads.set(part, {
      amps: amps.filter((t) => t !== "").join(", "),
      volts: now?.volts === undefined || now.volts === null ? "" : volts(now.volts),
      start: least === null ? "" : `least at start ${volts(least)}${asked === null ? "" : `, needs ${volts(asked)}`}`,
    });
    if (now?.volts !== undefined && now.volts !== null) here = Math.max(here, now.volts);
  }
  if (way !== null && here > 0) top = volts(here + way.device + way.wire);
  const worst = of?.dropShare === null || of === undefined ? "" : `${decimalText(100 * of.dropShare, { decimals: 1 })} %`; // prettier-ignore
  return {
    top,
    device: way === null || way.device < 0.005 ? "" : lost(way.device),
    wire: way === null ? (state === null ? worst : "") : lost(way.wire),
    loads,
  };
}

function put(
  { strip, isOn }: Hand,
  role: ItemRole,
  about: string | null,
  says: string,
  shapes: readonly Shape[],
  on = isOn,
): void {
  const ink = (given: Ink): Ink => (on || given === "paper" ? given : "idle");
  const inked = shapes.map((shape): Shape => {
    if (shape.is === "text") return { ...shape, ink: ink(shape.ink) };
    const { stroke, fill } = shape;
    return {
      ...shape,
      ...(stroke === undefined ? {} : { stroke: { ...stroke, ink: ink(stroke.ink) } }),
      ...(fill === undefined ? {} : { fill: ink(fill) }),
    };
  });
  strip.items.push({ role, about, name: says, shapes: inked });
}

type Line = readonly [
  text: string,
  x: number,
  capMm: number,
  ink: Ink,
  field?: Field | undefined,
  weight?: "semibold" | "regular",
];

/** Lines of a caption, one below the other. */
function say({ items }: Strip, about: string | null, says: string, lines: readonly Line[], top: number): void {
  const shapes = lines.flatMap(
    ([text, x, capMm, ink, field, weight = "regular"], i): Shape[] =>
    text === ""
      ? []
      : [{ is: "text", at: [x, top + PITCH * i], text: fitText(text, capMm, weight, VOLTS - x), capMm, weight, anchor: "start", ink, ...(field === undefined ? {} : { field }) }], // prettier-ignore
  );
  if (shapes.length > 0) items.push({ role: "caption", about, name: says, shapes });
}

function figure(
  { items }: Strip,
  about: string | null,
  text: string,
  y: number,
  weight: "semibold" | "regular" = "regular",
): void {
  if (text === "") return;
  items.push({ role: "table", about, name: "", shapes: [{ is: "text", at: [VOLTS, y], text, capMm: BODY, weight, anchor: "end", ink: weight === "regular" ? "ink2" : "ink" }] }); // prettier-ignore
}

function down(hand: Hand, about: string | null, to: number): void {
  const { strip } = hand;
  if (to - strip.y > 0.01) put(hand, "wire", about, "", [{ is: "polyline", points: [[LINE, strip.y], [LINE, to]], stroke: WIRE }]); // prettier-ignore
  strip.y = to;
}

/** What feeds the circuit: a bar, or the symbol of a part. */
function drawTop(hand: Hand, part: PartView | undefined, wire: WireView, told: Told): void {
  const { strip } = hand;
  const label = fitText(name(part, wire.from.part), HEAD, "semibold", VOLTS - 36 - (told.top === "" ? 0 : 10));
  if (part === undefined || part.is === "bar" || part.is === "panel") {
    put(hand, "bar", part?.about ?? null, part?.says ?? "", [{ is: "rectangle", from: [3, strip.y], to: [31, strip.y + 1.1], fill: "ink" }], true); // prettier-ignore
    say(strip, part?.about ?? null, "", [[label, 33, HEAD, "ink", "name", "semibold"]], strip.y + 1.6);
    figure(strip, part?.about ?? null, told.top, strip.y + 1.6, "semibold");
    strip.y += 1.1;
  } else {
    const on = hand.state === null || hand.state.live.has(part.about);
    const art = placeStripSymbol(part.symbol, hand.variant, [LINE, strip.y], "source", hand.state?.bladeOf(part.id) ?? "rest"); // prettier-ignore
    put(hand, "symbol", part.about, part.says, art.shapes, on);
    const middle = (strip.y + art.bottom) / 2;
    say(strip, part.about, "", [[label, CAPTION, HEAD, "ink", "name", "semibold"], [part.values[0] ?? "", CAPTION, BODY, "ink2", "rating"]], middle); // prettier-ignore
    figure(strip, part.about, told.top, middle, "semibold");
    strip.y = art.bottom;
  }
  down(hand, wire.about, strip.y + 2);
}

function drawDevice(hand: Hand, wire: WireView, device: DeviceView, told: Told): void {
  const { strip, variant, state } = hand;
  const art = placeStripSymbol(device.kind, variant, [LINE, strip.y], "line", state?.bladeOf(null) ?? "rest");
  put(hand, "symbol", wire.about, `${device.kind} ${device.name} ${device.rating} in ${wire.number}`, art.shapes);
  const middle = (strip.y + art.bottom) / 2;
  const way =
    device.end === "from" && /^(?:.*\.)?\d+$/.test(wire.from.port) ? `, way ${cleanText(wire.from.port)}` : "";
  say(strip, wire.about, "", [[`${device.name} ${device.kind}`, CAPTION, HEAD, "ink", undefined, "semibold"], [`${device.rating}${way}`, CAPTION, BODY, "ink2", "device"]], middle - 0.4); // prettier-ignore
  figure(strip, wire.about, told.device, middle + 0.6);
  strip.y = art.bottom;
}

function drawInline(hand: Hand, part: PartView): void {
  const { strip, variant, state } = hand;
  const art = placeStripSymbol(part.symbol, variant, [LINE, strip.y], "line", state?.bladeOf(part.id) ?? "rest");
  put(hand, "symbol", part.about, part.says, art.shapes);
  const position = state?.positionOf(part.id) ?? null;
  const under = [part.values[0] ?? "", position === null ? "" : cleanText(position)].filter((t) => t !== "").join(", ");
  say(strip, part.about, "", [[name(part, part.id), CAPTION, HEAD, "ink", "name", "semibold"], [under, CAPTION, BODY, "ink2", "rating"]], (strip.y + art.bottom) / 2 - 0.4); // prettier-ignore
  strip.y = art.bottom;
}

/** The wire with its insulation, its number of conductors, what it is and what is found of it. */
function drawWire(hand: Hand, build: OneLineBuild, wire: WireView, told: Told): void {
  const { strip } = hand;
  const circuit = build.system.circuits.find(({ id }) => id === wire.id);
  const of = build.design.circuits.find(({ id }) => id === wire.id);
  // A core that something stands in is one all the same.
  const count = circuit === undefined ? 1 : coresOf(circuit.conductors).length;
  const colours = (of?.colours ?? []).filter(({ by }) => by === "plan").map(({ letters }) => letters);
  const label =
    of?.size?.label ?? (circuit?.size === "unknown" || circuit?.size === undefined ? "?" : circuit.size.label);
  const given = of?.outcome === "pinned" ? ", pinned" : of?.outcome === "found" ? ", as found" : "";
  const carries = of?.ampacityA === null || of === undefined ? "" : `carries ${spokenNumber(of.ampacityA)} A`;
  const zones = [...new Set((circuit?.zones ?? []).map(({ zone }) => cleanText(zone)))].join(", ");
  const findings = build.findings
    .filter(
      (f) =>
        (f.about === wire.about || f.about.startsWith(`${wire.about}.`)) && gravityOf(f) !== null && !isUnjudged(f),
    ) // prettier-ignore
    .sort((a, b) => byGravity(gravityOf(a) ?? "note", gravityOf(b) ?? "note"));
  const [gravest] = findings;
  const lines: Line[] = [
    [wire.number, CAPTION, HEAD, "ink", "number", "semibold"],
    [`${count > 1 ? `${count} × ` : ""}${label}${given}`, CAPTION, HEAD, "ink", "size", "semibold"],
    [`${wire.length}, one way`, CAPTION, BODY, "ink2", "length"],
    ...(colours.length > 0 ? [[cleanText(colours.join(" ")), CAPTION, BODY, "ink2"] as const] : []),
    ...[carries, zones].filter((t) => t !== "").map((t): Line => [t, CAPTION, BODY, "ink2"]),
  ];
  const top = strip.y + 2;
  const height = PITCH * (lines.length + (gravest === undefined ? 0 : 1)) + 2;
  const middle = top + height / 2;
  down(hand, wire.about, top);
  put(hand, "frame", wire.about, "", [{ is: "rectangle", from: [LINE - 2.6, top], to: [LINE + 2.6, top + height], radius: 0.8, stroke: { ink: "frame", width: 0.25 } }], true); // prettier-ignore
  put(hand, "wire", wire.about, wire.says, [{ is: "polyline", points: [[LINE, top], [LINE, top + height]], stroke: WIRE }]); // prettier-ignore
  put(hand, "mark", wire.about, "", [{ is: "polyline", points: [[LINE - 1.4, middle + 1], [LINE + 1.4, middle - 1]], stroke: WIRE }]); // prettier-ignore
  say(strip, wire.about, "", [[String(count), LINE - 6, BODY, "ink"]], middle + BODY / 2);
  say(strip, wire.about, "", lines, top + 1 + HEAD);
  figure(strip, wire.about, told.wire, top + 1 + HEAD + PITCH, "semibold");
  if (gravest !== undefined) {
    const y = top + 1 + HEAD + PITCH * lines.length;
    const gravity = gravityOf(gravest) ?? "note";
    const mark: Point = [CAPTION + MARK_MM / 2, y - BODY / 2];
    strip.items.push({ role: "mark", about: wire.about, name: findings.map((f) => cleanText(f.title)).join("; "), shapes: drawMark(gravity, mark) }); // prettier-ignore
    const more = findings.length > 1 ? ` and ${findings.length - 1} more` : "";
    say(strip, wire.about, "", [[`${cleanText(gravest.title)}${more}`, CAPTION + MARK_MM + 1.2, BODY, "ink", undefined, "semibold"]], y); // prettier-ignore
  }
  strip.y = top + height;
  down(hand, wire.about, strip.y + 2);
}

/** A load, or whatever stands at the far end. */
function drawEnd(hand: Hand, part: PartView, told: Told, isLast: boolean): void {
  const { strip, variant, state } = hand;
  const figures = told.loads.get(part.id);
  const isBar = part.is === "bar" || part.is === "panel";
  const on = state === null || isBar || state.live.has(part.about);
  let bottom = strip.y + 1.1;
  if (isBar)
    put(hand, "bar", part.about, part.says, [{ is: "rectangle", from: [3, strip.y], to: [21, bottom], fill: "ink" }], true); // prettier-ignore
  else {
    const facing = part.is === "store" ? "store" : "load";
    const art = placeStripSymbol(part.symbol, variant, [LINE, strip.y], facing, state?.bladeOf(part.id) ?? "rest");
    put(hand, "symbol", part.about, part.says, art.shapes, on);
    bottom = art.bottom;
  }
  const amps = figures?.amps ?? "";
  const under = part.is === "load" ? amps : (part.values[0] ?? "");
  const first = strip.y + (isBar ? 2 : Math.max(2.6, (bottom - strip.y) / 2 - 1));
  const label = fitText(name(part, part.id), HEAD, "semibold", VOLTS - CAPTION - 12);
  say(strip, part.about, "", [
    [label, CAPTION, HEAD, on ? "ink" : "ink2", "name", "semibold"],
    [under, CAPTION, BODY, "ink2", part.is === "load" ? "load" : "rating"],
    [figures?.start ?? "", CAPTION, BODY, "ink2"],
  ], first); // prettier-ignore
  figure(strip, part.about, figures?.volts ?? "", first, "semibold");
  const lines = (figures?.start ?? "") === "" ? 1 : 2;
  strip.y = Math.max(bottom, first + PITCH * lines + 0.6);
  if (!isLast) strip.y += 1.5;
}
