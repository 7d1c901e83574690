import { printTrust } from "../../explain/trust.ts";
import type { Units } from "../contract.ts";
import { NOTHING, inSentence, printAmps, printShare } from "../look/print-in-units.ts";
import type { Status } from "../look/status-shape.tsx";
import { number, words } from "../schedules/cells.ts";
import type { Cell, Table } from "../schedules/table.ts";
import type { FaultCircuitRow, FaultDeviceRow, FaultsAnswer, PairRow, Prospective } from "../worker/fault-answers.ts";
import { endsWords, inState, printFault, printFaultRange, someOf, verdictWords } from "./fault-words.ts";

/** Tables of the view, in the order of its tabs. */
export const faultTables = ["map", "devices", "pairs", "feeders", "terminals"] as const;
export type FaultTableId = (typeof faultTables)[number];

/** Ends of faults, the gravest first. */
const gravity = ["not seen", "too small", "not proven", "limited", "cleared", "none"] as const;

/** Circuits in the order of the map. */
export const byGravity = (circuits: readonly FaultCircuitRow[]): readonly FaultCircuitRow[] =>
  circuits
    .map((row, place) => ({ row, place }))
    .sort((a, b) => gravity.indexOf(a.row.outcome) - gravity.indexOf(b.row.outcome) || a.place - b.place)
    .map(({ row }) => row);

const amps = (value: number | null | undefined, units: Units): Cell => number(printFault(value, units), value);
const list = (names: readonly string[]): Cell => words(someOf(names, 3));

/** One of the tables. @param state its figures belong to; null: over every position of the switches */
export function faultTable(id: FaultTableId, answer: FaultsAnswer, state: string | null, units: Units): Table {
  switch (id) {
    case "map":
      return mapTable(answer.circuits, state, units);
    case "devices":
      return devicesTable(answer.devices, units);
    case "pairs":
      return pairsTable(answer.pairs, units);
    case "feeders":
      return feedersTable(answer.feeders, units);
    case "terminals":
      return terminalsTable(answer.terminals, state, units);
  }
}

const ofState = (state: string | null): string =>
  state === null
    ? "Prospective current over every position of the switches."
    : `Prospective current in the state ${state}.`;

function mapTable(circuits: readonly FaultCircuitRow[], state: string | null, units: Units): Table {
  return {
    id: "fault-map",
    title: "Fault map",
    columns: [
      { id: "circuit", head: "circuit", isName: true },
      { id: "ends", head: "ends", says: "how its faults end, the gravest of them", least: 12.5, onCard: true },
      { id: "to", head: "to" },
      { id: "start greatest", head: "start, most", says: "greatest current at its start", isNumber: true },
      { id: "start least", head: "least", says: "least current at its start", isNumber: true },
      { id: "end greatest", head: "end, most", says: "greatest current at its end", isNumber: true, onCard: true },
      { id: "end least", head: "least", says: "least current at its end", isNumber: true, onCard: true },
      { id: "opens", head: "opens", says: "what certainly can open for its least fault", onCard: true },
    ],
    rows: byGravity(circuits).map((row) => {
      const [start, end] = [inState(row.start, state), inState(row.end, state)];
      return {
        id: row.circuit,
        about: `circuits.${row.circuit}`,
        subject: null,
        cells: [
          words(row.circuit),
          {
            text: endsWords(row.outcome, row.seconds, units),
            by: gravity.indexOf(row.outcome),
            outcome: row.outcome,
          },
          words(row.to),
          amps(start?.greatest, units),
          amps(start?.least, units),
          amps(end?.greatest, units),
          amps(end?.least, units),
          list(row.opens),
        ],
      };
    }),
    empty: "No fault current yet: it follows the batteries and the circuits.",
    notes: [
      `${ofState(state)} How a fault ends is of the greatest and the least, over every position of the switches, at both ends. Times are the longest that are published: of class T fuses only that at twice the rating is, so minutes stand where milliseconds are usual.`,
    ],
  };
}

/** `W13+ at from` as people say it. */
const placeWords = (at: string): string => at.replace(/ at from$/, " at its start").replace(/ at to$/, " at its end");

function devicesTable(devices: readonly FaultDeviceRow[], units: Units): Table {
  return {
    id: "fault-devices",
    title: "Devices",
    columns: [
      { id: "device", head: "device", isName: true },
      { id: "what", head: "what", least: 9, onCard: true },
      { id: "ends", head: "ends", says: "how faults just behind it end, the gravest of them", least: 8, onCard: true },
      { id: "sides", head: "sees from", says: "side that the current comes from, with the greatest", least: 12, onCard: true }, // prettier-ignore
      { id: "through", head: "has to break", says: "greatest current through it", isNumber: true, onCard: true },
      { id: "at", head: "for a short at", least: 7 },
      { id: "line", head: "at its line side", says: "greatest current at its own terminals", isNumber: true },
      {
        id: "breaks",
        head: "breaks",
        says: "interrupt rating at the volts of its system",
        isNumber: true,
        onCard: true,
      },
      { id: "share", head: "of that", says: "what it has to break, as a share of what it breaks", isNumber: true },
    ],
    rows: devices.map((d, i) => {
      const breaks = d.breaks?.current ?? null;
      const share = breaks === null || d.through === null ? null : d.through.high / breaks;
      return {
        id: `${i} ${d.name}`,
        about: d.about,
        subject: null,
        cells: [
          words(d.name),
          words(d.what),
          d.outcome === null ? words("") : { text: d.outcome, by: gravity.indexOf(d.outcome), outcome: d.outcome },
          words(
            someOf(
              d.sides.map(({ from, amps: on }) => `${from} ${printFault(on, units)}`),
              2,
            ),
          ),
          number(printFaultRange(d.through, units), d.through?.high),
          words(placeWords(d.at ?? "")),
          amps(d.prospective, units),
          breaks === null
            ? {
                text: d.breaks?.state === "too many volts" ? "not for these volts" : "unknown",
                by: null,
                status: "unknown",
              }
            : {
                ...amps(breaks, units),
                more: `to ${d.breaks?.upToVolts ?? NOTHING} V; ${printTrust(d.breaks?.trust ?? "missing")}`,
              },
          number(printShare(share, units), share),
        ],
      };
    }),
    empty: "No fuse or breaker yet. They follow the circuits.",
    notes: ["What is marked on a device wins over the interrupt rating of its kind, which stands here."],
  };
}

