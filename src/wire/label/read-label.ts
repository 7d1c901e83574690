import type { Span } from "../../diagnostic.ts";
import { ask } from "./ask.ts";
import { draftOf, type Draft } from "./draft.ts";
import { boundIn } from "./bound.ts";
import type { LabelContext, LabelProblem, LabelReading, WireReading } from "./label-reading.ts";
import { makesOf, type Candidate } from "./make-of.ts";
import type { Part } from "./part.ts";
import { plainText, type PlainText } from "./plain-text.ts";
import { LONGEST_LABEL, quote, refusals, tooLong } from "./refuse.ts";
import { scan, tells } from "./scan.ts";
import { isSensible, isUnitMissing } from "./sensible.ts";
import { plainnessOf, unknownWords } from "./unknown-words.ts";

/** Where a label was met, if that is known. */
export interface LabelOptions {
  readonly context?: LabelContext;
}

/** Choices that are tried at most; a label with more is not one that people print. */
const MOST_CHOICES = 64;

const rejected = (first: LabelProblem, ...more: readonly LabelProblem[]): LabelReading => ({
  verdict: "rejected",
  readings: [],
  problems: [first, ...more],
});

/** Every choice of one reading for each part that makes a wire which anybody would name so. */
function draftsOf(parts: readonly Part[], plain: PlainText, context: LabelContext | null): readonly Draft[] {
  const drafts: Draft[] = [];
  const spans = parts.map(({ start, end }) => plain.spanOf(start, end));
  const choice = parts.map(() => 0);
  for (let at = 0; at < parts.length;) {
    const draft = draftOf(parts, choice, spans);
    if (draft !== null && isSensible(draft, context)) drafts.push(draft);
    // The next choice, as a counter counts on.
    for (at = 0; at < parts.length; at++) {
      const next = (choice[at] ?? 0) + 1;
      const isLeft = next < (parts[at]?.options.length ?? 1);
      choice[at] = isLeft ? next : 0;
      if (isLeft) break;
    }
  }
  return drafts;
}

const numberOfChoices = (parts: readonly Part[]): number =>
  parts.reduce((product, { options }) => product * options.length, 1);

/** Candidates without those that come to the same. */
function different(candidates: readonly Candidate[]): readonly Candidate[] {
  if (candidates.length < 2) return candidates;
  const known = new Set<string>();
  return candidates.filter(({ reading: { make, quantity } }) => {
    const key = JSON.stringify([make, quantity]);
    if (known.has(key)) return false;
    known.add(key);
    return true;
  });
}

const CONTEXT_SAYS: Readonly<Record<LabelContext, string>> = {
  boat: "it was met on a boat",
  building: "it was met in a building",
  vehicle: "it was met in a vehicle",
  cord: "it was met on a cord",
  metric: "it was met where sizes are metric",
  order: "it was met in an order",
};

interface Narrowed {
  readonly left: readonly WireReading[];
  readonly ruledOut: readonly WireReading[];
}

/** Leaves the readings that are at home in a context, and says so. */
function narrow(candidates: readonly Candidate[], context: LabelContext | undefined): Narrowed {
  const all = candidates.map(({ reading }) => reading);
  if (context === undefined || candidates.length < 2) return { left: all, ruledOut: [] };
  const fits = ({ home }: Candidate): boolean => home === null || home.includes(context);
  const left = candidates.filter(fits);
  if (left.length === 0 || left.length === candidates.length) return { left: all, ruledOut: [] };
  return {
    left: left.map(({ reading }) => ({ ...reading, by: [...reading.by, CONTEXT_SAYS[context]] })),
    ruledOut: candidates.filter((each) => !fits(each)).map(({ reading }) => reading),
  };
}

const wholeOf = (plain: PlainText): Span => plain.spanOf(0, plain.text.length);

function noSize(plain: PlainText): LabelProblem {
  return {
    id: "not-a-size",
    at: wholeOf(plain),
    message: `${quote(plain.written.trim())} holds no size of a wire that is made; a size was expected`,
    hint: "write `12 AWG`, `2/0 AWG`, `250 kcmil`, `2.5 mm²`, `3G2.5` or `14/3` as it is printed",
  };
}

/**
 * What a label printed on a wire or cable, a line of an order or a note on a drawing means.
 *
 * Reads the size in every system that the trade prints, cores and ground by the kind of cable, type codes, metal, plating, strands, volts, temperature, colours,
 * outside diameter and quantity. Where characters alone leave it open, all sensible readings come back with the question that settles them. Ignores what
 * stands on lugs, sheaths and boxes, and says that it does.
 *
 * @param text one line, never trusted; longer than 200 characters it is refused
 * @param options where it was met: that may rule readings out, and the reading says so
 * @returns exactly one meaning, several with a question, or none with the reason; places count in `text`
 * @source ASTM B258, IEC 60228, SAE J1127 and J1128, HD 361 S3, NEC Table 400.4 and Articles 334 to 340, UL 1426; habits of the trade where a reading names them
 * @example
 * readLabel("14/3 SOOW").readings[0].make.cores.total //=> 3
 * readLabel("12/3").verdict //=> "ambiguous"
 * readLabel("12/3", { context: "boat" }).readings[0].by //=> ["it was met on a boat"]
 * readLabel("2/O AWG").problems[0].id //=> "letter-for-digit"
 */
