import { printTrust } from "../../explain/trust.ts";
import type { PagePlan, PageThing } from "../worker/protocol.ts";
import type { Units } from "../contract.ts";
import { endsWords, printFault } from "../faults/fault-words.ts";
import { printAmps, printShare, printTemperature, printVolts } from "../look/print-in-units.ts";
import type { FaultsAnswer } from "../worker/fault-answers.ts";
import { statusOf, statusWords } from "../look/status-shape.tsx";
import { deviceEdit, devicePlace, lengthCell, number, sizeCell, words } from "./cells.ts";
import type { Cell, ColumnHead, Table, TableRow } from "./table.ts";

/** Every conductor by its designation. @param studied its heat and faults; null: they are not there yet */
export function conductorsTable({ design }: PagePlan, units: Units, studied: Studied | null): Table {
  const faults = new Map(studied?.conductors.map((row) => [row.conductor, row]));
  const heat = new Map(studied?.heat.map((row) => [row.id, row]));
  return {
    id: "conductors",
    title: "Conductors",
    columns: [
      { id: "conductor", head: "conductor", isName: true },
      { id: "circuit", head: "circuit" },
      { id: "from", head: "from", onCard: true },
      { id: "to", head: "to", onCard: true },
      { id: "length", head: "one way", says: "length one way", isNumber: true, onCard: true },
      { id: "wire", head: "wire", isNumber: true, onCard: true },
      { id: "metal", head: "metal" },
      { id: "strands", head: "strands" },
      { id: "insulation", head: "insulation", isNumber: true },
      { id: "hot", head: "gets", says: "temperature of the metal at its hottest", isNumber: true },
      { id: "beside", head: "among others", says: "temperature among its neighbours in the state in which it is hottest, by the balance of heat", isNumber: true, onCard: true }, // prettier-ignore
      {
        id: "most",
        head: "fault, most",
        says: "greatest current of a fault anywhere in it",
        isNumber: true,
        onCard: true,
      },
      { id: "least", head: "least", says: "least current of a fault anywhere in it", isNumber: true, onCard: true },
      { id: "ends", head: "ends", says: "how the least fault of it ends", least: 11, onCard: true },
      {
        id: "share",
        head: "of what it bears",
        says: "heat that the hardest fault lets through, as a share of what it bears",
        isNumber: true,
      },
    ],
    rows: design.circuits.flatMap((c) =>
      c.conductors.map((id): TableRow => ({
        id,
        about: `circuits.${c.id}`,
        subject: c.id,
        cells: [
          words(id),
          words(c.id),
          words(c.from),
          words(c.to),
          lengthCell(c, units),
          sizeCell(c, units),
          words(c.make.metal),
          words(c.make.strands),
          number(printTemperature(c.make.insulationC, units), c.make.insulationC),
          number(printTemperature(c.conductorC, units), c.conductorC),
          heatCell(heat.get(c.id), units),
          ...faultCells(faults.get(id), units),
        ],
      })),
    ),
    empty: "No conductor yet. They follow the circuits.",
    notes: [
      "A length or a wire that is typed here holds for all conductors of the circuit.",
      studied === null
        ? "Heat among others and faults are being worked out …"
        : "Faults are of direct current, over every position of the switches.",
    ],
  };
}

/** What is asked of the worker for this table. */
export type Studied = Pick<FaultsAnswer, "conductors" | "heat">;

function heatCell(row: Studied["heat"][number] | undefined, units: Units): Cell {
  if (row === undefined) return words("");
  const at = row.worst ?? row.atDesign;
  return {
    ...number(printTemperature(at.highC, units), at.highC),
    more: row.worst === null ? "at its design current" : row.worst.state,
  };
}

function faultCells(row: Studied["conductors"][number] | undefined, units: Units): readonly Cell[] {
  if (row === undefined) return [words(""), words(""), words(""), words("")];
  const { greatest, least, outcome, seconds, share } = row;
  return [
    number(printFault(greatest?.high, units), greatest?.high),
    number(printFault(least?.low, units), least?.low),
    { text: endsWords(outcome, seconds, units), by: outcome, outcome },
    number(printShare(share, units), share),
  ];
}

