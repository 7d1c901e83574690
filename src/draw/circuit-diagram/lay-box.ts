import { changeoversIn, type BoxSlot, type SortedBox } from "./sort-box.ts";
import { POLE, RING } from "./contact-art.ts";
import { CAP, LINE, PITCH } from "./look.ts";
import { cleanText } from "../clean-text.ts";
import { textWidth } from "../text-width.ts";

/** A slot of a box where it is drawn; y of its conductors from the top of the box. */
export interface LaidSlot {
  readonly slot: BoxSlot;
  readonly ys: readonly number[];
}

/** A vertical bar: metal that more than one conductor lands on. */
export interface LaidBar {
  /** Behind a way that several circuits share. */
  readonly isTap: boolean;
  readonly net: string;
  readonly fn: string;
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/** A box with everything in it placed, from its upper left corner. */
export interface LaidBox {
  readonly box: SortedBox;
  readonly width: number;
  readonly height: number;
  readonly slots: readonly LaidSlot[];
  readonly bars: readonly LaidBar[];
  readonly joins: readonly { readonly join: SortedBox["joins"][number]; readonly y: number }[];
  /** Where poles on the left and on the right begin, and the middle between them. */
  readonly leftPole: number;
  readonly middle: readonly [from: number, to: number];
  readonly rightPole: number;
  readonly head: readonly string[];
}

/** How high a slot asks to be. */
export interface SlotSize {
  /** From its top to its first conductor, and from its last to its end. */
  readonly above: number;
  readonly below: number;
}

const GRID = 2.5;
const up = (x: number): number => Math.ceil(x / GRID - 1e-9) * GRID;
const EDGE = 3.5;
const BAR = 4;
const SYMBOL = 12;

const TAP = 3.5;
/** More room than without it that the name of an input is given. */
const NAMED = 9;
/** Length of the symbol of a transformer in its lines. */
export const TRANSFORMER = 13;

/** Metal behind a way that more than one circuit hangs on. */
function tapsOf(slots: readonly BoxSlot[]): Set<string> {
  const rows = slots.flatMap((s) => (s.side === "out" ? s.rows : []));
  const behind = new Set(rows.flatMap((r) => (r.contact === null ? [] : [r.own])));
  return new Set(rows.flatMap((r) => (r.contact === null && behind.has(r.net) ? [r.net] : [])));
}

const fnsOf = (slot: BoxSlot | undefined): string => slot?.rows.map((r) => r.fn).join() ?? "";

/** One comes, one goes, with the same conductors: they go straight through. */
const isSimple = ([a, b, ...more]: readonly BoxSlot[]): boolean =>
  more.length === 0 && a?.side !== b?.side && a?.is !== "free" && b?.is !== "free" && fnsOf(a) === fnsOf(b);

/** How wide a box is, whatever of its slots is drawn. */
export function columnsOf({ block, slots, transforms, joins }: SortedBox) {
  const withPole = (side: "in" | "out"): boolean => slots.some((s) => s.side === side && s.rows.some((r) => r.contact !== null)); // prettier-ignore
  const hasGiver = slots.some((s) => s.is === "giver");
  // Beside what keeps the inputs of a changeover apart stand their names.
  const names = changeoversIn(slots).flatMap((group) => group.slice(1).map(({ label }) => textWidth(cleanText(label), CAP, "semibold"))); // prettier-ignore
  const named = Math.max(0, Math.min(NAMED, Math.max(0, ...names) - POLE / 2));
  const left = Math.max(withPole("in") ? POLE + RING + named : 1, hasGiver ? SYMBOL : 1);
  const right = withPole("out") ? POLE + RING + (tapsOf(slots).size > 0 ? TAP : 0) : 1;
  const fns = new Set(slots.flatMap((s) => s.rows.map((r) => r.fn)));
  const simple = isSimple(slots);
  const joined = block.inside.some((e) => e.is === "source" && e.from === "transformer" && e.joined !== false);
  const meets =
    joins.length > 0 || joined || slots.some(({ giver }) => giver?.is === "source" && giver.joined !== false);
  const bars = simple ? (transforms ? TRANSFORMER + (meets ? 8 : 0) : meets ? 12.5 : 2) : BAR * (fns.size + 1);
  return { left, right, bars, simple, width: EDGE + left + bars + right + EDGE };
}

/**
 * Places some slots of a box.
 *
 * @param sizes what each of these slots asks for
 * @param head lines of its name
 * @param isFirst it begins here: where neutral meets earth is drawn here
 */
export function layBox(
  box: SortedBox,
  slots: readonly BoxSlot[],
  sizes: ReadonlyMap<BoxSlot, SlotSize>,
  head: readonly string[],
  isFirst = true,
): LaidBox {
  const { left, bars: barsWidth, width, simple } = columnsOf(box);
  const first = up(head.length * LINE + (simple ? 3.5 : 9));
  const laid: LaidSlot[] = [];
  const joins: { join: SortedBox["joins"][number]; y: number }[] = [];
  let top = 0;
  for (let section = 0; section < box.sections; section++) {
    const own = slots.filter((s) => s.section === section);
    if (own.length === 0) continue;
    const [ins, outs] = [own.filter((s) => s.side === "in"), own.filter((s) => s.side === "out")];
    const size = (s: BoxSlot | undefined): SlotSize => (s === undefined ? { above: 0, below: 0 } : (sizes.get(s) ?? { above: 10, below: 2.5 })); // prettier-ignore
    const isAligned = fnsOf(ins[0]) === fnsOf(outs[0]);
    const floor = top === 0 ? first : top + 5;
    const start = Math.max(floor, up(top + Math.max(size(outs[0]).above, isAligned ? size(ins[0]).above : 0)));
    let end = top;
    let y = start;
    outs.forEach((slot, i) => {
      if (i > 0) y = up(y + size(slot).above);
      laid.push({ slot, ys: slot.rows.map((_, k) => y + PITCH * k) });
      y += PITCH * (slot.rows.length - 1) + size(slot).below;
      end = Math.max(end, y);
    });
    let x = isAligned ? start : Math.max(floor, up(top + size(ins[0]).above)) + GRID / 2;
    ins.forEach((slot, i) => {
      // Half a step off the grid, so that what comes from the left never lies on what goes to the right.
      if (i > 0) x = up(x + size(slot).above) + GRID / 2;
      laid.push({ slot, ys: slot.rows.map((_, k) => x + PITCH * k) });
      x += PITCH * (slot.rows.length - 1) + size(slot).below;
      end = Math.max(end, x);
    });
    top = up(end);
    if (!simple) {
      // A section that goes on elsewhere has it where it begins.
      const begins = isFirst || slots[0]?.section !== section;
      for (const join of box.joins.filter((j) => begins && j.section === section)) {
        joins.push({ join, y: top + 1.25 });
        top += 7.5;
      }
    } else for (const join of box.joins) joins.push({ join, y: 0 });
  }
  const leftPole = EDGE;
  const middle = [EDGE + left, EDGE + left + barsWidth] as const;
  return {
    box,
    width,
    height: up(Math.max(top, first + 5)),
    slots: laid,
    bars: simple ? [] : barsOf(laid, joins, middle),
    joins,
    leftPole,
    middle,
    rightPole: middle[1],
    head,
  };
}

/** One bar for each metal, in the order of its function; of one function those that would meet stand beside each other. */
function barsOf(
  laid: readonly LaidSlot[],
  joins: readonly { join: SortedBox["joins"][number]; y: number }[],
  [left, right]: readonly [number, number],
): LaidBar[] {
  const reach = new Map<string, { fn: string; from: number; to: number }>();
  const take = (net: string, fn: string, y: number): void => {
    const known = reach.get(net);
    reach.set(net, { fn: known?.fn ?? fn, from: Math.min(known?.from ?? y, y), to: Math.max(known?.to ?? y, y) });
  };
  const taps = tapsOf(laid.map(({ slot }) => slot));
  const bars: LaidBar[] = [];
  for (const [i, net] of [...taps].entries()) {
    const on = laid.flatMap(({ slot, ys }) =>
      slot.rows.flatMap((r, i) => (r.own === net ? [{ fn: r.fn, y: ys[i] ?? 0 }] : [])),
    );
    const ys = on.map(({ y }) => y);
    const fn = on[0]?.fn ?? "";
    bars.push({ net, fn, isTap: true, from: Math.min(...ys), to: Math.max(...ys), x: right + POLE + RING + 0.6 + 1.3 * (i % 3) }); // prettier-ignore
  }
  for (const { slot, ys } of laid)
    slot.rows.forEach((row, i) => {
      if (!taps.has(row.net)) take(row.net, row.fn, ys[i] ?? 0);
    });
  for (const { join, y } of joins) {
    take(join.neutral, "N", y);
    take(join.earth, "PE", y);
  }
  const order = ["L", "L1", "L2", "L3", "N", "PE"];
  const fns = [...new Set([...reach.values()].map(({ fn }) => fn))].sort((a, b) => order.indexOf(a) - order.indexOf(b));
  // The bars of a section begin on one line.
  const topOf = (section: number): number =>
    Math.min(...laid.flatMap(({ slot, ys }) => (slot.section === section ? ys : [])));
  for (const { slot } of laid)
    for (const row of slot.rows) {
      const known = reach.get(row.net);
      if (known !== undefined) reach.set(row.net, { ...known, from: Math.min(known.from, topOf(slot.section)) });
    }
  fns.forEach((fn, i) => {
    const ends: number[] = [];
    for (const [net, { fn: own, from, to }] of reach) {
      if (own !== fn) continue;
      let column = ends.findIndex((end) => end < from - 2);
      if (column < 0) column = ends.length;
      ends[column] = to;
      bars.push({ net, fn, isTap: false, x: left + BAR * (i + 1) - 1.7 * column, from, to });
    }
  });
  return bars;
}
