import type { Diagnostic } from "../diagnostic.ts";
import { foldName, listed, placed, shown, type Path, type PathPoint, type PlanItem } from "../plan/index.ts";
import type { CircuitFacts } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundPoint, BoundSegment } from "./bound-segment.ts";
import type { Currents } from "./find-currents.ts";
import type { NameIndex } from "./name-index.ts";
import type { CurrentKind, Fn, Port } from "./terminal.ts";

export type { BoundPoint, BoundSegment } from "./bound-segment.ts";

const FUNCTIONS = new Map<string, Fn>([
  ["+", "+"],
  ["plus", "+"],
  ["positive", "+"],
  ["-", "−"],
  ["minus", "−"],
  ["negative", "−"],
  ["l", "L"],
  ["l1", "L1"],
  ["l2", "L2"],
  ["l3", "L3"],
  ["n", "N"],
  ["neutral", "N"],
  ["pe", "PE"],
  ["earth", "PE"],
  ["ground", "PE"],
  ["case", "PE"],
]);

type Say = (d: Diagnostic) => void;

/**
 * Finds the parts and ports that a path names. Where a port is left out it is the only one that fits; where several fit the path is asked
 * back, never guessed.
 *
 * @param known what flows where, as far as other circuits have shown it
 * @returns the stretches in order; empty when too little of the path could be found
 */
export function bindPath(
  circuit: PlanItem<CircuitFacts>,
  path: Path,
  parts: NameIndex<BoundPart>,
  known: Currents | undefined,
  say: Say,
): readonly BoundSegment[] {
  const about = `circuits.${circuit.key}`;
  const last = path.stops.length - 1;
  /** A dot or colon may belong to the name of the part. */
  const partAt = (point: PathPoint): readonly [PathPoint, BoundPart | undefined] => {
    const { text, part, section, terminal, span } = point;
    const whole = section === undefined && terminal === undefined ? undefined : parts.get(text);
    if (whole !== undefined) return [{ text, part: whole.key, span }, whole];
    const named = terminal === undefined ? undefined : parts.get(text.slice(0, text.lastIndexOf(":")));
    if (named !== undefined && terminal !== undefined) return [{ text, part: named.key, terminal, span }, named];
    return [point, parts.find(part, placed(circuit.base, span), about, say)];
  };
  const stops = path.stops.map((points, i) =>
    points.flatMap((point) => {
      const [written, part] = partAt(point);
      return part === undefined
        ? []
        : [
            {
              point: written,
              part,
              role: i === 0 ? ("start" as const) : i === last ? ("end" as const) : ("middle" as const),
            },
          ];
    }),
  );
  if (stops.some((s) => s.length === 0)) return [];

  // A port of known current at one end helps to choose at the other.
  const sure = new Set<CurrentKind>();
  for (const stop of stops) {
    for (const { point, part } of stop) {
      const named = namedPort(part, point);
      const port = named === undefined && part.ports.length === 1 ? part.ports[0] : named?.port;
      if (port === undefined) continue;
      if (port.current !== "either") sure.add(port.current);
      else if (known !== undefined) sure.add(known.ofPort(part, port));
    }
  }
  const current = sure.size === 1 ? [...sure][0] : undefined;

  const segments: BoundSegment[] = [];
  const joined = new Set<BoundPoint>();
  let before: BoundPoint[] = [];
  for (const [i, stop] of stops.entries()) {
    const arriving: BoundPoint[] = [];
    const leaving: BoundPoint[] = [];
    for (const { point, part, role } of stop) {
      const arrives = role === "start" ? undefined : choosePort(circuit, part, point, "in", current, say);
      // A load inside a path is tapped: the path goes on from the same terminals.
      const leaves =
        role === "end"
          ? undefined
          : role === "middle" && part.traits.passes !== true
            ? arrives
            : choosePort(circuit, part, point, "out", current, say);
      if (arrives !== undefined) arriving.push(arrives);
      if (leaves !== undefined) leaving.push(leaves);
    }
    if (i > 0) {
      // The run leads to the first point of a joint `B + C`; the others are joined to that point.
      const [head] = before;
      const [end] = arriving;
      if (head === undefined || end === undefined) return [];
      segments.push({ from: head, to: end });
      for (const from of before.slice(1)) {
        if (!joined.has(from)) segments.push({ from, to: head, joint: true });
      }
      for (const to of arriving.slice(1)) {
        segments.push({ from: end, to, joint: true });
        joined.add(to);
      }
    }
    before = leaving;
  }
  for (const { from, to } of segments) {
    if (from.part === to.part && from.port.name === to.port.name && from.fn === to.fn) {
      say({
        id: "system/both-ends-alike",
        level: "error",
        at: [from.span, to.span],
        about,
        message: `both ends of \`${shown(circuit.key)}\` are the same terminal, \`${shown(to.text)}\``,
        hint: "name the part or the terminal that it leads to",
      });
      return [];
    }
  }
  return segments;
}

