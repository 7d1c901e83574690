import { readLabel } from "../../wire/label/read-label.ts";
import type { LabelContext, LabelProblem, LabelReading, WireReading } from "../../wire/label/label-reading.ts";
import { emptyMake, type PrintedSize, type WireMake } from "../../wire/make/wire-make.ts";
import { isIecSize, saeSize, sizeOfPrint, type WireSize } from "../../wire/index.ts";
import type { ScalarNode } from "../text/index.ts";
import { listed, shown } from "./record.ts";
import type { Reading, ValueRule } from "./rule.ts";
import { sayProblem, scalarRule } from "./values.ts";
import type { WrittenCable, WrittenWire } from "./written-label.ts";

const isOneConductor = ({ make: { cores } }: WireReading): boolean => cores === null || cores.total <= 1;

/**
 * The label of one conductor: its size, and whatever else stands on it.
 *
 * @param context where the wire is bought, if that is known
 */
export function wireLabel(context?: LabelContext): ValueRule<WrittenWire> {
  const says = "a wire such as `2.5 mm²`, `10 AWG tinned`, `65/0.30` or `2/0`";
  const rule = scalarRule(says, { type: "string", description: says }, (node, reading): WrittenWire | undefined => {
    const make = meantBy(node, reading, isOneConductor, context);
    if (make === undefined) return undefined;
    if (make.cores !== null && make.cores.total > 1) {
      const size = make.size?.label ?? "2.5 mm²";
      reading.say({
        id: "plan/cable-label",
        level: "error",
        at: node.span,
        message: `\`${shown(node.text)}\` is the label of a cable of ${make.cores.total} conductors; that of one conductor was expected`,
        hint: `write it behind \`cable:\`, or \`${size}\` here`,
        data: { size },
      });
      return undefined;
    }
    const size = make.size === null ? null : sizeOfPrint(make.size);
    if (size !== null) {
      sayOfSize(node, size, make, reading);
      return { size, make };
    }
    sayNoSize(node, make, says, reading);
    return undefined;
  });
  return { ...rule, takes: { form: "wire label" } };
}

/** The size of one conductor, and no more. */
export function wireSize(): ValueRule<WireSize> {
  const says = "a wire size such as `2.5 mm²`, `10 AWG` or `2/0`";
  const label = wireLabel();
  return {
    says,
    schema: { type: "string" },
    takes: { form: "wire size" },
    read(node, reading) {
      const fact = label.read(node, reading);
      if (fact === undefined || fact.value === "unknown") return fact as undefined; // nothing of a label is left in either
      const { size, make } = fact.value;
      if (isSizeAlone(make)) return { value: size, span: fact.span };
      reading.say({
        id: "plan/size-expected",
        level: "error",
        at: node.span,
        message: `the label says more than a size; ${says} was expected`,
        hint: `write \`${size.label}\``,
      });
      return undefined;
    },
  };
}

/** Whether a label says a size and nothing else; strands that are counted are a size, a class or `solid` is more. */
export const isSizeAlone = (make: WireMake): boolean =>
  (make.stranding?.name ?? null) === null &&
  JSON.stringify({ ...make, size: null, stranding: null }) === JSON.stringify(emptyMake);

/** What could be written better in a size that is taken as it stands. */
function sayOfSize(node: ScalarNode, size: WireSize, { size: printed }: WireMake, reading: Reading): void {
  const hint = (id: string, message: string, next: string): void => {
    reading.say({ id, level: "hint", at: node.span, message, hint: next });
  };
  if (printed?.system === "mm²" && !isIecSize(size)) {
    hint(
      "plan/no-standard-size",
      `${size.label} is not a size of IEC 60228; it is taken as written`,
      "check the label; where it counts strands, their area is the safest figure",
    );
  }
  const vehicle = size.system === "AWG" ? saeSize(size.name) : null;
  if (vehicle !== null && /\d\s*(?:ga\.?|gauge|gage)(?!\p{L})/iu.test(node.text)) {
    hint(
      "plan/gauge-of-which-kind",
      `the gauge is read as ${size.label}; vehicle cable of SAE gauge holds up to 11 % less copper`,
      `write \`${size.label}\` or \`${vehicle.label}\``,
    );
  }
  const comma = /\d+,\d+(?!\d)/.exec(node.text)?.[0];
  if (comma !== undefined && printed?.system === "mm²") {
    hint("plan/decimal-comma", `\`${comma}\` is read as ${size.name}`, `write \`${size.name}\``);
  }
}

/** The label of a cable: its conductors, their size, what it is made for. */
export function cableLabel(): ValueRule<WrittenCable> {
  const says = "a cable such as `3G2.5 H07RN-F`, `12/2 boat duplex` or `12/2 w/G NM-B`";
  const rule = scalarRule(says, { type: "string", description: says }, (node, reading): WrittenCable | undefined => {
    const make = meantBy(node, reading, ({ make: { cores } }) => cores !== null);
    if (make === undefined) return undefined;
    // Which core is for what, nobody says: where one is thinner, it is the one that is computed with.
    const sizes = [make.size, ...(make.cores?.others ?? []).map((other) => other.size)].flatMap((s) => s ?? []);
    const printed = sizes.reduce<PrintedSize | null>((a, b) => (a !== null && a.areaMm2 <= b.areaMm2 ? a : b), null);
    const size = printed === null ? null : sizeOfPrint(printed);
    if (printed !== null && size === null) {
      sayNoSize(node, { ...make, size: printed }, says, reading);
      return undefined;
    }
    if (size !== null && printed !== make.size) {
      reading.say({
        id: "plan/thinner-core",
        level: "hint",
        at: node.span,
        message: `cores of the cable differ in size; all are taken as the thinnest, ${size.label}`,
        hint: "write the size behind `wire:` where every core that carries its current is thicker",
      });
    }
    if (make.cores !== null) return { label: node.text.trim(), make, cores: make.cores, size };
    reading.say({
      id: "plan/cores-missing",
      level: "error",
      at: node.span,
      message: `\`${shown(node.text)}\` does not say how many conductors the cable has; ${says} was expected`,
      hint: "write their number with the label, or the size of one conductor behind `wire:`",
    });
    return undefined;
  });
  return { ...rule, takes: { form: "cable label" } };
}

