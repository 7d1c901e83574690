import { plainCode } from "./characters.ts";
import type { Dimension } from "./dimension.ts";
import { units, type UnitRow } from "./units.ts";

/** One unit, ready for use. */
export interface Unit {
  readonly dimension: Dimension;
  /** The spelling that is printed. */
  readonly symbol: string;
  readonly si: readonly [number, number];
  readonly zero: number;
  readonly then: readonly [unit: string, parts: number] | null;
}

/** The list as it is walked by program: every unit of a dimension by its printed spelling. */
const rows: Readonly<Record<Dimension, Readonly<Record<string, UnitRow>>>> = units;

/** The unit of a dimension with this printed spelling; the compiler has proved that there is one. */
export function unitOf(dimension: Dimension, symbol: string): Unit {
  const unit = unitsOf(dimension).get(symbol);
  if (unit === undefined) throw new RangeError(`${dimension} has no unit "${symbol}"`);
  return unit;
}

const listed = new Map<Dimension, ReadonlyMap<string, Unit>>();

function unitsOf(dimension: Dimension): ReadonlyMap<string, Unit> {
  let found = listed.get(dimension);
  if (found === undefined) {
    found = new Map(
      Object.entries(rows[dimension]).map(([symbol, { si, zero = 0, then = null }]) => [
        symbol,
        { dimension, symbol, si, zero, then },
      ]),
    );
    listed.set(dimension, found);
  }
  return found;
}

/** What keyboards make of a sign. The first is the sign itself. */
const VARIANTS: readonly (readonly [sign: string, variants: readonly string[]])[] = [
  ["(s)", ["", "s"]],
  ["Ω", ["Ω", "ohm", "ohms"]],
  ["²", ["²", "2", "^2"]],
  ["·", ["·", ".", "*", "-", " ", ""]],
  ["/day", ["/day", " a day", " per day"]],
  ["/", ["/", " per "]],
  ["°", ["°", "° ", "deg ", "deg"]],
  ["µ", ["µ", "u"]],
];

/** Every spelling that is read, each with the printed spelling of its unit. A bare number's empty spelling is left out. */
export function spellingsOf(dimension: Dimension): readonly (readonly [spelling: string, symbol: string])[] {
  return Object.entries(rows[dimension]).flatMap(([symbol, { read }]) => {
    let spellings = [symbol, ...(read?.split("|") ?? [])].filter((spelling) => spelling !== "");
    for (const [sign, variants] of VARIANTS) {
      spellings = spellings.flatMap((spelling) =>
        spelling.includes(sign) ? variants.map((variant) => spelling.replaceAll(sign, variant)) : [spelling],
      );
    }
    return [...new Set(spellings.map((spelling) => spelling.trim()))].map((spelling) => [spelling, symbol] as const);
  });
}

/** A tree of characters, so that the longest spelling is found in one walk along the text. */
interface Branch {
  readonly next: Map<number, Branch>;
  /** The unit whose spelling ends here. */
  unit: Unit | null;
}

interface Trees {
  readonly asWritten: Branch;
  readonly anyCase: Branch;
}

const branch = (): Branch => ({ next: new Map(), unit: null });

function grow(tree: Branch, spelling: string, unit: Unit): void {
  let at = tree;
  for (const character of spelling) {
    const code = plainCode(character.charCodeAt(0));
    let next = at.next.get(code);
    if (next === undefined) at.next.set(code, (next = branch()));
    at = next;
  }
  if (at.unit !== null && at.unit !== unit)
    throw new Error(`"${spelling}" means both ${at.unit.symbol} and ${unit.symbol}`);
  at.unit = unit;
}

/** Lengths, areas and times know no mega, so there `MM` can only be mm. */
const NO_MEGA: ReadonlySet<Dimension> = new Set(["length", "area", "time", "daily time"]);

/**
 * How a spelling may be typed in any case. A factor of a milliard hangs on the case of a prefix: `MA` may be a slip for mA,
 * and `MOHM` says nothing. So a milli needs its small m, and a mega is read only as it is written in the list.
 */
function anyCase(spelling: string, { dimension, symbol }: Unit): string[] {
  const lower = spelling.replaceAll(/[A-Z]/g, (letter) => letter.toLowerCase());
  if (!lower.startsWith("m")) return [lower];
  const isPrefix = /^m/i.test(symbol) && unitsOf(dimension).has(symbol.slice(1)) && !/^(milli|mega?)/.test(lower);
  if (!isPrefix || NO_MEGA.has(dimension)) return [lower, `M${lower.slice(1)}`];
  return symbol.startsWith("m") ? [lower] : [];
}

const grown = new Map<Dimension, Trees>();

/** Grown when a dimension is first asked for: a command that reads two of them need not pay for all. */
function treesOf(dimension: Dimension): Trees {
  let trees = grown.get(dimension);
  if (trees === undefined) {
    trees = { asWritten: branch(), anyCase: branch() };
    for (const [spelling, symbol] of spellingsOf(dimension)) {
      const unit = unitOf(dimension, symbol);
      grow(trees.asWritten, spelling, unit);
      for (const folded of anyCase(spelling, unit)) grow(trees.anyCase, folded, unit);
    }
    grown.set(dimension, trees);
  }
  return trees;
}

/** A unit found in a text, and the offset behind it. */
export interface FoundUnit {
  readonly unit: Unit;
  readonly end: number;
}

/**
 * The unit of a dimension with the longest spelling that starts at an offset; a spelling in its own case wins.
 * Says nothing about what follows: behind the `m` of `5 mast` stands a letter, and that is the caller's to refuse.
 */
export function findUnit(dimension: Dimension, text: string, start: number): FoundUnit | null {
  const { asWritten, anyCase } = treesOf(dimension);
  const exact = walk(asWritten, text, start, false);
  if (exact?.end === text.length) return exact;
  const folded = walk(anyCase, text, start, true);
  return folded !== null && folded.end > (exact?.end ?? 0) ? folded : exact;
}

function walk(tree: Branch, text: string, start: number, fold: boolean): FoundUnit | null {
  let found: FoundUnit | null = null;
  let at = tree;
  for (let end = start; end < text.length;) {
    let code = plainCode(text.charCodeAt(end));
    const isUpper = code >= 65 && code <= 90;
    if (fold && isUpper && !(end === start && code === 77)) code += 32; // 77: a leading M keeps its case
    const next = at.next.get(code);
    if (next === undefined) break;
    at = next;
    end++;
    if (at.unit !== null) found = { unit: at.unit, end };
  }
  return found;
}
