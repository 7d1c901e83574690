import { cleanText } from "../clean-text.ts";
import type { Item, Scene, Shape } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import { drawFrame } from "../sheet/draw-frame.ts";
import { fitText } from "../sheet/fit-text.ts";
import { papers } from "../sheet/paper.ts";
import { textItem, TEXT_CAP, words } from "../sheet/text-block.ts";
import { drawTitleBlock, titleHeight, type TitleFields } from "../sheet/title-block.ts";
import { drawAxes, makeAxes, type Axes } from "./axes.ts";
import { bandShapes, bandTone, hatchAngles, layBand } from "./draw-band.ts";
import { drawFlags, FLAG_ROW, layFlags } from "./draw-flags.ts";
import { DAMAGE, layConductor, layPulse, PULSE } from "./draw-loads.ts";
import { placeLabels, type LabelWish } from "./place-labels.ts";
import type { PlotDevice, TimeCurrentPlot } from "./plot.ts";
import { keyHeight, keyRows, oneLineEach, writeKey, type KeyRow } from "./write-key.ts";

/** A sheet of paper with its title block, or a picture for a page, as high as it needs to be. */
export type TimeCurrentSheet =
  { readonly on: "A4" | "Letter"; readonly fields: TitleFields } | { readonly on: "screen" };

/** Each kind of line beyond this many would make the plot unreadable: those that are left out are told. */
const MOST = { devices: hatchAngles.length, conductors: 6, markers: 6, pulses: 4 } as const;

/** Widths in mm: of the figures at the left, of the decades together, of the column for labels that find no room at their line. */
const [FIGURES, ACROSS, COLUMN] = [13, 124, 37];
/** Height of the plot at best and at worst; below its line of figures the title of the axis. */
const [HIGH, LOW, UNDER] = [150, 76, 9.5];
const HEAD = 9;
/** Longest short label, mm. */
const LABEL = 34;
const SCREEN_EDGE = 4;

const CAPTION =
  "Advice to a competent person, not a certificate. Cold devices at 20 °C and steady currents; a band is what the standard or the data sheet allows, not a typical curve. Edges of bands that rest on neither are broken.";

/**
 * Draws when the devices of a chain open: the time over the current, both by decades, with the fault currents, what the conductors bear, and what the
 * loads draw when nothing is wrong.
 *
 * A band that is not known is told in words and drawn as nothing. Up to six devices, from the load towards the source.
 *
 * @returns mm
 * @source docs/method.md, Devices in time
 */
export function drawTimeCurrent(asked: TimeCurrentPlot, sheet: TimeCurrentSheet): Scene {
  const { plot, left: leftOut } = withinMost(cleaned(asked));
  const region = regionOf(sheet);
  const width = region.right - region.left;
  const [x1, x2] = [region.left + FIGURES, region.left + FIGURES + ACROSS];
  // Flags are laid by their places across alone, so that their rows are known before the plot is.
  const flagged = layFlags(plot.markers, makeAxes(plot, [[x1, 0], [x2, 1]]), region.right); // prettier-ignore
  const flagRows = flagged.reduce((most, { row }) => Math.max(most, row + 1), 0);
  const top = region.top + HEAD + Math.max(1, flagRows) * FLAG_ROW + 2;
  const most = region.bottom === null ? Infinity : region.bottom - top - LOW - UNDER - 3;
  const { rows, notes, height: forKey } = fitKey(plot, leftOut, width, most);
  const room = region.bottom === null ? HIGH : region.bottom - top - UNDER - 3 - forKey;
  const bottom = top + Math.min(HIGH, Math.max(LOW, room));
  const axes = makeAxes(plot, [[x1, top], [x2, bottom]]); // prettier-ignore

  const keyTop = bottom + UNDER + 3;
  const height = region.bottom === null ? keyTop + forKey + SCREEN_EDGE : papers[region.paper].height;
  const title = fitText(plot.title, 3.5, "semibold", width);
  return {
    width: region.width,
    height,
    title: plot.title,
    says: `When ${plot.devices.map(({ label }) => label).join(", ")} open, over the current, at ${plot.volts}.`,
    items: [
      ...region.items,
      textItem([words(title, [region.left, region.top + 4], { capMm: 3.5, weight: "semibold" }), words(`all curves at ${plot.volts}`, [region.left, region.top + 7.8], { ink: "ink2" })], plot.title), // prettier-ignore
      ...drawPlot(plot, axes, drawFlags(layFlags(plot.markers, axes, region.right), axes), [[x2 + 2.5, top], [region.right, bottom]]), // prettier-ignore
      ...writeKey(rows, notes, { left: region.left, top: keyTop, width }),
    ],
  };
}