/**
 * What a label says, where it says one thing; else the question that settles it is told, with answers that can be put in its place.
 *
 * @param fits of several readings one that fits what stands at this key is meant where no other does
 */
function meantBy(
  node: ScalarNode,
  reading: Reading,
  fits: (one: WireReading) => boolean,
  context?: LabelContext,
): WireMake | undefined {
  const read = readLabel(node.text, context === undefined ? {} : { context });
  if (read.verdict === "rejected") {
    for (const problem of read.problems) sayOne(problem, node, "error", reading);
    return undefined;
  }
  const fitting = read.readings.filter(fits);
  const [only, other] = fitting;
  // A bare figure stays a question: that one of its readings is no wire for power does not make the other one meant.
  if (read.verdict === "ambiguous" && (only === undefined || other !== undefined)) {
    sayQuestion(read, fitting.length > 0 ? fitting : read.readings, node, reading);
    return undefined;
  }
  for (const problem of read.problems) sayOne(problem, node, "hint", reading);
  const { make, by, says, exactLabel } = only ?? read.readings[0];
  if (by.length > 0) {
    reading.say({
      id: "plan/label-by-habit",
      level: "hint",
      at: node.span,
      message: `\`${shown(node.text)}\` is read as ${says}: ${by.join(", ")}`,
      ...(exactLabel === null || exactLabel === node.text.trim()
        ? {}
        : { hint: `write \`${exactLabel}\`, which means nothing else` }),
    });
  }
  if (make.metal === "copper-clad aluminium") {
    reading.say({
      id: "plan/copper-clad",
      level: "warning",
      at: node.span,
      message: "copper-clad aluminium is counted as aluminium, which conducts a little worse",
      hint: "take copper: few terminals and no small-craft rule allow it",
    });
  }
  if (make.family === "service cable" && make.metal === null) {
    reading.say({
      id: "plan/metal-not-told",
      level: "warning",
      at: node.span,
      message: "service cable is mostly of aluminium, and the label does not say what this one is made of",
      hint: "write `aluminium` or `copper` with the label; until then the circuit's metal counts, or the stock's",
    });
  }
  return make;
}

const sayOne = (
  { id, at, message, hint }: LabelProblem,
  node: ScalarNode,
  level: "error" | "hint",
  reading: Reading,
): void => {
  sayProblem({ id, at, message, hint }, node, level, reading);
};

/** mm²; 24 AWG, the thinnest of which a cord is made. Thinner wire carries no power: as a gauge it is only the other reading of a figure. */
const THINNEST = 0.2;

/** A label that says what one reading does and nothing else: the size written out in place of what stands there, or the label's other name. */
function answerFor({ make, from, exactLabel }: WireReading, text: string): string | null {
  if (make.size === null || make.size.areaMm2 < THINNEST) return null;
  const [start, end] = from.size?.[0] ?? [0, 0];
  const size = sizeOfPrint(make.size);
  const inPlace = [make.size.label, ...(size === null ? [] : [size.label])].map(
    (label) => text.slice(0, start) + label + text.slice(end),
  );
  const said = JSON.stringify({ ...make, size: null });
  for (const answer of [...(exactLabel === null ? [] : [exactLabel]), ...(end > start ? inPlace : [])]) {
    const again = readLabel(answer);
    if (again.verdict !== "exact") continue;
    const [{ make: other }] = again.readings;
    const same = other.size !== null && sizeOfPrint(other.size)?.label === size?.label;
    if (same && JSON.stringify({ ...other, size: null }) === said) return answer;
  }
  return null;
}

function sayQuestion(
  { question }: Extract<LabelReading, { verdict: "ambiguous" }>,
  readings: readonly WireReading[],
  node: ScalarNode,
  reading: Reading,
): void {
  const near = readings.flatMap((one) => answerFor(one, node.text) ?? []);
  reading.say({
    id: "plan/label-ambiguous",
    level: "error",
    at: node.span,
    message: `\`${shown(node.text)}\` can be read in ${readings.length} ways: ${question.charAt(0).toLowerCase()}${question.slice(1)}`,
    hint: near.length === 0 ? "write more of the label" : `did you mean ${listed(near, "or")}?`,
    data: { near, ways: readings.length },
  });
}

function sayNoSize(node: ScalarNode, { size }: WireMake, says: string, reading: Reading): void {
  reading.say({
    id: size === null ? "plan/size-expected" : "plan/not-a-size",
    level: "error",
    at: node.span,
    message:
      size === null
        ? `\`${shown(node.text)}\` does not say a size; ${says} was expected`
        : `\`${size.label}\` is a size that no table here goes to`,
    hint: size === null ? "write the size that is printed on it" : "write a size up to 2000 kcmil or 1000 mm²",
  });
}
