import { readLabel } from "../../wire/label/read-label.ts";
import type { LabelProblem, LabelReading, WireReading } from "../../wire/label/label-reading.ts";
import type { WireMake } from "../../wire/make/wire-make.ts";
import { sizeOfPrint } from "../../wire/index.ts";
import type { ScalarNode } from "../text/index.ts";
import { listed, shown } from "./record.ts";
import type { Reading, ValueRule } from "./rule.ts";
import { sayProblem, scalarRule } from "./values.ts";
import type { WrittenCable, WrittenWire } from "./written-label.ts";

const isOneConductor = ({ make: { cores } }: WireReading): boolean => cores === null || cores.total <= 1;

/** The label of one conductor: its size, and whatever else stands on it. */
export function wireLabel(): ValueRule<WrittenWire> {
  const says = "a wire such as `2.5 mm²`, `10 AWG tinned`, `65/0.30` or `2/0`";
  const rule = scalarRule(says, { type: "string", description: says }, (node, reading): WrittenWire | undefined => {
    const make = meantBy(node, reading, isOneConductor);
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
    if (size !== null) return { size, make };
    sayNoSize(node, make, says, reading);
    return undefined;
  });
  return { ...rule, takes: { form: "wire label" } };
}

/** The label of a cable: its conductors, their size, what it is made for. */
export function cableLabel(): ValueRule<WrittenCable> {
  const says = "a cable such as `3G2.5 H07RN-F`, `12/2 boat duplex` or `12/2 w/G NM-B`";
  const rule = scalarRule(says, { type: "string", description: says }, (node, reading): WrittenCable | undefined => {
    const make = meantBy(node, reading, ({ make: { cores } }) => cores !== null);
    if (make === undefined) return undefined;
    const size = make.size === null ? null : sizeOfPrint(make.size);
    if (make.size !== null && size === null) {
      sayNoSize(node, make, says, reading);
      return undefined;
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
function meantBy(node: ScalarNode, reading: Reading, fits: (one: WireReading) => boolean): WireMake | undefined {
  const read = readLabel(node.text);
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
      ...(exactLabel === null ? {} : { hint: `write \`${exactLabel}\`, which means nothing else` }),
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
  const written = end > start ? [text.slice(0, start) + make.size.label + text.slice(end)] : [];
  const said = JSON.stringify(make);
  for (const answer of [...(exactLabel === null ? [] : [exactLabel]), ...written]) {
    const again = readLabel(answer);
    if (again.verdict === "exact" && JSON.stringify(again.readings[0].make) === said) return answer;
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
    data: { near },
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
