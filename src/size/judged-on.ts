import { dropClass, type RuleSet, type DropClass, type DropProperty } from "../ruleset/index.ts";
import type { Grid, SystemCircuit, SystemPart } from "../system/index.ts";
import type { CircuitModel, Judged } from "./model.ts";

/** What a load's kind and the plan say of it that a drop class may ask for. */
function dropPropertiesOf(part: SystemPart | undefined, circuit: SystemCircuit): DropProperty[] {
  const properties: DropProperty[] = [];
  const use = part?.traits.dropUse;
  if (use !== undefined && use !== "rest") properties.push(use);
  if (part?.critical === true || circuit.dropClass === "critical") properties.push("critical");
  return circuit.dropClass === "rest" ? [] : properties;
}

/**
 * What hangs at the end of a circuit and is judged: its loads, a panel, the input of a converter.
 *
 * @param draws its loads, by index in the grid
 * @param back the circuit that brings its current back, where that is a circuit of its own
 */
export function judgedOn(
  { circuit, supply, startsAt }: CircuitModel,
  set: RuleSet,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
  draws: readonly number[],
  inputs: ReadonlyMap<string, number>,
  back: SystemCircuit = circuit,
): Judged[] {
  const nominal = supply?.nominal ?? 12;
  const limit = (part: SystemPart | undefined): { volts: number; class: DropClass | null } => {
    if (circuit.dropLimit !== undefined) return { volts: circuit.dropLimit.low * nominal, class: null };
    const found = dropClass(set.drop, dropPropertiesOf(part, circuit));
    return { volts: found.limit * nominal, class: found };
  };
  const judged: Judged[] = [];
  for (const i of draws) {
    const draw = grid.draws[i];
    if (draw === undefined) continue;
    const part = parts.get(draw.element.part);
    const { volts, class: drop } = limit(part);
    const levels = draw.element.levels;
    const running = levels[0]?.amps.high ?? 0;
    const steady = Math.max(running, levels.find((l) => l.name === "transmitting")?.amps.high ?? 0);
    const starting = levels.find((l) => l.name === "starting")?.amps.high;
    const base = draw.element.alwaysOn ? running : 0;
    judged.push({
      part: draw.element.part,
      draw: i,
      converter: -1,
      plus: draw.plus,
      minus: draw.minus,
      dropVolts: volts,
      dropClass: drop,
      runsAbove: draw.element.runsAbove?.high ?? 0,
      startsAbove: draw.element.startsAbove?.high ?? 0,
      startsAssumed: draw.element.startsAbove?.origin === "default",
      steadyExtra: steady - base,
      startExtra: starting === undefined ? Number.NaN : starting - base,
      startSeconds: draw.element.startSeconds.high,
      alwaysOn: draw.element.alwaysOn,
    });
  }
  for (const at of ["to", "from"] as const) {
    // Where it starts it feeds nothing; a circuit that is fed from both ends has two far ends.
    if (startsAt[at] && !(startsAt.from && startsAt.to)) continue;
    const end = parts.get(circuit[at].part);
    const plus = endNode(circuit, grid, at);
    const minus = returnNode(back, circuit[at].part, grid);
    if (end === undefined || plus === undefined || minus === undefined) continue;
    const converter = inputs.get(`${end.id}\u0000${plus}`) ?? -1;
    // A board of alternating current is dead while its source is away; what it feeds is judged from the source on.
    if ((end.traits.dropUse !== "panel feeder" || supply?.current === "AC") && converter < 0) continue;
    const { volts, class: drop } = limit(end);
    judged.push({
      part: end.id,
      draw: -1,
      converter,
      plus,
      minus,
      dropVolts: volts,
      dropClass: drop,
      runsAbove: 0,
      startsAbove: 0,
      startsAssumed: false,
      steadyExtra: 0,
      startExtra: Number.NaN,
      startSeconds: 0,
      alwaysOn: false,
    });
  }
  return judged;
}

/** Node at an end of a circuit's live conductors. */
function endNode({ conductors }: SystemCircuit, grid: Grid, at: "from" | "to"): number | undefined {
  const live = conductors.filter((c) => c.role === "live");
  const end = at === "to" ? live.at(-1)?.to : live[0]?.from;
  return end === undefined ? undefined : grid.nodeOf(end);
}

/** Node at which a circuit's return leaves a part. It runs the other way when it leads back to a bar: its end there is the one that names the part. */
function returnNode({ conductors }: SystemCircuit, part: string, grid: Grid): number | undefined {
  const own = `${part}:`;
  const returns = conductors.filter((c) => c.role === "return");
  const found = returns.find((c) => c.to.startsWith(own) || c.from.startsWith(own));
  if (found === undefined) return undefined;
  return grid.nodeOf(found.to.startsWith(own) ? found.to : found.from);
}