/** Every fuse and breaker in a circuit. */
export function devicesTable({ design }: PagePlan, units: Units): Table {
  return {
    id: "devices",
    title: "Devices",
    columns: [
      { id: "circuit", head: "circuit", isName: true },
      { id: "rating", head: "rating", isNumber: true, onCard: true },
      { id: "kind", head: "kind", onCard: true },
      { id: "family", head: "family" },
      { id: "at", head: "at", says: "where it sits", onCard: true },
      { id: "by", head: "by", says: "who chose it", onCard: true },
      { id: "least", head: "load asks", says: "least rating that the load asks for", isNumber: true },
      { id: "most", head: "wire allows", says: "greatest rating that the wire allows", isNumber: true },
    ],
    rows: design.circuits.flatMap((c) =>
      c.devices.map((d, i): TableRow => ({
        id: `${c.id} ${i}`,
        about: `circuits.${c.id}`,
        subject: `${c.id}.device`,
        cells: [
          words(c.id),
          number(
            d.ratingA === null ? "none is enough" : printAmps(d.ratingA, units),
            d.ratingA,
            deviceEdit(c, i, units),
          ),
          words(d.kind),
          words(d.familyName ?? ""),
          words(devicePlace(d, units)),
          words(d.by === "given" ? "the plan" : "proposed"),
          number(printAmps(d.leastA, units), d.leastA),
          number(printAmps(d.mostA, units), d.mostA),
        ],
      })),
    ),
    empty: "No fuse or breaker yet. They follow the circuits.",
    notes: [
      "A proposed rating becomes the plan's own when it is typed over; from then on it is judged and never changed.",
    ],
  };
}

/** Volts at every load in every state; a state in which it is off shows a dash. */
export function voltagesTable({ design, states, things }: PagePlan, units: Units): Table {
  const named = new Map(things.map((t) => [t.about, t]));
  const judged = new Map(
    design.circuits.flatMap((c) => c.loads.map((l) => [l.part, { ...l, circuit: c.id }] as const)),
  );
  const parts = [...new Set([...judged.keys(), ...design.states.flatMap((s) => s.loads.map((l) => l.part))])];
  const inStates = design.states.map((s) => new Map(s.loads.map((l) => [l.part, l])));
  const rows = parts.map((part): TableRow => {
    const load = judged.get(part);
    const own = inStates.map((s) => s.get(part));
    const most = own.reduce<number | null>((a, l) => (l === undefined ? a : Math.max(a ?? 0, l.amps)), null);
    const about = `parts.${part}`;
    const edit = { about, field: "load", text: most === null ? "" : printAmps(most, units), label: `load of ${part}` };
    const name = named.get(about)?.name ?? part;
    return {
      id: part,
      about,
      subject: part,
      cells: [
        words(part),
        words(name === part ? "" : name, {
          about,
          field: "name",
          text: name === part ? "" : name,
          label: `name of ${part}`,
        }),
        words(load?.circuit ?? own.find((l) => l !== undefined)?.circuit ?? ""),
        number(printAmps(most, units), most, edit),
        number(printVolts(load?.leastVolts, units), load?.leastVolts),
        number(printVolts(load?.runsAbove, units), load?.runsAbove),
        number(printVolts(load?.startVolts, units), load?.startVolts),
        number(printVolts(load?.startsAbove, units), load?.startsAbove),
        ...design.states.map((s, i) => voltsCell(part, own[i], s.dead.includes(part), units)),
      ],
    };
  });
  return {
    id: "voltages",
    title: "Volts by state",
    columns: [
      { id: "load", head: "load", isName: true },
      { id: "name", head: "name", says: "what people call it" },
      { id: "circuit", head: "circuit" },
      { id: "takes", head: "takes", says: "most that it takes in a state", isNumber: true, onCard: true },
      { id: "least", head: "least", says: "least volts while it runs", isNumber: true, onCard: true },
      { id: "needs", head: "runs above", isNumber: true },
      { id: "start", head: "at start", says: "least volts while it starts", isNumber: true, onCard: true },
      { id: "starts", head: "starts above", isNumber: true },
      ...design.states.map((s): ColumnHead => ({
        id: `state ${s.id}`,
        head: states.find((x) => x.id === s.id)?.name ?? s.id,
        says: `volts in the state ${s.id}`,
        isNumber: true,
        onCard: true,
      })),
    ],
    rows,
    empty: "No load yet. Add one at a panel, and say in which states it is on.",
    notes: [
      "A dash: it is off in that state, or no volts can be told. Least volts are of the worst case, which may be a start of something else.",
    ],
  };
}

