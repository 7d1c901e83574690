import { solveAc, voltsBetween, type AcElement, type AcSolution, type Phasor } from "../network/alternating/index.ts";
import type { Plan } from "../plan/index.ts";
import type { GivenState } from "../system/index.ts";
import type { Design } from "./design.ts";
import type { Settled } from "./settled.ts";
import { layMoment, type LaidLoad, type LaidMoment, type LaidSource } from "./study-alternating-network.ts";
import { standingIn, type Positions } from "./study-alternating-positions.ts";
import type {
  AlternatingConductor,
  AlternatingJoin,
  AlternatingLoad,
  AlternatingMoment,
  AlternatingSource,
  AlternatingState,
  AlternatingStudy,
} from "./study-alternating-shape.ts";
import { alternatingWires, type AlternatingWires } from "./study-alternating-wires.ts";

/** A computed build, as the stages hand it on. */
export interface AlternatingBuild {
  readonly plan: Plan;
  readonly design: Pick<Design, "circuits">;
  readonly settled: Settled;
}

const studies = new WeakMap<Settled, AlternatingStudy>();
const wiresOf = new WeakMap<Settled, AlternatingWires>();

/**
 * Volts and currents of the alternating side of a build in every state of its plan: what each load gets, what each conductor carries with the shared
 * neutrals, what each source gives, and what the supply lead takes.
 *
 * Conductors are at the temperature that the design found, else at the most that their insulation bears. Of a circuit without a size only the joints count, and volts behind it are not told.
 * A source that states no loop impedance is taken as stiff. Ignores harmonics, starts, and what inverters do to their volts within their rating.
 *
 * @returns plain data; asked for again, the same
 * @accuracy as `solveAc` and `conductorImpedance`; loads by what they state
 * @source Kirchhoff's laws; see `solveAc`
 */
export function studyAlternating(build: AlternatingBuild): AlternatingStudy {
  const { settled } = build;
  let study = studies.get(settled);
  if (study === undefined) {
    const { states } = settled.model.system;
    const wires = wiresAt(build);
    const isAlternating = wires.conductors.length > 0;
    study = {
      states: isAlternating ? states.map((state) => inState(build, state)) : [],
      untold: wires.untold,
      hertz: wires.hertz,
      hertzStated: wires.hertzStated,
    };
    studies.set(settled, study);
  }
  return study;
}

/**
 * The same for any positions of switches, plugs and relays: a group that the study of positions found, with the loads that make it worst.
 *
 * @param moment where movers stand; of those that it does not name plugs are out, switches and devices closed, and what moves by itself goes where its rules lead it
 */
export function studyAlternatingAt(build: AlternatingBuild, moment: AlternatingMoment): AlternatingState {
  const { system } = build.settled.model;
  const unplugged = { shore: false, on: [], positions: moment.positions };
  return solved(build, moment, standingIn(system, unplugged, moment.positions), moment.positions);
}

/** Every alternating load and charger of a build, by part: the worst that can be on. */
export const everyAlternatingLoad = ({ settled }: Pick<AlternatingBuild, "settled">): string[] => [
  ...new Set(
    settled.model.system.elements.flatMap((e) =>
      (e.is === "draw" && e.current === "AC") || (e.is === "converter" && e.inCurrent === "AC") ? [e.part] : [],
    ),
  ),
];

function inState(build: AlternatingBuild, state: GivenState): AlternatingState {
  const positions = standingIn(build.settled.model.system, state);
  return solved(build, { id: state.id, on: state.on }, positions, state.positions);
}

function wiresAt({ plan, settled, design }: AlternatingBuild): AlternatingWires {
  let wires = wiresOf.get(settled);
  if (wires === undefined) wiresOf.set(settled, (wires = alternatingWires(plan, settled.model.system, design)));
  return wires;
}