const statusOfVerdict: Readonly<Record<PairRow["verdict"], Status>> = {
  selective: "pass",
  "selective up to": "note",
  "not selective": "warn",
  "not proven": "unknown",
};

/** Shape and words of a verdict. */
export const verdictCell = (pair: PairRow, units: Units): Cell & { readonly status: Status } => ({
  text: verdictWords(pair, units),
  by: verdicts.indexOf(pair.verdict),
  status: statusOfVerdict[pair.verdict],
});

const verdicts = ["not selective", "not proven", "selective up to", "selective"] as const;

function pairsTable(pairs: readonly PairRow[], units: Units): Table {
  const sorted = pairs
    .map((pair, place) => ({ pair, place }))
    .sort((a, b) => verdicts.indexOf(a.pair.verdict) - verdicts.indexOf(b.pair.verdict) || a.place - b.place);
  return {
    id: "fault-pairs",
    title: "Devices in series",
    columns: [
      {
        id: "pair",
        head: "pair",
        says: "nearer to the fault, below the one nearer to the source",
        isName: true,
        least: 14,
      },
      { id: "verdict", head: "the nearer alone opens", least: 12, onCard: true },
      {
        id: "greatest",
        head: "faults up to",
        says: "greatest fault current through the nearer",
        isNumber: true,
        onCard: true,
      },
      { id: "because", head: "because", least: 24, onCard: true, isWide: true },
      { id: "lost", head: "goes dark for nothing", least: 9, onCard: true },
    ],
    rows: sorted.map(({ pair, place }) => ({
      id: `${place}`,
      about: pair.downstream.about,
      subject: null,
      cells: [
        {
          ...words(`${pair.downstream.name} below ${pair.upstream.name}`),
          more: `${pair.downstream.what} below ${pair.upstream.what}`,
        },
        verdictCell(pair, units),
        amps(pair.greatest, units),
        words(becauseWords(pair, units)),
        pair.verdict === "selective" ? words("") : list(pair.lostToo),
      ],
    })),
    empty: "No two devices stand in series.",
    notes: [
      "A device that carries only a part of a fault, as the fuse of one battery of several, is judged as if it carried all of it.",
    ],
  };
}

/** Why, and the figure that would tell more where the reason does not name it. */
export const becauseWords = ({ because, missing }: Pick<PairRow, "because" | "missing">, units: Units): string =>
  missing === null || because.includes(missing)
    ? inSentence(because, units)
    : `${inSentence(because, units)}; it would help most to know ${missing}`;

function feedersTable(feeders: FaultsAnswer["feeders"], units: Units): Table {
  return {
    id: "fault-feeders",
    title: "Feeders",
    columns: [
      { id: "device", head: "feeder", isName: true },
      { id: "what", head: "what", onCard: true },
      { id: "demand", head: "carries", says: "greatest steady current over all states", isNumber: true, onCard: true },
      { id: "rating", head: "rating", isNumber: true, onCard: true },
      { id: "share", head: "of it", says: "what it carries, as a share of its rating", isNumber: true, onCard: true },
      { id: "sum", head: "branches' sum", says: "sum of the ratings behind it", isNumber: true, onCard: true },
      { id: "branches", head: "branches", least: 12, onCard: true },
    ],
    rows: feeders.map((f, i) => {
      const share = f.demand === null ? null : f.demand / f.rating;
      return {
        id: `${i} ${f.name}`,
        about: f.about,
        subject: null,
        cells: [
          words(f.name),
          words(f.what),
          number(printAmps(f.demand, units), f.demand),
          number(printAmps(f.rating, units), f.rating),
          number(printShare(share, units), share),
          number(printAmps(f.branchRatings, units), f.branchRatings),
          words(someOf(f.branches, 6)),
        ],
      };
    }),
    empty: "No device feeds others.",
    notes: [
      "Ratings of branches may sum to more than the feeder: what it carries is judged, with all that can run together.",
    ],
  };
}

function terminalsTable(terminals: readonly Prospective[], state: string | null, units: Units): Table {
  return {
    id: "fault-terminals",
    title: "Terminals",
    columns: [
      { id: "terminal", head: "terminal", isName: true },
      { id: "against", head: "against", says: "other pole that it is shorted to", onCard: true },
      { id: "greatest", head: "most", says: "greatest prospective current", isNumber: true, onCard: true },
      { id: "least", head: "least", says: "least prospective current", isNumber: true, onCard: true },
    ],
    rows: terminals.map((at, i) => {
      const own = inState(at, state);
      return {
        id: `${i} ${at.terminal}`,
        about: `parts.${at.terminal.split(":")[0] ?? ""}`,
        subject: null,
        cells: [words(at.terminal), words(at.against), amps(own?.greatest, units), amps(own?.least, units)],
      };
    }),
    empty: "No terminal that a source reaches.",
    notes: [`${ofState(state)} A dash: no battery reaches it.`],
  };
}