function voltsCell(
  part: string,
  load: { readonly volts: number | null; readonly condition: string } | undefined,
  isDead: boolean,
  units: Units,
): Cell {
  if (isDead) return { text: "dead", by: 0, status: "warn", more: `${part} is on here and no source reaches it` };
  return load === undefined ? words("") : number(printVolts(load.volts, units), load.volts);
}

/** What was assumed because the plan does not say it, and the key that says otherwise. */
export function defaultsTable({ design, things }: PagePlan): Table {
  const thing = (id: string): PageThing | undefined =>
    things.find((t) => t.id === id && (t.what === "part" || t.what === "circuit"));
  return {
    id: "defaults",
    title: "Defaults used",
    columns: [
      { id: "says", head: "assumed", least: 18, isName: true },
      { id: "trust", head: "rests on", onCard: true },
      { id: "places", head: "places", isNumber: true, onCard: true },
      { id: "for", head: "used for", least: 14 },
      { id: "pin", head: "write", says: "write in the plan to say otherwise", least: 12, onCard: true },
    ],
    rows: design.assumptions.map((a): TableRow => {
      const first = a.about.map(thing).find((t) => t !== undefined);
      return {
        id: a.id,
        about: first?.about ?? null,
        subject: a.id,
        cells: [
          words(a.says),
          words(printTrust(a.trust)),
          number(String(a.about.length), a.about.length),
          words(shortList(a.about)),
          words(pinText(a.pin, first)),
        ],
      };
    }),
    empty: "Nothing is assumed: the plan says it all.",
    notes: ["Both what is assumed and what is pinned are printed with the plan."],
  };
}

/** `short-circuit: …` at a thing; `stock: sizes` is a key under a heading of the plan. */
function pinText(pin: string, at: PageThing | undefined): string {
  if (pin === "") return "";
  if (pin.includes(": ")) return `${pin}: …`;
  return at === undefined ? `${pin}: …` : `${pin}: … at ${at.id}`;
}

const MOST_NAMED = 6;
const shortList = (names: readonly string[]): string =>
  names.length <= MOST_NAMED
    ? names.join(", ")
    : `${names.slice(0, MOST_NAMED).join(", ")} and ${names.length - MOST_NAMED} more`;

/** Findings that somebody answers for, and waivers that waive nothing. */
export function waiversTable({ findings, diagnostics }: PagePlan): Table {
  const idle = diagnostics.filter((d) => d.id.startsWith("rules/waiver-") && d.level === "warning");
  return {
    id: "waivers",
    title: "Waivers",
    columns: [
      { id: "finding", head: "finding", isName: true },
      { id: "about", head: "of", onCard: true },
      { id: "status", head: "without it", onCard: true },
      { id: "reason", head: "why it may stand", least: 18, onCard: true },
      { id: "by", head: "by" },
      { id: "until", head: "until", onCard: true },
      { id: "stands", head: "stands", onCard: true },
    ],
    rows: [
      ...findings.flatMap((f): TableRow[] =>
        f.waived === null
          ? []
          : [
              {
                id: `${f.rule} ${f.about}`,
                about: f.about.replace(/\.(?:from|to)$/, ""),
                subject: `${f.rule} ${f.about}`,
                cells: [
                  words(f.title),
                  words(f.about.replace(/^[a-z]+\./, "")),
                  { text: statusWords[statusOf(f)], by: statusOf(f), status: statusOf(f) },
                  words(f.waived.reason),
                  words(f.waived.by ?? ""),
                  words(f.waived.until ?? ""),
                  words(lapsedWords[f.waived.lapsed ?? "no"]),
                ],
              },
            ],
      ),
      ...idle.map((d, i): TableRow => ({
        id: `${d.about} ${i}`,
        about: null,
        subject: null,
        cells: [
          words(d.about.replace(/^waivers\./, "")),
          words(""),
          words(""),
          words(d.message),
          words(""),
          words(""),
          words("waives nothing"),
        ],
      })),
    ],
    empty: "No finding is waived.",
    notes: [],
  };
}

const lapsedWords = {
  no: "yes",
  ended: "no: it has run out",
  "no reason": "no: no reason is given",
  "unreadable end": "no: its end is no day",
} as const;