function solved(
  build: AlternatingBuild,
  { id, on }: Pick<AlternatingMoment, "id" | "on">,
  standing: Positions,
  said: Positions,
): AlternatingState {
  const wires = wiresAt(build);
  const laid = layMoment(build.settled.model.system, wires, { on }, { positions: said }, standing);
  const point = solveWithTransformers(laid);
  const branches = new Map(point.branches.map((b) => [b.id, b]));
  const reach = reachOf(laid, wires);
  const conductors = laid.conductors.map(({ branch, id: conductor, circuit, fn, isUntold }): AlternatingConductor => {
    const found = branches.get(branch);
    return {
      conductor,
      circuit,
      fn: fn as AlternatingConductor["fn"], // alternating circuits have no other cores
      amps: quiet(found?.amps),
      degrees: found?.amps?.degrees ?? null,
      drop: isUntold ? null : (found?.drop.size ?? null),
    };
  });
  const joins = laid.joins.map(({ id: join, part, where, branch }): AlternatingJoin => ({
    id: join,
    part,
    where,
    amps: branch === null ? null : quiet(branches.get(branch)?.amps),
    unclear: branch === null,
  }));
  return {
    id,
    positions: { ...standing },
    converged: point.converged,
    shortage: point.shortage,
    loads: laid.loads.map((load) => loadAt(load, laid, point, reach)),
    conductors,
    sources: laid.sources.map((source) => sourceAt(source, wires, point)),
    joins,
    lossWatts: point.lossWatts,
  };
}

/**
 * What a transformer gives on its far side is taken on its near side: known when the far side is solved, so the network is solved again with it. Its own losses and the
 * drop that it passes on are left out.
 */
function solveWithTransformers({ elements, sources }: LaidMoment): AcSolution {
  const first = solveAc({ elements });
  const near = sources.flatMap(({ id, takesAt, nominal }) => {
    const given = first.sources.find((s) => s.id === id);
    if (given === undefined || given.watts <= 0) return [];
    const va = given.va / takesAt.length;
    const powerFactor = Math.min(1, given.powerFactor ?? 1);
    return takesAt.map(([a, b], i): AcElement => ({ kind: "load", id: `near side of ${id} ${i}`, a, b, law: { va, powerFactor, volts: nominal } })); // prettier-ignore
  });
  return near.length === 0 ? first : solveAc({ elements: [...elements, ...near] });
}

/** Currents below a microampere are the rounding of volts over metal of no resistance. */
const quiet = (amps: Phasor | null | undefined): number | null =>
  amps == null ? null : amps.size < 1e-6 ? 0 : amps.size;

/** What is on the way from each source to a terminal. */
interface Reached {
  readonly source: LaidSource;
  /** By node that its lines and its neutral lead to: what is not known on the shortest way there. */
  readonly lines: ReadonlyMap<string, readonly string[]>;
  readonly back: ReadonlyMap<string, readonly string[]>;
}

function reachOf(laid: LaidMoment, wires: AlternatingWires): readonly Reached[] {
  const untold = new Map(laid.conductors.flatMap((c) => (c.isUntold ? [[c.branch, `the size of ${c.circuit} is not known`] as const] : []))); // prettier-ignore
  const ties = new Map<string, { to: string; says: string | undefined }[]>();
  for (const e of laid.elements) {
    if (e.kind !== "branch" || e.id.startsWith("earth join ")) continue;
    for (const [from, to] of [
      [e.a, e.b],
      [e.b, e.a],
    ] as const) {
      const list = ties.get(from);
      const says = untold.get(e.id);
      if (list === undefined) ties.set(from, [{ to, says }]);
      else list.push({ to, says });
    }
  }
  const flood = (starts: readonly string[], first: readonly string[]): ReadonlyMap<string, readonly string[]> => {
    const seen = new Map<string, readonly string[]>(starts.map((s) => [s, first]));
    for (const [at, says] of seen) {
      for (const { to, says: more } of ties.get(at) ?? [])
        if (!seen.has(to)) seen.set(to, more === undefined || says.includes(more) ? says : [...says, more]);
    }
    return seen;
  };
  return laid.sources.map((source) => {
    const lead = wires.leads.get(source.part)?.untold;
    const first = source.lead === null || lead == null ? [] : [lead];
    return { source, lines: flood(source.terminals, first), back: flood([source.neutral], first) };
  });
}

