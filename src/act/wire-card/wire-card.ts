import { readLabel } from "../../wire/label/read-label.ts";
import {
  labelContexts,
  type LabelContext,
  type LabelReading,
  type WireReading,
} from "../../wire/label/label-reading.ts";
import type { PrintedSize, WireMake } from "../../wire/make/wire-make.ts";
import { allNames } from "../../wire/name/index.ts";
import { ratedTemperature } from "../../wire/type/index.ts";
import { besideOf, conversionOf } from "./beside.ts";
import { carriedOf } from "./carried.ts";
import { conductorOf } from "./conductor-of.ts";
import { drawLadder, drawSection, drawSmallSections } from "./drawings.ts";
import { sayFacts } from "./fact-words.ts";
import { fitsOf } from "./fits.ts";
import { cutLabel } from "./label-pieces.ts";
import { runningOf } from "./running.ts";
import type { RefusedPiece, ShownName, ShownReading, WireCard, WireSheet } from "./wire-card-shape.ts";
import type { WireQuestion } from "./wire-question.ts";

/**
 * Everything that the wire desk shows of a label: what it means and which characters said so, and of an exact reading the wire drawn, its names, what
 * it carries and loses, what fits it and what lies beside it. Of several readings each is told with the label or the context that means it alone.
 *
 * Plain data with drawings as text. Never throws on a text, whatever it holds.
 *
 * @example
 * wireCard(bareQuestion("3G2.5")).verdict //=> "exact"
 * wireCard(bareQuestion("12/3")).verdict //=> "ambiguous"
 */
export function wireCard(question: WireQuestion): WireCard {
  const { text, context } = question;
  const read = readIn(text, context);
  const { problems } = read;
  const base = { problems, ladder: drawLadder(sizeOfAll(read.readings), question.isNarrow) };
  switch (read.verdict) {
    case "rejected":
      return { verdict: "rejected", ...base, pieces: piecesAround(text, problems[0]?.at ?? [0, 0]) };
    case "ambiguous": {
      const small = drawSmallSections(read.readings.map(({ make }) => make));
      const readings = read.readings.map((reading, i) => ({
        ...showReading(text, reading),
        contexts: contextsOf(text, reading),
        small: small[i] ?? null,
      }));
      return { verdict: "ambiguous", ...base, question: read.question, readings };
    }
    case "exact": {
      const [reading] = read.readings;
      return {
        verdict: "exact",
        ...base,
        reading: showReading(text, reading),
        ruledOut: read.ruledOut.map(({ says }) => says),
        sheet: sheetOf(reading, text, question),
      };
    }
  }
}

/** The size that all readings have; null: they differ, or there is none. */
function sizeOfAll(readings: LabelReading["readings"]): PrintedSize | null {
  const sizes = readings.map(({ make: { size } }) => size);
  const [first] = sizes;
  return first != null && sizes.every((size) => size?.label === first.label) ? first : null;
}

const readIn = (text: string, context: LabelContext | null): LabelReading =>
  readLabel(text, context === null ? {} : { context });

/** Contexts in which a label is read as one of its readings alone. */
const contextsOf = (text: string, { says }: WireReading): readonly LabelContext[] =>
  labelContexts.filter((context) => {
    const read = readIn(text, context);
    return read.verdict === "exact" && read.readings[0].says === says;
  });

const showReading = (text: string, reading: WireReading): ShownReading => ({
  says: reading.says,
  pieces: cutLabel(text, reading.from),
  facts: sayFacts(reading),
  by: reading.by,
  traps: reading.traps,
  exactLabel: proved(reading.exactLabel, reading) ?? proved(outsideLabel(reading.make), reading),
});

/** A diameter alone, which the label left without its name. */
const outsideLabel = ({ size, outsideMm }: WireMake): string | null =>
  size === null && outsideMm !== null ? `OD ${outsideMm} mm` : null;

/** A label that is read as a reading and nothing else, wherever it stands; null: it is not. */
function proved(label: string | null, { says }: WireReading): string | null {
  if (label === null) return null;
  const read = readIn(label, null);
  return read.verdict === "exact" && read.readings[0].says === says ? label : null;
}

/** Whether a label is read as a make and nothing else, wherever it stands. */
function isOf(label: string, make: WireMake): boolean {
  const read = readIn(label, null);
  return read.verdict === "exact" && JSON.stringify(read.readings[0].make) === JSON.stringify(make);
}

function sheetOf(reading: WireReading, text: string, question: WireQuestion): WireSheet {
  const { make } = reading;
  const conductor = conductorOf(make);
  // What needs no context to be read so may stand in a plan, where there is none; what was ordered of it stays out.
  const exactLabel = [reading.exactLabel, text.trim()].find((label) => label !== null && isOf(label, make)) ?? null;
  const label = exactLabel ?? text.trim();
  const isCable = make.cores !== null && make.cores.total > 1;
  const carried = conductor === null ? null : carriedOf(conductor, ratedTemperature(make), question.insulationC, make);
  return {
    forPlan: exactLabel === null ? null : { field: isCable ? "cable" : "wire", label: exactLabel },
    exactLabel: label,
    names: allNames(make).map(({ label: name, standing, says, by, trap }): ShownName => ({
      label: name,
      standing,
      says,
      uses: [...new Set(by.map(({ use }) => use))],
      dialects: [...new Set(by.map(({ dialect }) => dialect))],
      trap,
    })),
    carried,
    running:
      conductor === null || carried === null
        ? null
        : runningOf(conductor, make.runs, carried.insulationC, question.amps),
    assumed: conductor?.assumed ?? [],
    fits: fitsOf(make),
    neighbours: make.size === null ? [] : besideOf(make.size),
    conversion: conductor === null ? null : conversionOf(conductor, question.convert),
    section: drawSection(make, question, label),
  };
}

/** A text cut around the stretch that is wrong in it. */
function piecesAround(text: string, [from, to]: readonly [number, number]): readonly RefusedPiece[] {
  const pieces = [
    { text: text.slice(0, from), isWrong: false },
    { text: text.slice(from, to), isWrong: true },
    { text: text.slice(Math.max(from, to)), isWrong: false },
  ];
  return pieces.filter((piece) => piece.text !== "");
}
