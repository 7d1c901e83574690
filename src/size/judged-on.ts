import { dropClass, type CarriedRuleSet, type DropClass, type DropProperty } from "../ruleset/index.ts";
import type { Grid, Supply, SystemCircuit, SystemPart } from "../system/index.ts";
import type { Judged } from "./model.ts";

/** What a load's kind and the plan say of it that a drop class may ask for. */
function dropPropertiesOf(part: SystemPart | undefined, circuit: SystemCircuit): DropProperty[] {
  const properties: DropProperty[] = [];
  const use = part?.traits.dropUse;
  if (use !== undefined && use !== "rest") properties.push(use);
  if (part?.critical === true || circuit.dropClass === "critical") properties.push("critical");
  return circuit.dropClass === "rest" ? [] : properties;
}

/** What hangs at the end of a circuit and is judged: its loads, a panel, the input of a converter. */
export function judgedOn(
  circuit: SystemCircuit,
  set: CarriedRuleSet,
  supply: Supply | undefined,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
  drawsAt: ReadonlyMap<string, number>,
  inputs: ReadonlyMap<string, number>,
): Judged[] {
  const nominal = supply?.nominal ?? 12;
  const limit = (part: SystemPart | undefined): { volts: number; class: DropClass | null } => {
    if (circuit.dropLimit !== undefined) return { volts: circuit.dropLimit.low * nominal, class: null };
    const found = dropClass(set.drop, dropPropertiesOf(part, circuit));
    return { volts: found.limit * nominal, class: found };
  };
  const judged: Judged[] = [];
  const end = parts.get(circuit.to.part);
  const plus = endNode(circuit, grid, "live");
  const minus = endNode(circuit, grid, "return");
  const ids = [...circuit.draws];
  // A maker of alternating current at the end is a load as well.
  for (const { element, inverter, plus: at } of plus === undefined ? [] : (drawsByNode(grid).get(plus) ?? [])) {
    if (inverter !== null && at === plus) ids.push(element.id);
  }
  for (const id of ids) {
    const i = drawsAt.get(id);
    const draw = i === undefined ? undefined : grid.draws[i];
    if (i === undefined || draw === undefined) continue;
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
  if (end !== undefined && plus !== undefined && minus !== undefined) {
    const converter = inputs.get(`${end.id}\u0000${plus}`) ?? -1;
    if (end.traits.dropUse === "panel feeder" || converter >= 0) {
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
  }
  return judged;
}

const byNode = new WeakMap<Grid, Map<number, Grid["draws"][number][]>>();

function drawsByNode(grid: Grid): Map<number, Grid["draws"][number][]> {
  let map = byNode.get(grid);
  if (map === undefined) {
    map = new Map();
    for (const draw of grid.draws) {
      const there = map.get(draw.plus);
      if (there === undefined) map.set(draw.plus, [draw]);
      else there.push(draw);
    }
    byNode.set(grid, map);
  }
  return map;
}

/** Node at the far end of a circuit's conductors of one role. */
function endNode(circuit: SystemCircuit, grid: Grid, role: "live" | "return"): number | undefined {
  const conductors = circuit.conductors.filter((c) => c.role === role);
  if (role === "live") {
    const last = conductors.at(-1);
    return last === undefined ? undefined : grid.nodeOf(last.to);
  }
  // A return runs the other way when it leads back to a bar: its end at the far part is the one that names that part.
  const far = conductors.find(
    (c) => c.to.startsWith(`${circuit.to.part}:`) || c.from.startsWith(`${circuit.to.part}:`),
  );
  if (far === undefined) return undefined;
  return grid.nodeOf(far.to.startsWith(`${circuit.to.part}:`) ? far.to : far.from);
}