function loadAt(load: LaidLoad, laid: LaidMoment, point: AcSolution, reach: readonly Reached[]): AlternatingLoad {
  const { id, part, between, nominal, powerFactor, powerFactorStated } = load;
  const [a, b] = between;
  const found = point.loads.find((l) => l.id === id);
  const feeding = reach.filter(({ lines }) => lines.has(a) || lines.has(b));
  const cannotTell = [
    ...new Set(
      feeding.flatMap(({ lines, back }) => [...(lines.get(a) ?? back.get(a) ?? []), ...(lines.get(b) ?? back.get(b) ?? [])]), // prettier-ignore
    ),
  ];
  const condition = found?.condition ?? "dead";
  const volts = cannotTell.length > 0 || found === undefined ? null : found.volts.size;
  const only = feeding.length === 1 ? feeding[0] : undefined;
  const free = only === undefined || condition === "dead" ? null : freeVolts(only.source, laid, between, only);
  const drop = volts === null || free === null ? null : free - volts;
  return {
    part,
    id,
    between,
    sources: feeding.map(({ source }) => source.id),
    nominal,
    volts,
    share: volts === null || nominal === 0 ? null : volts / nominal,
    drop,
    dropShare: drop === null || nominal === 0 ? null : drop / nominal,
    amps: found?.amps.size ?? 0,
    watts: found?.watts ?? 0,
    condition,
    cannotTell,
    powerFactor,
    powerFactorStated,
  };
}

/** Volts that a source without load has between the lines, or line and neutral, that lead to two terminals. */
function freeVolts(
  { id, terminals, neutral }: LaidSource,
  laid: LaidMoment,
  between: readonly [string, string],
  { lines, back }: Reached,
): number | null {
  const source = laid.elements.find((e) => e.kind === "source" && e.id === id);
  if (source?.kind !== "source") return null;
  const potential = (node: string): readonly [number, number] | null => {
    const core = node.slice(node.lastIndexOf(":") + 1);
    const i = terminals.findIndex((t) => t.slice(t.lastIndexOf(":") + 1) === core);
    const line = source.lines[i];
    if (lines.has(node) && line !== undefined) {
      const angle = (line.degrees * Math.PI) / 180;
      return [line.volts * Math.cos(angle), line.volts * Math.sin(angle)];
    }
    return back.has(node) || node === neutral ? [0, 0] : null;
  };
  const [p, q] = [potential(between[0]), potential(between[1])];
  return p === null || q === null ? null : Math.hypot(p[0] - q[0], p[1] - q[1]);
}

function sourceAt(source: LaidSource, wires: AlternatingWires, point: AcSolution): AlternatingSource {
  const { id, part, from, nominal, terminals, neutral, phaseAssumed } = source;
  const found = point.sources.find((s) => s.id === id);
  const lead = wires.leads.get(part);
  const known = source.lead === null || lead?.untold === null;
  const aboard = terminals.map((t) => voltsBetween(point, t, neutral)?.size ?? 0);
  const volts = known && aboard.length > 0 ? Math.min(...aboard) : null;
  const outside = (found?.lines ?? []).map((l) => l.volts.size);
  const branchesOfLead = new Set(source.lead === null ? [] : [...source.lead.lines, source.lead.back]);
  return {
    id,
    part,
    from,
    condition: found?.condition ?? "idle",
    watts: found?.watts ?? 0,
    va: found?.va ?? 0,
    powerFactor: found?.powerFactor ?? null,
    load: found?.load ?? null,
    lines: (found?.lines ?? []).map(({ amps }, i) => ({
      terminal: terminals[i] ?? "",
      amps: amps.size,
      degrees: amps.degrees,
    })),
    neutralAmps: found?.neutralAmps.size ?? 0,
    volts,
    share: volts === null || nominal === 0 ? null : volts / nominal,
    lead:
      source.lead === null || lead === undefined
        ? null
        : {
            metres: lead.metres,
            label: lead.label,
            layers: lead.layers,
            drop: known ? Math.max(0, ...outside.map((v, i) => v - (aboard[i] ?? v))) : null,
            watts: known
              ? point.branches.filter((b) => branchesOfLead.has(b.id)).reduce((sum, b) => sum + b.watts, 0)
              : null,
          },
    phaseAssumed,
  };
}
