import { freeName, namesIn, put, textsOf } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import { readQuantity } from "../quantity/index.ts";
import { isRefusal, prove, refuse } from "./draft.ts";
import { findPartAndWay, findThing, type Thing } from "./find-thing.ts";
import { placesIn, waysOf, waysTaken } from "./free-places.ts";
import type { LoadSentence } from "./load-sentence.ts";
import { readLoadSentence } from "./read-load-sentence.ts";
import { readNewName } from "./rename.ts";
import type { ActRequest, ActResult, KeyPath, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { findState, switchEdits } from "./states.ts";
import { brief } from "./step-name.ts";

/** A key and its text. */
export type Entry = readonly [key: string, text: string];

/** A load that is to stand in the plan, on a circuit of its own. */
export interface NewLoad {
  readonly name: string;
  readonly part: readonly Entry[];
  /** Of its circuit, behind the path. */
  readonly circuit: readonly Entry[];
  readonly volts: string | null;
  readonly alwaysOn: boolean;
  readonly remarks: readonly string[];
}

/** A load as a sentence says it, on a circuit of its own or behind the end of one. */
export function addLoad(stand: Stand, { at, text, on }: Extract<ActRequest, { readonly do: "add-load" }>): ActResult {
  const read = readLoadSentence(text);
  if (!read.ok) {
    const [problem] = read.problems;
    return refuse(problem?.message ?? "the sentence was not understood", problem?.hint ?? "", problem?.at);
  }
  return putLoad(stand, at, newLoad(read.load), on ?? []);
}

/** What a sentence comes to in a plan. */
export function newLoad(load: LoadSentence): NewLoad {
  const fact = (key: string, text: string | null): readonly Entry[] => (text === null ? [] : [[key, text]]);
  return {
    name: load.name,
    part: [
      ["kind", load.kind],
      ...fact("count", load.count === null ? null : String(load.count)),
      ...fact("motor", load.motor ? "DC" : null),
      ...fact("running", load.running),
      ...fact("starting", load.starting),
      ...fact("start time", load.startTime),
      ...fact("runs above", load.runsAbove),
      ...fact("starts above", load.startsAbove),
      ...fact("duty", load.duty),
      ...fact("always on", load.alwaysOn ? "yes" : null),
      ...fact("critical", load.critical ? "yes" : null),
      ...fact("note", load.note),
    ],
    circuit: fact("length", load.length),
    volts: load.volts,
    alwaysOn: load.alwaysOn,
    remarks: load.remarks,
  };
}

/** Puts a load into the plan. */
export function putLoad(stand: Stand, at: KeyPath, load: NewLoad, on: readonly string[]): ActResult {
  const { document } = stand;
  const parts = namesIn(document, ["parts"]);
  const readable = readNewName(load.name, "parts", []);
  if (typeof readable !== "string") return readable;
  const isTaken = parts.some((name) => foldName(name) === foldName(readable));
  const name = isTaken ? freeName(parts, /\d$/.test(readable) ? readable : `${readable} 1`) : readable;
  const place = at.startsWith("circuits.") ? endOf(stand, at, load) : startOf(stand, at);
  if (isRefusal(place)) return place;
  const volts = ratedAt(stand, place, load.volts);
  if (isRefusal(volts)) return volts;
  const moments = on.map((state) => findState(stand, state));
  const missing = moments.find(isRefusal);
  if (missing !== undefined) return missing;

  const part: Edit = {
    do: "add",
    path: ["parts"],
    key: name,
    value: { entries: [...load.part, ...volts] },
    ...afterLast(parts, lastLoad(stand)),
  };
  const thing: Thing = { section: "parts", name, about: `parts.${name}` };
  const states = moments.flatMap((moment) => {
    const edits = isRefusal(moment) || load.alwaysOn ? [] : switchEdits(stand, moment, thing, "on");
    return isRefusal(edits) ? [] : edits;
  });
  const circuits = namesIn(document, ["circuits"]);
  const circuit = place.chain === null ? nextCircuit(circuits) : null;
  const wiring: Edit =
    place.chain !== null
      ? put(
          document,
          ["circuits", place.chain, "then"],
          [...textsOf(document, ["circuits", place.chain, "then"]), name],
        )
      : {
          do: "add",
          path: ["circuits"],
          key: circuit ?? "",
          value: { entries: [["path", `${place.point} → ${name}`], ...load.circuit] },
          ...afterLast(circuits, lastFrom(stand, place.part)),
        };
  const remarks = [
    ...(isTaken ? [`\`${shown(readable)}\` is in the plan already: this one is called \`${shown(name)}\``] : []),
    ...load.remarks,
    ...place.remarks,
    ...(load.circuit.some(([key]) => key === "length") || place.chain !== null
      ? []
      : [`the length of ${circuit ?? ""} is missing: its size waits for it`]),
    ...toldOfStates(stand, load, on),
  ];
  return prove(stand, {
    edits: [part, wiring, ...states],
    step: `${brief(name)} added at ${brief(place.point)}`,
    select: circuit === null ? `parts.${name}` : `circuits.${circuit}`,
    remarks,
    mustHold: "everything",
  });
}

/** In which states it runs: a state lists what is on, so a new load is in none until somebody says so. */
function toldOfStates({ build }: Stand, load: NewLoad, on: readonly string[]): readonly string[] {
  if (load.alwaysOn) return ["it is always on, so it runs in every state"];
  const states = build.plan.states.length;
  if (states === 0 || on.length > 0) return [];
  const all = states === 1 ? "the state of the plan" : `all ${states} states`;
  return [`it is off in ${all} and judged running and starting alone; turn it on where it runs with others`];
}

interface Place {
  /** Where the path starts. */
  readonly point: string;
  readonly part: string;
  /** Circuit behind whose end it is chained; null: a circuit of its own. */
  readonly chain: string | null;
  readonly remarks: readonly string[];
}

function startOf(stand: Stand, at: KeyPath): Place | NotActed {
  const found = findPartAndWay(stand, at);
  if ("ok" in found) return found;
  const point = feedPoint(stand, found.part, found.way);
  return typeof point === "string" ? { point, part: found.part.name, chain: null, remarks: [] } : point;
}

/** Point of a path at a part: the way that is named, else of a panel the next free one. */
export function feedPoint({ build }: Stand, { name }: Thing, way: string | null): string | NotActed {
  const view = build.part(name);
  if (view === undefined) return refuse(`\`${shown(name)}\` cannot be read yet`, "mend its messages first");
  const ways = waysOf(view);
  const taken = waysTaken(build);
  if (way !== null) {
    const own = ways.find((w) => foldName(w) === foldName(way));
    // A terminal that is no way: `SW1:in`.
    if (own === undefined && ways.length > 0) {
      return refuse(`\`${shown(name)}\` has no way \`${shown(way)}\``, `it has ${ways.slice(0, 14).join(", ")}`);
    }
    const other = own === undefined ? undefined : taken.get(`${name}\n${own}`);
    if (other !== undefined)
      return refuse(`way ${shown(way)} of \`${shown(name)}\` is taken by \`${shown(other)}\``, freeHint(build, name));
    return `${name}:${own ?? way}`;
  }
  if (ways.length === 0) {
    const { traits } = view.part;
    if (traits.load === true) return refuse(`\`${shown(name)}\` is a load`, "add it behind the end of its circuit");
    return traits.passes === true ? `${name}:out` : name;
  }
  const free = ways.find((w) => !taken.has(`${name}\n${w}`));
  if (free !== undefined) return `${name}:${free}`;
  return refuse(`all ${ways.length} ways of \`${shown(name)}\` are taken`, freeHint(build, name));
}

function freeHint(build: Stand["build"], full: string): string {
  const places = placesIn(build).places;
  const current = build.part(full)?.part.current;
  const other = places.find((p) => p.part === full) ?? places.find((p) => p.part !== full && p.current === current);
  if (other === undefined) return "give the panel another way first";
  return `there is room at \`${shown(other.part)}${other.way === null ? "" : `:${other.way}`}\`, or give the panel another way`;
}

/** Behind the last load of a circuit: chained, or on a stretch of its own where a length is said. */
function endOf(stand: Stand, at: KeyPath, load: NewLoad): Place | NotActed {
  const thing = findThing(stand, at, ["circuits"]);
  if (isRefusal(thing)) return thing;
  const circuit = stand.build.circuit(thing.name)?.circuit;
  if (circuit === undefined) return refuse(`\`${shown(thing.name)}\` cannot be read yet`, "mend its messages first");
  const end = textsOf(stand.document, ["circuits", thing.name, "then"]).at(-1) ?? circuit.to.part;
  if (stand.build.part(end)?.part.traits.load !== true) return startOf(stand, `parts.${end}`);
  if (load.circuit.length > 0) {
    return {
      point: end,
      part: end,
      chain: null,
      remarks: [`it is tapped at \`${shown(end)}\`, behind the device of ${shown(thing.name)}`],
    };
  }
  return {
    point: end,
    part: end,
    chain: thing.name,
    remarks: [`it is chained on ${shown(thing.name)}, without a length of its own`],
  };
}

/** Volts nearer than this to nominal are nominal: batteries of 12 V stand at 11…14.6 V. Common practice. */
const NEAR = 0.25;

/** Volts that a figure is stated at; or the question whether this is the right supply. */
function ratedAt({ build }: Stand, { part }: Place, said: string | null): readonly Entry[] | NotActed {
  const nominal = build.part(part)?.supply?.nominal;
  const read = said === null ? null : readQuantity(said, "voltage");
  if (said === null || read?.ok !== true || read.amount.form === "unknown" || nominal === undefined) return [];
  const volts = read.amount.high;
  if (volts === nominal) return [];
  if (Math.abs(volts / nominal - 1) <= NEAR) return [["rated at", said]];
  return refuse(
    `\`${said}\` was said, and \`${shown(part)}\` gives ${nominal} V`,
    "choose another place, or leave the volts out",
  );
}

/** The next number on a sleeve: one beyond the greatest of the usual form. */
export function nextCircuit(circuits: readonly string[]): string {
  const stems = new Map<string, { count: number; greatest: string; number: number }>();
  for (const name of circuits) {
    const [, stem, digits] = /^(\D*)(\d{1,9})$/.exec(name) ?? [];
    if (stem === undefined || digits === undefined) continue;
    const there = stems.get(stem);
    const greater = there === undefined || Number(digits) > there.number;
    stems.set(stem, {
      count: (there?.count ?? 0) + 1,
      greatest: greater ? name : there.greatest,
      number: greater ? Number(digits) : there.number,
    });
  }
  const usual = [...stems.values()].sort((a, b) => b.count - a.count)[0];
  return freeName(circuits, usual?.greatest ?? "W00");
}

/** Behind an entry that is there; else at the end of the section. */
const afterLast = (names: readonly string[], after: string | undefined): { readonly after?: string } =>
  after !== undefined && names.filter((n) => n === after).length === 1 ? { after } : {};

const lastLoad = ({ build }: Stand): string | undefined =>
  build.parts.findLast(({ part, plan }) => part.traits.load === true && plan !== undefined)?.id;

const lastFrom = ({ build }: Stand, part: string): string | undefined =>
  build.circuits.findLast(({ circuit }) => circuit.from.part === part)?.id;
