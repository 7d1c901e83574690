import type { InstallMethod } from "../../ruleset/index.ts";
import type { SystemCircuit } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { earthFaultsOf } from "./as-designed.ts";
import { linesOf, type Inlet } from "./inlets.ts";
import { mainRating } from "./main-rating.ts";
import { statesOf, switchingOf } from "./switching-of.ts";

/** How far a line runs from an inlet before a fuse or a breaker stands in it. */
export interface FirstDevice {
  /** Along the way that runs farthest; null: a way ends without one. */
  readonly metres: number | null;
  /** Where it stands, or what the way without one leads to. */
  readonly at: string;
  readonly rating: number | null;
  /** The plan has none there; the design proposes it. */
  readonly isProposed: boolean;
  /** Whether every circuit on the way lies in a sheath. */
  readonly isSheathed: boolean | "unknown";
  /** Circuits of which the length is not known. */
  readonly untold: readonly string[];
  /** Those that are run through. */
  readonly circuits: readonly string[];
}

interface Reached {
  readonly metres: number;
  readonly isSheathed: boolean | "unknown";
  readonly untold: readonly string[];
  readonly circuits: readonly string[];
}

/** Looks for the first device behind an inlet on each way that its line takes in some position in which the inlet feeds: not past a contact that leads from another source. */
export function firstDevice(build: Build, { source }: Inlet): FirstDevice | null {
  const [start] = linesOf(source);
  if (start === undefined) return null;
  const { devices } = earthFaultsOf(build);
  const standing = new Map(devices.flatMap((d) => (d.circuit === null ? [[d.terminal, d] as const] : [])));
  const inCircuit = new Map(devices.flatMap((d) => (d.circuit === null ? [] : [[`${d.circuit} ${d.end ?? ""}`, d] as const]))); // prettier-ignore
  const seen = new Map<string, Reached>([[start, { metres: 0, isSheathed: true, untold: [], circuits: [] }]]);
  const ends: FirstDevice[] = [];
  const end = (at: string, rating: number | null, reached: Reached, isOpen = false, isProposed = false): void => {
    ends.push({ ...reached, metres: isOpen ? null : reached.metres, at, rating, isProposed });
  };
  const isLive = liveFrom(build, source.id);
  const takers = takersOf(build);
  const ways = new Set(build.system.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.b] : [])));
  for (const [at, reached] of seen) {
    const main = standing.get(at);
    if (main !== undefined) {
      end(main.at, main.rating ?? mainRating(build, partOf(at)), reached);
      continue;
    }
    if (takers.has(at)) end(partOf(at), null, reached, true);
    const go = (to: string, more: Partial<Reached> = {}): void => {
      if (isLive(to) && !seen.has(to)) seen.set(to, { ...reached, ...more });
    };
    for (const circuit of build.system.circuits) {
      if (circuit.current !== "AC" || reached.circuits.includes(circuit.id)) continue;
      const live = circuit.conductors.find((k) => k.role === "live" && (k.from === at || k.to === at));
      if (live === undefined) continue;
      const [near, far] = live.from === at ? (["from", "to"] as const) : (["to", "from"] as const);
      const here = inCircuit.get(`${circuit.id} ${near}`);
      const there = inCircuit.get(`${circuit.id} ${far}`);
      const isTold = circuit.length.origin !== "unknown";
      const after: Reached = {
        metres: reached.metres + (isTold ? circuit.length.high : 0),
        isSheathed: both(reached.isSheathed, isSheathed(build, circuit)),
        untold: isTold ? reached.untold : [...reached.untold, circuit.id],
        circuits: [...reached.circuits, circuit.id],
      };
      const device = here ?? there;
      // A way of a board has its device, whatever becomes of the proposal for its rating.
      const isProposed = circuit.devices === "propose" && !ways.has(live[here === undefined ? far : near]);
      if (device !== undefined) {
        const place = isProposed ? `${circuit.id} at ${partOf(device.at) || device.at}` : device.at;
        end(place, device.rating, here === undefined ? after : reached, false, isProposed);
      } else go(live[far], after);
    }
    for (const e of build.system.elements) {
      if (e.is !== "join" && e.is !== "contact") continue;
      if (e.a === at) go(e.b);
      else if (e.b === at) go(e.a);
    }
  }
  const far = (e: FirstDevice): number => e.metres ?? Infinity;
  return ends.reduce<FirstDevice | null>((a, b) => (a === null || far(b) > far(a) ? b : a), null);
}

/** Whether a source makes a terminal live by itself in some state; of a build whose states are not known, any terminal. */
function liveFrom(build: Build, source: string): (terminal: string) => boolean {
  const { terminals } = switchingOf(build);
  const own = statesOf(build).flatMap((s) => s.islands.filter((i) => i.sources.includes(source)));
  if (own.length === 0) return () => true;
  const alone = own.filter((i) => i.sources.length === 1);
  const nodes = new Set((alone.length > 0 ? alone : own).flatMap((i) => i.lineNodes));
  const live = new Set([...nodes].flatMap((n) => terminals[n] ?? []));
  return (terminal) => live.has(terminal);
}

/** Terminals at which something takes current. */
const takersOf = ({ system }: Build): ReadonlySet<string> =>
  new Set(
    system.elements.flatMap((e) => {
      if (e.is === "draw" && e.current === "AC") return e.alternating?.lines ?? [e.plus];
      if (e.is === "converter" && e.inCurrent === "AC") return [e.inPlus];
      return e.is === "source" ? (e.fedBy ?? []) : [];
    }),
  );

const partOf = (terminal: string): string => terminal.slice(0, Math.max(0, terminal.indexOf(":")));

const SHEATHED = new Set<InstallMethod>(["A1", "A2", "B1", "B2", "raceway", "cable", "cord"]);

type Tell = boolean | "unknown";

const both = (a: Tell, b: Tell): Tell =>
  a === false || b === false ? false : a === true && b === true ? true : "unknown";

/** In a sheath, in a cable, or in a pipe; of what stands in an existing build nothing that is not said is taken for granted. */
function isSheathed(build: Build, { id, sheathed, cable, method, asFound }: SystemCircuit): Tell {
  if (sheathed === true || cable !== undefined) return true;
  if (method !== undefined && method !== "unknown" && SHEATHED.has(method)) return true;
  return asFound && build.circuit(id)?.plan?.facts.sheathed === undefined ? "unknown" : sheathed;
}
