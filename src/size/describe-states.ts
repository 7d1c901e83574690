import type { DcSolution } from "../network/index.ts";
import type { Collapse } from "../network/index.ts";
import type { Case } from "./cases.ts";
import { fillCase, layNetwork, type Laid } from "./lay-network.ts";
import type { Model } from "./model.ts";
import type { SourceInState, StateDesign } from "./design.ts";
import type { Settled } from "./settled.ts";

/** Solves each state of the plan once more with the final sizes, every load on its own terminals, and reads it out. */
export function describeStates(settled: Settled): StateDesign[] {
  const { model, cases, weigher, chosen } = settled;
  const { grid } = model;
  const whole = layWhole(model);
  const ohms = Float64Array.from(grid.edges.keys(), (e) => weigher.ohmsOf(e, chosen.rungs));
  const circuitOf = new Map<number, string>();
  model.circuits.forEach((c) => {
    for (const j of c.judged) if (j.draw >= 0) circuitOf.set(j.draw, c.circuit.id);
  });
  const drawOf = new Map<string, number>();
  grid.draws.forEach(({ element }, d) => {
    if (!drawOf.has(element.id)) drawOf.set(element.id, d);
  });
  for (const c of model.circuits) {
    for (const id of c.circuit.draws) {
      const d = drawOf.get(id);
      if (d !== undefined && !circuitOf.has(d)) circuitOf.set(d, c.circuit.id);
    }
  }
  /** Circuit of an edge by name: asked only where something collapses. */
  const ownerOf = (id: string): string | undefined => {
    const edge = grid.edges.findLast((e) => e.id === id && model.system.circuits[e.circuit] !== undefined);
    return model.system.circuits[edge?.circuit ?? -1]?.id;
  };

  return cases.flatMap((one): StateDesign[] => {
    if (one.kind !== "given") return [];
    const demand = demandIn(model, one);
    const solution: DcSolution = whole.prepared.solve(fillCase(whole, grid, one, ohms, demand));
    const at = (e: number) => ({
      volts: solution.volts[e] ?? 0,
      amps: solution.amps[e] ?? 0,
      condition: solution.conditions[e] ?? "off",
    });
    const sources: SourceInState[] = [
      ...grid.stores.map(({ element }, i) => {
        const { volts, amps, condition } = at(whole.store[i] ?? -1);
        return { part: element.part, volts, amps: 0 - amps, condition };
      }),
      ...grid.feeds.flatMap(({ element }, i): SourceInState[] => {
        if (one.feedOn[i] === 0) return [];
        const { volts, amps, condition } = at(whole.feed[i] ?? -1);
        return [{ part: element.part, volts, amps: 0 - amps, condition }];
      }),
      ...grid.converters.flatMap(({ element }, k): SourceInState[] => {
        if (one.converter[k] === 0) return [];
        const { working, pushes } = whole.converters[k] ?? { working: -1, pushes: -1 };
        if (working < 0) {
          const { volts, amps, condition } = at(pushes);
          return [{ part: element.part, volts, amps: 0 - amps, condition }];
        }
        return [
          {
            part: element.part,
            volts: solution.outVolts[working] ?? 0,
            amps: 0 - (solution.outAmps[working] ?? 0),
            condition: solution.conditions[working] ?? "off",
          },
        ];
      }),
    ];
    const dead: string[] = [];
    const loads = grid.draws.flatMap(({ element }, d): StateDesign["loads"] => {
      if ((demand[d] ?? 0) <= 0) return [];
      const { volts, amps, condition } = at(whole.draw[d] ?? -1);
      const unfed = condition === "no source" || condition === "reversed";
      if (unfed) dead.push(element.part);
      return [{ part: element.part, circuit: circuitOf.get(d) ?? null, volts: unfed ? null : volts, amps, condition }];
    });
    return [
      {
        id: one.name,
        loads,
        sources,
        circuits: model.circuits.map((c) => {
          let amps = 0;
          for (const e of c.edges) amps = Math.max(amps, Math.abs(solution.amps[whole.edge[e] ?? -1] ?? 0));
          return { id: c.circuit.id, amps };
        }),
        dead,
        collapses: (solution.collapsed.length === 0 ? [] : whole.prepared.describe().collapses).map((x) => ({
          load: x.draw,
          cause: x.cause,
          circuit: ownerOf(x.cause) ?? null,
          says: collapseInWords(x, ownerOf(x.cause)),
        })),
        converged: solution.converged,
      },
    ];
  });
}

function collapseInWords(collapse: Collapse, circuit: string | undefined): string {
  const { asked, most, unit, share, cause } = collapse;
  const round = (x: number): number => Number(x.toPrecision(3));
  const where = circuit ?? cause;
  const lost = where === "" ? "" : `; ${Math.round(100 * share)} % of the volts on the way are lost in ${where}`;
  return `asks for ${round(asked)} ${unit}, no more than ${round(most)} ${unit} can reach it${lost}`;
}

/** A state of the plan, solved with every load on its own terminals. */
export interface SolvedState {
  /** By node of the grid, against the reference of its piece of metal, V; NaN where nothing hangs on a node. */
  readonly nodeVolts: Float64Array;
  /** What each load takes, A, by draw. */
  readonly drawAmps: Float64Array;
}

/**
 * Solves one state of the plan once more, as `describeStates` does, for whoever asks where its volts are lost.
 *
 * @param caseIndex of a given state
 */
export function solveGivenState(settled: Settled, caseIndex: number): SolvedState | null {
  const { model, cases, weigher, chosen } = settled;
  const { grid } = model;
  const one = cases[caseIndex];
  if (one?.kind !== "given") return null;
  const whole = layWhole(model);
  const ohms = Float64Array.from(grid.edges.keys(), (e) => weigher.ohmsOf(e, chosen.rungs));
  const solution = whole.prepared.solve(fillCase(whole, grid, one, ohms, demandIn(model, one)));
  return {
    nodeVolts: Float64Array.from(whole.node, (n) => solution.nodeVolts[n] ?? Number.NaN),
    drawAmps: Float64Array.from(whole.draw, (e) => solution.amps[e] ?? 0),
  };
}

/** Amps that each load asks for, or watts of one of constant power. */
const demandIn = ({ grid }: Model, one: Case): Float64Array =>
  Float64Array.from(
    grid.draws,
    ({ element }, d) => (one.drawAmps[d] ?? 0) * (element.law === "watts" ? element.atVolts : 1),
  );

/** The whole network, every load on its own terminals. */
function layWhole({ grid, system }: Model): Laid {
  const ground = system.supplies.find((s) => s.current === "DC")?.returnPart;
  const groundNode = ground === undefined ? undefined : grid.nodeNames.find((n) => n.startsWith(`${ground}:`));
  const draws = grid.draws.map((d) => ({ id: d.element.id, plus: d.plus, minus: d.minus, law: d.element.law }));
  return layNetwork(grid, () => true, draws, groundNode);
}
