import type { SwitchingProblem } from "./problem.ts";
import type { Step, SwitchingGroup } from "./study.ts";

/** One thing that is done, before alike things are said together. */
interface Phrase {
  readonly before: string;
  readonly what: string;
  readonly after: string;
}

/**
 * Says what is done, in order, and what follows by itself, as one person says it to another.
 *
 * Knows of no kinds of parts: what a step is called follows from the positions that it leads to. Steps of the same kind that follow each other are said
 * together.
 *
 * @param steps as the study of switching lists them
 * @returns a phrase without a full stop; `everything off` where nothing is done
 * @example
 * saySteps([
 *   { mover: "INL", from: "out", to: "in", by: "outside" },
 *   { mover: "CU:main", from: "off", to: "on", by: "hand" },
 *   { mover: "INV", from: "off", to: "on", by: "hand" },
 *   { mover: "TS", from: "off", to: "shore", by: "hand" },
 * ]) //=> "plug in at INL, switch the main of CU and INV on, set TS to shore"
 * @example
 * saySteps([]) //=> "everything off"
 */
export function saySteps(steps: readonly Step[]): string {
  if (steps.length === 0) return "everything off";
  const said: { before: string; after: string; all: string[] }[] = [];
  for (const step of steps) {
    const { before, what, after } = phraseOf(step);
    const last = said.at(-1);
    if (last?.before === before && last.after === after) last.all.push(what);
    else said.push({ before, after, all: [what] });
  }
  return said.map(({ before, after, all }) => `${before}${list(all)}${after}`).join(", ");
}

function phraseOf({ mover, from, to, by, after }: Step): Phrase {
  const what = sayMover(mover);
  if (by === "itself") {
    const waits = after === undefined || after === 0 ? "" : ` after ${Number(after.toPrecision(3))} s`;
    return { before: "", what, after: ` goes to ${to} by itself${waits}` };
  }
  if (to === "in" && from === "out") return { before: "plug in at ", what, after: "" };
  if (to === "out" && from === "in") return { before: "unplug ", what, after: "" };
  if (to === "on" || (to === "off" && from === "on")) return { before: "switch ", what, after: ` ${to}` };
  if (to === "running") return { before: "start ", what, after: "" };
  if (from === "running" && to === "off") return { before: "stop ", what, after: "" };
  if (by === "outside") return { before: "", what, after: ` goes to ${to}` };
  return { before: "set ", what, after: ` to ${to}` };
}

/**
 * Says what moves as people call it: the main and the ways of a board, the breaker in the line of a circuit, the relay of a part.
 *
 * @example
 * sayMover("CU:main") //=> "the main of CU"
 * @example
 * sayMover("CU:3") //=> "CU:3"
 * @example
 * sayMover("W30:breaker:to") //=> "the far breaker of W30"
 */
export function sayMover(mover: string): string {
  const [, far] = /^(.+):breaker:to$/s.exec(mover) ?? [];
  if (far !== undefined) return `the far breaker of ${far}`;
  const [, part, role] = /^(.+):(main|breaker|relay|management)$/s.exec(mover) ?? [];
  return part === undefined || role === undefined ? mover : `the ${role} of ${part}`;
}

/** Positions that go without saying: they are told by what gives, or by the way there. */
const PLAIN = new Set(["off", "on", "in", "out", "running", "closed", "open"]);

/**
 * Says a state as people do: what gives alternating current, and where what has more than two positions stands.
 *
 * @example
 * sayState(
 *   { sources: [{ id: "INL", part: "INL", kind: "shore" }, { id: "INV", part: "INV", kind: "inverter" }], movers: [{ id: "TS", by: "hand" }] },
 *   { gives: ["INL", "INV"], example: { TS: "inverter" } },
 * ) //=> "INL in, INV inverting, TS at inverter"
 * @example
 * sayState({ sources: [], movers: [] }, { gives: [], example: {} }) //=> "nothing alternates"
 */
export function sayState(
  problem: {
    readonly sources: readonly Pick<SwitchingProblem["sources"][number], "id" | "part" | "kind">[];
    readonly pins?: readonly { readonly id: string }[];
    readonly movers: readonly Pick<SwitchingProblem["movers"][number], "id" | "by">[];
  },
  { gives, example }: Pick<SwitchingGroup, "gives" | "example">,
): string {
  const giving = problem.sources.flatMap(({ id, part, kind }) => {
    if (!gives.includes(id) || kind === "store" || kind === "transformer") return [];
    return kind === "shore" ? [`${part} in`] : kind === "generator" ? [`${part} running`] : [`${part} inverting`];
  });
  if (giving.length === 0) return "nothing alternates";
  const plugged = (problem.pins ?? []).flatMap(({ id }) => (example[id] === "in" ? [`${id} in`] : []));
  const set = problem.movers.flatMap(({ id, by }) => {
    const at = example[id];
    return at === undefined || PLAIN.has(at) || by === "outside" || id.endsWith(":relay")
      ? []
      : [`${sayMover(id)} at ${at}`];
  });
  return [...giving, ...plugged, ...set].join(", ");
}

const list = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;