/** The key and the notes, with as many of the notes, and as much of each line, as there is room for. */
function fitKey(
  plot: TimeCurrentPlot,
  leftOut: readonly string[],
  width: number,
  most: number,
): { readonly rows: readonly KeyRow[]; readonly notes: readonly string[]; readonly height: number } {
  const whole = keyRows(plot.devices, plot.conductors, plot.pulses);
  const sources = sourcesOf(plot);
  for (let kept = plot.notes.length; ; kept--) {
    // When even the last note has gone, each line of the key is cut to one.
    const isLast = kept < 0;
    const more = plot.notes.length - Math.max(0, kept);
    const rows = isLast ? oneLineEach(whole, width) : whole;
    const notes = [
      ...leftOut,
      ...plot.notes.slice(0, Math.max(0, kept)),
      more > 0 ? `${more} more notes are not drawn.` : "",
      isLast ? fitText(sources, TEXT_CAP, "regular", width) : sources,
      CAPTION,
    ].filter((note) => note !== "");
    const height = keyHeight(rows, notes, width);
    if (isLast || height <= most) return { rows, notes, height };
  }
}

interface Region {
  readonly paper: "A4" | "Letter";
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  /** Null: as high as it needs to be. */
  readonly bottom: number | null;
  readonly items: readonly Item[];
}

function regionOf(sheet: TimeCurrentSheet): Region {
  if (sheet.on === "screen") {
    const width = FIGURES + ACROSS + COLUMN + 2 * SCREEN_EDGE;
    return { paper: "A4", width, left: SCREEN_EDGE, right: width - SCREEN_EDGE, top: SCREEN_EDGE, bottom: null, items: [] }; // prettier-ignore
  }
  const paper = papers[sheet.on];
  const [[x1, y1], [x2, y2]] = paper.frame;
  const pad = 2.5;
  return {
    paper: sheet.on,
    width: paper.width,
    left: x1 + pad,
    right: x2 - pad,
    top: y1 + pad,
    bottom: y2 - titleHeight(sheet.fields) - pad,
    items: [drawFrame(paper), ...drawTitleBlock(sheet.fields, [x2, y2])],
  };
}

/** What a plan may hold stands on paper only cleaned. */
function cleaned(plot: TimeCurrentPlot): TimeCurrentPlot {
  const label = (text: string): string => fitText(cleanText(text), TEXT_CAP, "semibold", LABEL);
  return {
    title: cleanText(plot.title),
    unit: fitText(cleanText(plot.unit), TEXT_CAP, "regular", LABEL),
    volts: fitText(cleanText(plot.volts), TEXT_CAP, "regular", LABEL),
    devices: plot.devices.map((d) => ({
      ...d,
      label: label(d.label),
      says: cleanText(d.says),
      missing: d.missing === null ? null : cleanText(d.missing),
    })),
    markers: plot.markers.filter(({ amps }) => amps > 0 && Number.isFinite(amps)).map((m) => ({ ...m, label: cleanText(m.label) })), // prettier-ignore
    conductors: plot.conductors.map((c) => ({ ...c, label: label(c.label), says: cleanText(c.says) })),
    pulses: plot.pulses.map((p) => ({ ...p, label: label(p.label), says: cleanText(p.says) })),
    notes: plot.notes.map(cleanText),
    sources: plot.sources.map(cleanText),
  };
}

