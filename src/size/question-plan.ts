import type { DeviceFamilyId } from "../device/index.ts";
import { chooseDevice } from "../protect/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { storeVolts } from "../system/index.ts";
import type { Question } from "./question.ts";

/** Greatest charging volts for every volt of nominal, as a plan takes them that says nothing. */
const HIGHEST_SHARE = 14.6 / 12;
/** Long enough for any start that is not stated; the plan's own default. */
const START_SECONDS = 0.5;

/** A device that carries the load of a question, as the tool proposes one at a bus bar or panel. */
export interface QuestionDevice {
  readonly family: DeviceFamilyId;
  readonly ratingA: number;
  /** What the load asks for, before standard ratings. */
  readonly leastA: number;
}

/**
 * The device for the load of a question. It depends on the load alone, so it can be known before the wire is.
 *
 * @returns null when nothing on sale carries the load
 */
export function deviceFor(question: Question): QuestionDevice | null {
  const { loadA, startA, startS, nominalV } = question;
  const found = chooseDevice(
    { at: "elsewhere" },
    {
      steadyAmps: loadA,
      start: startA !== null && startA > loadA ? { amps: startA, seconds: startS ?? START_SECONDS } : null,
      volts: HIGHEST_SHARE * nominalV,
    },
  );
  if (found === null) return null;
  return {
    family: found.family,
    ratingA: found.rating,
    leastA: Math.max(found.leastForSteady, found.leastForStart ?? 0),
  };
}

/**
 * The small plan that a question comes to, so that one engine answers both: a source that holds its volts, one circuit, one load.
 *
 * The circuit starts on the source itself, so that no feeder takes part of its drop. Its device is written in: on a battery the tool would
 * propose one for the battery, and a question is asked of the end of a bus bar or panel.
 *
 * @param wire label of a size to be judged; left out, the size is chosen
 */
export function planOfQuestion(question: Question, device: QuestionDevice | null, wire?: string): string {
  const q = question;
  const facts = (...pairs: readonly (readonly [key: string, value: string | null])[]): string =>
    `{ ${pairs.flatMap(([key, value]) => (value === null ? [] : [`${key}: ${value}`])).join(", ")} }`;
  const of = (x: number | null, unit: string): string | null => (x === null ? null : `${figures(x)} ${unit}`);
  // Of a lead battery the volts at rest go with its nominal volts; full, it rests at so many volts for every nominal one.
  const sourceNominal = q.sourceV / storeVolts({ curve: "lead", nominalVolts: 1 }, 1);
  return [
    "wireworthy: 1",
    "name: one circuit",
    `rules: { DC: ${q.rules.id} ${q.rules.edition} }`,
    `systems: { DC: ${facts(["kind", "DC"], ["nominal", of(q.nominalV, "V")], ["return", "source"])} }`,
    `stock: ${facts(["sizes", q.stock], ["metal", q.metal], ["strands", q.strands], ["insulation", of(q.insulationC, "°C")])}`,
    ...(q.ambientC === null ? [] : [`climate: { ambient: ${figures(q.ambientC)} °C }`]),
    "zones:",
    `  engine space: ${facts(["kind", "engine"], ["ambient", of(q.ambientC, "°C")])}`,
    "parts:",
    `  source: ${facts(
      ["kind", "battery"],
      ["chemistry", "flooded"],
      ["nominal", of(sourceNominal, "V")],
      ["lowest charge", "100 %"],
      // A millionth of an ohm and less: it holds its volts.
      ["short-circuit", "20000 kA"],
    )}`,
    `  load: ${facts(
      ["kind", "load"],
      ["running", of(q.loadA, "A")],
      ["starting", of(q.startA, "A")],
      ["start time", of(q.startS, "s")],
      ["runs above", of(q.leastVolts, "V")],
      ["starts above", of(q.startsAbove, "V")],
    )}`,
    "circuits:",
    `  W1: ${facts(
      ["path", "source → load"],
      ["length", of(q.oneWayM, "m")],
      ["zone", q.engineSpace ? "engine space" : null],
      ["bundle", q.bundle === null ? null : String(q.bundle)],
      ["method", q.method],
      ["terminals", of(q.terminalsC, "°C")],
      ["sheathed", q.sheathed ? "yes" : null],
      ["drop", q.dropShare === null ? null : `${figures(100 * q.dropShare)} %`],
      ["wire", wire ?? null],
      ["fuse", device === null ? "none" : `${figures(device.ratingA)} A ${device.family} at source`],
    )}`,
    "",
  ].join("\n");
}

/** A number in full, as the plan language takes it. */
const figures = (x: number): string => `${x < 0 ? "-" : ""}${decimalText(x, { figures: 15 })}`;
