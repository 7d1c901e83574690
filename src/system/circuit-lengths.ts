import type { Diagnostic } from "../diagnostic.ts";
import { known, placed, shown, type CircuitFacts, type PlanItem } from "../plan/index.ts";
import type { BoundSegment } from "./bind-path.ts";
import type { FactReader } from "./fact-reader.ts";
import { exactly, given, type Value } from "./value.ts";

/** Metres of measuring error that are not worth a message. */
const SLACK = 0.005;

/** The run's length and that of each of its stretches between stops. */
export function lengthsOf(
  item: PlanItem<CircuitFacts>,
  segments: readonly BoundSegment[],
  read: FactReader,
  say: (d: Diagnostic) => void,
): { total: Value; each: Value[] } {
  const { facts, base, key } = item;
  const legs = known(facts.legs);
  const at = facts.legs === undefined ? [] : [placed(base, facts.legs.span)];
  const about = `circuits.${key}.legs`;
  if (legs !== undefined) {
    const values = legs.map((leg) => {
      if (leg.value !== "unknown") return given(leg.value);
      read.miss(leg, "legs");
      return exactly(0, "unknown");
    });
    const sum = values.reduce((a, b) => ({ low: a.low + b.low, high: a.high + b.high, origin: worse(a, b) }), NOTHING);
    const whole = known(facts.length);
    if (whole !== undefined && (sum.high < whole.low - SLACK || sum.low > whole.high + SLACK)) {
      say({
        id: "system/legs-and-length-differ",
        level: "warning",
        at,
        about,
        message: `the legs of \`${shown(key)}\` add up to ${round(sum.high)} m, its length is ${whole.text}; the legs count`,
        hint: "leave one of the two out, or mend it",
      });
    }
    if (values.length === segments.length) return { total: sum, each: values };
    say({
      id: "system/legs-do-not-fit",
      level: "error",
      at,
      about,
      message: `the path has ${segments.length} stretch${segments.length === 1 ? "" : "es"} between its stops, ${values.length} ${values.length === 1 ? "leg is" : "legs are"} given`,
      hint: "give one length for each stretch, in order",
    });
  }
  const straight = segments.reduce<number | undefined>((sum, { from, to }) => {
    const d = straightDistance(from.part.position, to.part.position);
    return sum === undefined || d === undefined ? undefined : sum + d;
  }, 0);
  const total = read.needed(facts.length, "length", straight ?? 0);
  // Which of several stops take how much of it is not said: all of it before the first is the pessimistic reading.
  if (segments.length > 1 && legs === undefined) {
    read.assume({
      id: "length-before-first-stop",
      value: 0,
      says: "a run with several stops and one length has all its metres before the first stop",
      trust: "practice",
      pin: "legs",
    });
  }
  return { total, each: segments.map((_, i) => (i === 0 ? total : exactly(0, total.origin))) };
}

const NOTHING: Value = { low: 0, high: 0, origin: "given" };

const round = (m: number): number => Math.round(m * 100) / 100;

const worse = (a: Value, b: Value): Value["origin"] =>
  a.origin === "unknown" || b.origin === "unknown" ? "unknown" : a.origin;

/** Metres between two points in a straight line. */
export function straightDistance(
  a: readonly [number, number, number] | undefined,
  b: readonly [number, number, number] | undefined,
): number | undefined {
  return a === undefined || b === undefined ? undefined : Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