/** As many lines as can be read, and a sentence for those that are left out. */
function withinMost(plot: TimeCurrentPlot): { readonly plot: TimeCurrentPlot; readonly left: readonly string[] } {
  const { devices, markers, conductors, pulses } = plot;
  const words = { devices: "devices", markers: "fault currents", conductors: "conductors", pulses: "loads" } as const;
  const over = (["devices", "markers", "conductors", "pulses"] as const).flatMap((kind) => {
    const more = plot[kind].length - MOST[kind];
    return more > 0 ? [`${more} more ${words[kind]} are not drawn.`] : [];
  });
  const kept = {
    ...plot,
    devices: devices.slice(0, MOST.devices),
    markers: markers.slice(0, MOST.markers),
    conductors: conductors.slice(0, MOST.conductors),
    pulses: pulses.slice(0, MOST.pulses),
  };
  return { plot: kept, left: over.length === 0 ? [] : [over.join(" ")] };
}

const sourcesOf = ({ sources }: TimeCurrentPlot): string =>
  sources.length === 0 ? "" : `Curves from ${[...new Set(sources)].join("; ")}.`;

function drawPlot(plot: TimeCurrentPlot, axes: Axes, flags: readonly Item[], column: Box): Item[] {
  const bands = plot.devices.map((device) => layBand(device, axes));
  const damage = plot.conductors.map((conductor) => layConductor(conductor, axes));
  const pulses = plot.pulses.map((pulse) => layPulse(pulse, axes));
  const wishes: LabelWish[] = [
    ...plot.devices.map(({ label }, i) => wish(label, "semibold", bands[i]?.edges ?? [])),
    ...plot.conductors.map(({ label }, i) => wish(label, "regular", damage[i] ?? [])),
    ...plot.pulses.map(({ label }, i) => wish(label, "regular", pulses[i] ?? [])),
  ].filter(({ line }) => line.length > 0);
  const markers = plot.markers.map(({ amps }): LabelWish => {
    const [x] = axes.place([amps, 1]);
    return { text: "", weight: "regular", line: [[[x, axes.box[0][1]], [x, axes.box[1][1]]]] }; // prettier-ignore
  });
  const inner: Box = [
    [axes.box[0][0] + 0.4, axes.box[0][1] + 0.4],
    [axes.box[1][0] - 0.4, axes.box[1][1] - 0.4],
  ];
  const labels = placeLabels(
    wishes,
    inner,
    column,
    markers.flatMap(({ line }) => line),
  );
  const path = (pieces: readonly (readonly (readonly [number, number])[])[], stroke: typeof DAMAGE): Shape[] =>
    pieces.map((points) => ({ is: "polyline", points, stroke }));
  return [
    { role: "flow", about: null, name: "", shapes: bands.flatMap((band) => bandTone(band, axes.box)) },
    drawAxes(axes, plot.unit),
    ...plot.devices.map((device, i): Item => ({
      role: "wire",
      about: device.about,
      name: spokenBand(device),
      shapes: bandShapes(bands[i] ?? { area: [], edges: [], bar: null }, i, device.trust),
    })),
    ...plot.conductors.map((c, i): Item => ({ role: "wire", about: c.about, name: `${c.label}: damage line`, shapes: path(damage[i] ?? [], DAMAGE) })), // prettier-ignore
    ...plot.pulses.map((p, i): Item => ({ role: "wire", about: p.about, name: `${p.label}: ${p.says}`, shapes: path(pulses[i] ?? [], PULSE) })), // prettier-ignore
    ...flags,
    { role: "mark", about: null, name: "", shapes: labels.flatMap(({ leader }) => leader) },
    ...labels.map((label): Item => ({ role: "caption", about: null, name: "", shapes: label.words })),
  ];
}

/** The best places for a name are at the upper end of its line. */
const wish = (text: string, weight: LabelWish["weight"], line: LabelWish["line"]): LabelWish => ({
  text,
  weight,
  line,
});

const spokenBand = ({ label, missing, min, max }: PlotDevice): string =>
  min === null && max === null ? `${label}: ${missing ?? "no band known"}` : `${label}: band of opening times${missing === null ? "" : `, ${missing}`}`; // prettier-ignore
