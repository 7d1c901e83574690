import { rootOf, separate, unite, type SwitchingGroup, type SwitchingProblem } from "../../switching/index.ts";
import type { Build, PartView } from "../build.ts";
import { factsOf } from "../stated.ts";
import { mainRating } from "./main-rating.ts";
import { alternatingSupply, statesOf, switchingOf } from "./switching-of.ts";

/** What comes into a bar by one way. */
export interface BusFeed {
  /** Sources that give through it, by id; inverters apart, for codes count their output with a margin. */
  readonly sources: readonly string[];
  /** The most that can come: what its sources give, or what its device lets through; null: nobody says either. */
  readonly amps: number | null;
  /** Rating of the device that it comes through; null: none, or not stated. */
  readonly deviceAmps: number | null;
  readonly isInverter: boolean;
}

/** All that feeds a bar of a board at once in one state. */
export interface FedBus {
  readonly state: SwitchingGroup;
  readonly feeds: readonly BusFeed[];
}

/** Every bar of a board in every state in which something feeds it. */
export function fedBuses(build: Build, board: PartView): readonly FedBus[] {
  const { problem, terminals, study } = switchingOf(build);
  // A switch with nothing but takers behind it is no matter of states: it counts as on.
  const leaves = new Set(study.leaves.map((l) => l.mover));
  const isClosed = (set: SwitchingProblem["contacts"][number]["closed"], { example }: SwitchingGroup): boolean => {
    const mover = set === null ? undefined : problem.movers[set.mover];
    if (set === null || mover === undefined || leaves.has(mover.id)) return true;
    const at = mover.positions.indexOf(example[mover.id] ?? "");
    return set.in.includes(at < 0 ? mover.start : at);
  };
  const nodeOf = (name: string): number => terminals.findIndex((list) => list.includes(name));
  const own = terminals.flatMap((list) => list.filter((t) => t.startsWith(`${board.id}:`)));
  const ports = [...new Set(own.map((t) => t.slice(board.id.length + 1, t.lastIndexOf(":"))))];
  const ways = new Set(board.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.way] : [])));
  const behind = ports.find((p) => p === "behind the main");
  const bars = ports.filter((p) => p !== "" && !ways.has(p) && !(p === "in" && behind !== undefined));
  return bars.flatMap((bar): FedBus[] => {
    const node = ["L", "L1"].map((fn) => nodeOf(`${board.id}:${bar}:${fn}`)).find((n) => n >= 0);
    if (node === undefined) return [];
    return statesOf(build).flatMap((state) => {
      const feeds = feedsAt(node, state);
      return feeds.length === 0 ? [] : [{ state, feeds }];
    });

    function feedsAt(at: number, state: SwitchingGroup): BusFeed[] {
      const closed = problem.contacts.filter((c) => isClosed(c.closed, state));
      const pieces = separate(problem.nodes.length);
      for (const { a, b } of closed) if (a !== at && b !== at) unite(pieces, a, b);
      const giving = problem.sources.filter(
        (s) => state.gives.includes(s.id) || state.adds.some(({ source }) => source === s.id),
      );
      const entries = new Map<number, string[]>([[at, []]]);
      for (const c of closed) {
        if ((c.a === at) === (c.b === at)) continue;
        const far = rootOf(pieces, c.a === at ? c.b : c.a);
        entries.set(far, [...(entries.get(far) ?? []), c.id]);
      }
      return [...entries].flatMap(([root, contacts]) => {
        const through = giving.filter((s) => s.lines.some((l) => rootOf(pieces, l.node) === root));
        if (through.length === 0) return [];
        return [feedOf(build, board, { at, contacts, sources: through.map((s) => s.id) })];
      });
    }
  });
}

/** One way into a bar: the metal of the bar, the contacts that lead into it, the sources that give through them. */
interface Entry {
  readonly at: number;
  readonly contacts: readonly string[];
  readonly sources: readonly string[];
}