/** The port or terminal that a point spells out. */
function namedPort(part: BoundPart, point: PathPoint): { port: Port; fn?: Fn } | undefined {
  const wanted = [point.section, point.terminal].filter((s) => s !== undefined).join(".");
  if (wanted === "") return undefined;
  const folded = foldName(wanted);
  const exact = part.ports.find((p) => foldName(p.name) === folded);
  if (exact !== undefined) return { port: exact };
  const fn = FUNCTIONS.get(folded);
  const [only] = part.ports;
  if (fn !== undefined && only !== undefined && (part.ports.length === 1 || only.name === ""))
    return { port: only, fn };
  // Of an inlet in a line that is what lies behind it.
  const behind = part.traits.inlet === true ? part.ports.find((p) => p.name === "out") : undefined;
  if (fn !== undefined && behind !== undefined) return { port: behind, fn };
  // The minus bar or earth bar of a panel is that of its feed.
  const feed = part.traits.distributes === true ? part.ports.find((p) => p.name === "in") : undefined;
  if (fn !== undefined && feed !== undefined) return { port: feed, fn };
  // Of a part with several ports the case is one piece of metal: that of its direct-current side stands for it.
  if (fn === "PE" && part.traits.passes !== true) {
    const side = part.ports.find((p) => p.current === "DC");
    if (side !== undefined) return { port: side, fn };
  }
  // `DCDC:in+` and `CU:2 L`: a port and one of its terminals.
  for (const port of part.ports) {
    const name = foldName(port.name);
    if (name !== "" && folded.startsWith(name)) {
      const rest = FUNCTIONS.get(folded.slice(name.length).trim());
      if (rest !== undefined) return { port, fn: rest };
    }
  }
  // The studs of a bar are one piece of metal, whatever they are called.
  if (part.traits.distributes === true && part.ports.length === 1 && only?.shape === "pole") return { port: only };
  // Nobody can know the terminals of a part of unknown kind.
  if (part.kind === undefined && only !== undefined) return { port: only };
  return undefined;
}

function choosePort(
  circuit: PlanItem<CircuitFacts>,
  part: BoundPart,
  point: PathPoint,
  direction: "in" | "out",
  current: CurrentKind | undefined,
  say: Say,
): BoundPoint | undefined {
  const span = placed(circuit.base, point.span);
  const text = `${part.key}${point.section === undefined ? "" : `.${point.section}`}${point.terminal === undefined ? "" : `:${point.terminal}`}`;
  const named = namedPort(part, point);
  if (named !== undefined) return { part, text, span, ...named };
  const about = `circuits.${circuit.key}`;
  const names = part.ports.map((p) => p.name).filter((n) => n !== "");
  if (point.terminal !== undefined || point.section !== undefined) {
    say({
      id: "system/terminal-unknown",
      level: "error",
      at: [span],
      about,
      message: `\`${shown(part.key)}\` has no terminal \`${shown([point.section, point.terminal].filter((s) => s !== undefined).join(":"))}\``,
      hint: names.length > 0 ? `it has ${listed(names.slice(0, 14))}` : `write \`${shown(part.key)}\` alone`,
    });
    return undefined;
  }
  let candidates = part.ports;
  if (current !== undefined) candidates = candidates.filter((p) => p.current === "either" || p.current === current);
  if (part.traits.passes === true) {
    const fits = candidates.filter((p) => p.name === direction);
    if (fits.length === 1) candidates = fits;
  } else if (direction === "in") {
    // A feeder that arrives at a panel lands on its feed studs.
    const feed = candidates.filter((p) => p.name === "in" && part.traits.distributes === true);
    if (feed.length === 1) candidates = feed;
  }
  const plain = candidates.find((p) => p.name === "");
  const [port] = plain === undefined ? candidates : [plain];
  if (port !== undefined && (plain !== undefined || candidates.length === 1)) return { part, port, text, span };
  say({
    id: "system/terminal-open",
    level: "error",
    at: [span],
    about,
    message: `\`${shown(part.key)}\` has several terminals; the path does not say which one it ${direction === "in" ? "leads to" : "starts from"}`,
    hint: `write ${listed(
      names.slice(0, 6).map((n) => `${part.key}:${n}`),
      "or",
    )}${names.length > 6 ? " …" : ""}`,
  });
  return undefined;
}