export function readLabel(text: string, options: LabelOptions = {}): LabelReading {
  if (text.length > LONGEST_LABEL) return rejected(tooLong(text));
  const plain = plainText(text);
  const [refusal, ...more] = refusals(plain);
  if (refusal !== undefined) return rejected(refusal, ...more);
  const context = options.context ?? null;
  const { parts, unknown } = scan(plain);
  const isPlainNeeded = unknown.length > 0 || tells(parts, "otherThing") || tells(parts, "nearThing");
  const plainness = isPlainNeeded ? plainnessOf(parts, plain.low) : 3;
  const words = unknownWords(plain, unknown, plainness);
  // A note tells of switches and pipes as well: beside a plain size they are not what is meant.
  if (plainness < 3 && (tells(parts, "otherThing") || (plainness < 2 && tells(parts, "nearThing"))))
    return rejected({
      id: "other-thing",
      at: wholeOf(plain),
      message: `${quote(plain.written.trim())} names another thing than a wire`,
      hint: "give the label of the wire alone",
    });
  const bound = boundIn(parts, plain.low);
  if (bound !== null)
    return rejected({
      id: "not-a-size",
      at: plain.spanOf(bound.part.start, bound.part.end),
      message:
        bound.is === "sign"
          ? "a sign of plus or minus stands before the size; a size was expected"
          : `${quote(plain.written.trim())} tells how thick a wire may be, not how thick it is; one size was expected`,
      hint: bound.is === "sign" ? "leave the sign out" : "write the size of the wire that is there",
    });
  if (words.blocking[0] !== undefined) return rejected(words.blocking[0], ...words.blocking.slice(1));
  if (parts.length === 0 || numberOfChoices(parts) > MOST_CHOICES)
    return rejected({ ...noSize(plain), id: "not-a-label" });
  const drafts = draftsOf(parts, plain, context);
  if (drafts.length > 0 && drafts.every(isScrewAlone))
    return rejected({
      id: "other-thing",
      at: wholeOf(plain),
      message: `${quote(plain.written.trim())} names a terminal and the screw that it takes, not a wire`,
      hint: "write the size of the wire as well, as in `8 AWG #10 ring`",
    });
  const found = drafts.flatMap((draft) => makesOf(draft, context));
  const candidates = different(
    found.filter(
      ({ reading }) => tellsWire(reading) || (parts.length === 1 && reading.quantity !== null && found.length > 1),
    ),
  );
  if (candidates.length === 0) return rejected(found.length === 0 ? disagreement(plain) : noSize(plain));
  const disagrees = candidates.every((each) => each.disagrees);
  const problems = [...words.noted, ...(disagrees ? [disagreement(plain)] : [])];
  const { left, ruledOut } = narrow(candidates, options.context);
  const [first, second, ...rest] = left;
  if (first === undefined) return rejected(noSize(plain));
  if (second === undefined && options.context !== "metric" && drafts.every(isUnitMissing))
    return rejected(unitMissing(plain));
  if (first.from.colours !== undefined && left.every(({ make }) => make.colours.length === 0))
    problems.push(colourDropped(plain, first.from.colours[0] ?? wholeOf(plain)));
  if (second === undefined)
    return disagrees ? rejected(disagreement(plain)) : { verdict: "exact", readings: [first], ruledOut, problems };
  return { verdict: "ambiguous", readings: [first, second, ...rest], question: ask(left), problems };
}

/** Whether a reading says enough to be a wire: a size, or a type; a screw or a colour alone is none. */
const tellsWire = ({ make }: WireReading): boolean =>
  make.size !== null || make.type !== null || make.outsideMm !== null;

const colourDropped = (plain: PlainText, at: Span): LabelProblem => ({
  id: "colour-not-kept",
  at,
  message: `${quote(plain.written.slice(...at))} is the colour of the jacket, and that is not kept; the colours of its conductors are not told`,
  hint: "write the colour of each conductor where it matters",
});

const unitMissing = (plain: PlainText): LabelProblem => ({
  id: "not-a-size",
  at: wholeOf(plain),
  message: `${quote(plain.written.trim())} has a number without a unit; a size was expected`,
  hint: "write the unit, as in `50 mm²` or `12 AWG`",
});

/** `#10 ring`: the number is that of the screw. */
const isScrewAlone = ({ sizes, single }: Draft): boolean =>
  single.fitting !== undefined && sizes.length > 0 && sizes.every(({ hash }) => hash);

const disagreement = (plain: PlainText): LabelProblem => ({
  id: "parts-disagree",
  at: wholeOf(plain),
  message: `parts of ${quote(plain.written.trim())} contradict each other; one wire was expected`,
  hint: "look at the print on the cable, or measure a strand and count them",
});