function feedOf(build: Build, board: PartView, entry: Entry): BusFeed {
  const { sources } = entry;
  const given = sources.map((id) => ampsOfSource(build, id));
  const sum = given.reduce<number | null>((all, a) => (all === null || a === null ? null : all + a), 0);
  const deviceAmps = deviceOf(build, board, entry);
  const bounds = [sum, deviceAmps].filter((a) => a !== null);
  const known = switchingOf(build).problem.sources;
  return {
    sources,
    amps: bounds.length === 0 ? null : Math.min(...bounds),
    deviceAmps,
    isInverter: sources.every((id) => known.find((s) => s.id === id)?.kind === "inverter"),
  };
}

/** Rating of the device in the board that a feed comes through, else of the one in the circuit that lands on the bar. */
function deviceOf(build: Build, board: PartView, { at, contacts, sources }: Entry): number | null {
  for (const e of board.elements) {
    if (e.is !== "contact" || !contacts.includes(e.id)) continue;
    return e.way === undefined ? mainRating(build, board.id) : wayRating(build, board, e.way);
  }
  const { problem, terminals } = switchingOf(build);
  const parts = new Set([
    ...problem.contacts.flatMap((c) => (contacts.includes(c.id) ? [c.part] : [])),
    ...problem.sources.flatMap((s) => (sources.includes(s.id) ? [s.part] : [])),
  ]);
  const onBar = new Set(terminals[at]);
  for (const { circuit, design } of build.circuits) {
    if (!circuit.conductors.some((c) => onBar.has(c.from) || onBar.has(c.to))) continue;
    if (!parts.has(circuit.from.part) && !parts.has(circuit.to.part)) continue;
    const ratings = design.devices.flatMap((d) => d.ratingA ?? []);
    if (ratings.length > 0) return Math.min(...ratings);
  }
  return null;
}

function wayRating(build: Build, board: PartView, way: string): number | null {
  for (const { circuit, design } of build.circuits) {
    const end = (["from", "to"] as const).find((e) => circuit[e].part === board.id && circuit[e].port === way);
    const rating = end === undefined ? undefined : design.devices.find((d) => d.end === end)?.ratingA;
    if (rating != null) return rating;
  }
  return ratingsOfWays(board).get(way) ?? null;
}

/** Ratings that the plan writes into the ways of a board, A, by way. */
export function ratingsOfWays(board: PartView): ReadonlyMap<string, number> {
  const ways = factsOf(board)["ways"]?.value;
  const found = new Map<string, number>();
  if (!Array.isArray(ways)) return found;
  const written = ways as readonly WrittenWay[]; // read by the rules of the board
  for (const { name, value } of written) {
    if (typeof value === "object" && typeof value.rating === "object") found.set(name, value.rating.high);
  }
  return found;
}

/** A way as the rules of a board read it. */
interface WrittenWay {
  readonly name: string;
  readonly value: "unknown" | { readonly rating?: "unknown" | { readonly high: number } };
}

/** What a source gives for good on each line, A; null: nobody says it. Of a split supply its rating lies across both lines, of a source of one line on that. */
export function ampsOfSource(build: Build, id: string): number | null {
  const lines = switchingOf(build).problem.sources.find((s) => s.id === id)?.lines.length ?? 1;
  for (const e of build.system.elements) {
    if (!("id" in e) || e.id !== id || (e.is !== "source" && e.is !== "converter")) continue;
    const supply = alternatingSupply(build, e.part);
    if (supply === undefined) return null;
    const volts = lines === 1 && supply.cores.includes("L2") ? supply.nominal / 2 : supply.nominal;
    if (e.is === "converter") return e.amps.origin === "unknown" ? null : (e.amps.high * e.volts.high) / volts;
    const { gives } = e;
    if (gives === undefined || gives === "unknown" || gives.value.origin === "unknown") return null;
    return gives.unit === "A" ? gives.value.high : gives.value.high / volts;
  }
  return null;
}
