import type { Compiled } from "../compile.ts";
import { isVerified, printTrust } from "../explain/index.ts";
import type { CoordinationOnPaper, DarkOnPaper, FeederOnPaper, PairOnPaper } from "./coordination-on-paper.ts";
import { faultAmpsOf } from "./fault-rows.ts";
import { ampsOf, NOTHING } from "./figures.ts";
import { joinBlocks } from "./print-design.ts";
import { FAULT_CAUTION } from "./print-faults.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** Which device opens for which short: pairs, what goes dark, what feeders carry. */
export function printSelectivity(
  { plan }: Compiled,
  coordination: CoordinationOnPaper,
  width: number,
  paint: Paint,
): string {
  const { pairs, faults, feeders } = coordination;
  return joinBlocks([
    wrap(`Which device opens, in ${plan.name === "" ? "the plan" : plan.name}`, width).map((line) =>
      paint("bold", line),
    ),
    printPairs(pairs, width, paint),
    printDark(faults, width, paint),
    printFeeders(feeders, width, paint),
    wrap(
      `Not studied: alternating current. A pair is judged by what is published of its families; a maker's tested table for the very pair is worth more. ${FAULT_CAUTION}`,
      width,
    ),
  ]);
}

const verdictOf = ({ verdict, upToA }: PairOnPaper): string =>
  verdict === "selective up to" ? `to ${faultAmpsOf(upToA)} A` : verdict;

function printPairs(pairs: readonly PairOnPaper[], width: number, paint: Paint): string[] {
  if (pairs.length === 0) return ["No two devices stand in series."];
  const reasons: string[] = [];
  const reasonOf = (pair: PairOnPaper): string => {
    const says = `${pair.because}${isVerified(pair.trust) ? "" : ` (${printTrust(pair.trust)})`}`;
    let at = reasons.indexOf(says);
    if (at < 0) at = reasons.push(says) - 1;
    return String(at + 1);
  };
  const numbered = new Map(pairs.map((pair) => [pair, reasonOf(pair)]));
  const columns: readonly Column<PairOnPaper>[] = [
    { head: ["opens", "alone?"], cell: (p) => p.downstream, least: 8 },
    { head: "before", cell: (p) => `${p.upstream}${p.isNext ? "" : " ‡"}`, least: 8 },
    { head: "selective", cell: verdictOf },
    { head: ["of at most", "A"], cell: (p) => faultAmpsOf(p.greatestA), align: "number" },
    { head: "by", cell: (p) => p.method },
    { head: "why", cell: (p) => numbered.get(p) ?? "", align: "number" },
    { head: "dark too", cell: (p) => namesOf(p.lostToo, 2), least: 10 },
  ];
  return [
    paint("bold", "Devices in series"),
    ...printRows(columns, pairs, width, paint),
    ...wrap(
      "The first is nearer to the short and is to open alone; the second feeds it. to 80 A: certainly as far as that, of the greatest that can flow. not proven: a figure is missing that could tell. dark too: loads that lose their supply for nothing when the second opens as well. ‡: others stand between.",
      width,
    ),
    "",
    paint("bold", "Why"),
    ...reasons.flatMap((says, i) => wrap(`${String(i + 1).padStart(2)}  ${says}`, width, 4)),
  ];
}

/** Names, or how many there are where they would fill the table. */
const namesOf = (names: readonly string[], most: number): string =>
  names.length === 0 ? NOTHING : names.length <= most ? names.join(", ") : `${names.length} loads`;

interface DarkRow {
  readonly fault: DarkOnPaper;
  readonly places: readonly string[];
}

function printDark(faults: readonly DarkOnPaper[], width: number, paint: Paint): string[] {
  if (faults.length === 0) return [];
  const alike = new Map<string, { fault: DarkOnPaper; places: string[] }>();
  for (const fault of faults) {
    const { circuit, partedBy, dark, mayOpen, mayBeDark } = fault;
    const key = JSON.stringify([circuit, partedBy, dark, mayOpen, mayBeDark]);
    const place = `${fault.conductor} ${fault.end}`;
    const before = alike.get(key);
    if (before === undefined) alike.set(key, { fault, places: [place] });
    else before.places.push(place);
  }
  const lines = (names: readonly string[], room: number): string | readonly string[] =>
    names.length === 0 ? NOTHING : wrap(names.join(", "), room);
  const room = Math.max(18, Math.floor((width - 44) / 2));
  const columns: readonly Column<DarkRow>[] = [
    { head: "short in", cell: ({ places }) => placesSay(places), least: 8 },
    {
      head: "opens",
      cell: ({ fault }) =>
        fault.partedBy[0] ?? (fault.mayOpen.length > 0 ? `each of ${fault.mayOpen.length}` : "nothing"),
    },
    { head: "dark", cell: ({ fault }) => lines(fault.dark, room), least: 10 },
    {
      head: "may open too",
      cell: ({ fault }) => (fault.partedBy.length === 0 ? "" : lines(fault.mayOpen, room)),
      least: 10,
    },
    {
      head: ["dark", "then"],
      cell: ({ fault }) => (fault.mayBeDark.length === 0 ? NOTHING : `${fault.mayBeDark.length} more`),
    },
  ];
  return [
    paint("bold", "What a short leaves dark"),
    ...printRows(columns, [...alike.values()], width, paint),
    ...wrap(
      "opens: the nearest device that parts it from every battery; where there is none, each battery has its own. dark: loads without supply then. may open too: devices further up of which nothing proves that they stay closed, and how many more loads go dark with them: those of the row of the feeder's own circuit.",
      width,
    ),
  ];
}

/** `W12+ both ends`. */
function placesSay(places: readonly string[]): string {
  const [first = ""] = places;
  const names = new Set(places.map((p) => p.replace(/ (?:from|to)$/, "")));
  return names.size === 1 && places.length > 1
    ? `${[...names][0] ?? ""} both ends`
    : names.size === 1
      ? first
      : [...names].join(", ");
}

function printFeeders(feeders: readonly FeederOnPaper[], width: number, paint: Paint): string[] {
  if (feeders.length === 0) return [];
  const columns: readonly Column<FeederOnPaper>[] = [
    { head: "feeder", cell: (f) => f.device, least: 8 },
    { head: ["rating", "A"], cell: (f) => ampsOf(f.ratingA), align: "number" },
    { head: ["demand", "A"], cell: (f) => ampsOf(f.demandA), align: "number" },
    { head: ["branches", "sum, A"], cell: (f) => ampsOf(f.branchRatingsA), align: "number" },
    { head: "branches", cell: (f) => wrap(f.branches.join(", "), Math.max(24, width - 44)), least: 12 },
  ];
  return [
    paint("bold", "Feeders"),
    ...printRows(columns, feeders, width, paint),
    ...wrap(
      "demand: the greatest steady current, with all that can run together. The sum of the branches' ratings is no measure of it.",
      width,
    ),
  ];
}
