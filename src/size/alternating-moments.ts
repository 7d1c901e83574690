import {
  mayWork,
  suppliedIn,
  type Converter,
  type GivenState,
  type InternalElement,
  type QuietState,
  type Source,
  type System,
} from "../system/index.ts";

/** A source and how everything stands when it feeds as much as it can. */
interface Mode extends QuietState {
  readonly source: string;
  readonly lines: readonly string[];
  /** Loads that it then reaches. */
  readonly reaches: readonly string[];
}

/**
 * The alternating side with its states: those of the plan with the sources that give in them, and each load alone on each source that it is not on while all else rests.
 *
 * @param build the build as the plan has it
 * @param side its alternating side, in the words of the direct one
 */
export function alternatingMoments(build: System, side: System): System {
  const modes = modesOf(build, side);
  const [first, ...others] = modes;
  if (first === undefined) return { ...side, states: [] };
  // A source that stands apart from what is fed already can feed beside it.
  const base = { on: [first.source], positions: { ...first.positions }, reaches: new Set(first.reaches) };
  for (const mode of others) {
    const isApart = mode.reaches.every((r) => !base.reaches.has(r));
    const fits = Object.entries(mode.positions).every(([part, p]) => (base.positions[part] ?? p) === p);
    if (!isApart || !fits || mode.reaches.length === 0) continue;
    base.on.push(mode.source);
    Object.assign(base.positions, mode.positions);
    for (const r of mode.reaches) base.reaches.add(r);
  }
  const given = build.states.map((state) =>
    // A plan without states has everything on, with whatever can give at once.
    givenState(state.isImplied === true ? { ...state, positions: base.positions } : state, build, side, modes),
  );
  const alone = others
    .filter((m) => !base.on.includes(m.source))
    .flatMap((m) =>
      m.reaches.map((load): GivenState => ({
        ...QUIET,
        id: `${load} alone on ${m.source}`,
        on: [m.source, load],
        positions: m.positions,
      })),
    );
  // Where no state says what is on together, it is all of it on each source in turn; one of known rating asks for its rating anyway.
  const [only] = build.states;
  const turns =
    only?.isImplied !== true
      ? []
      : others
          .filter((m) => !base.on.includes(m.source) && !isRated(m.source, build))
          .map((m): GivenState => ({
            ...only,
            id: `${only.id}, from ${m.source}`,
            on: [...only.on.filter((part) => !isOutside(part, build)), m.source],
            positions: m.positions,
          }));
  return { ...side, states: [...given, ...turns, ...alone], quiet: { on: base.on, positions: base.positions } };
}

const QUIET = { engine: false, shore: false, sun: false, charge: {} } as const;

/** What gives from outside, then generators, then what makes its own from a bank. */
const ORDER = { shore: 0, generator: 1, transformer: 2, inverter: 3 } as const;

function modesOf(build: System, side: System): Mode[] {
  const sources = build.elements.flatMap((e): { part: string; lines: readonly string[]; rank: number }[] => {
    if (e.is === "source") {
      if (isLedThrough(e, build)) return [];
      const lines = Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : []));
      return [{ part: e.part, lines, rank: ORDER[e.from] }];
    }
    if (e.is === "converter" && e.outCurrent === "AC")
      return [{ part: e.part, lines: e.outLines ?? [e.outPlus], rank: ORDER.inverter }];
    return [];
  });
  return [...sources]
    .sort((a, b) => a.rank - b.rank)
    .map(({ part, lines, rank }) => {
      const positions = positionsFor(lines, rank < ORDER.inverter, side);
      const reaches = reachOf(lines, positions, side);
      return { source: part, lines, on: [part], positions, reaches };
    });
}

/** Each switch of several inputs set to the one that the source reaches, each relay to where it leads this source on. */
function positionsFor(lines: readonly string[], isOutside: boolean, side: System): Record<string, string> {
  const positions: Record<string, string> = {};
  const inputs = new Map<string, { from: string; position: string }[]>();
  for (const e of side.elements) {
    if (e.is !== "contact" || e.closedIn === undefined) continue;
    const [position = ""] = e.closedIn;
    if (position === "passing") positions[e.part] = isOutside ? "passing" : "inverting";
    else inputs.set(e.part, [...(inputs.get(e.part) ?? []), { from: e.a, position }]);
  }
  // One switch may stand behind another: each is set once what lies ahead of it is.
  for (let round = 0; round <= inputs.size; round++) {
    const reached = metalFrom(lines, positions, side);
    for (const [part, list] of inputs) {
      const fed = list.find((i) => reached.has(i.from));
      if (positions[part] === undefined && fed !== undefined) positions[part] = fed.position;
    }
  }
  return positions;
}

/** Loads whose line a source reaches. */
function reachOf(lines: readonly string[], positions: Record<string, string>, side: System): string[] {
  const reached = metalFrom(lines, positions, side);
  const loads = side.elements.flatMap((e) =>
    e.is === "draw" && (reached.has(e.plus) || reached.has(e.minus)) ? [e.part] : [],
  );
  return [...new Set(loads)];
}

/** Terminals that live metal leads to. */
function metalFrom(lines: readonly string[], positions: Record<string, string>, side: System): ReadonlySet<string> {
  const links = new Map<string, string[]>();
  const link = (a: string, b: string): void => {
    links.set(a, [...(links.get(a) ?? []), b]);
    links.set(b, [...(links.get(b) ?? []), a]);
  };
  for (const c of side.circuits) {
    if (c.current !== "DC") continue;
    for (const k of c.conductors) if (k.role === "live") link(k.from, k.to);
  }
  const isNeutral = (e: InternalElement & { a: string }): boolean => /:(?:N|PE)$/.test(e.a);
  for (const e of side.elements) {
    if (e.is === "join" && !isNeutral(e)) link(e.a, e.b);
    if (e.is !== "contact" || isNeutral(e)) continue;
    const position = positions[e.part];
    if (e.closedIn === undefined || (position !== undefined && e.closedIn.includes(position))) link(e.a, e.b);
  }
  const reached = new Set(lines);
  for (const at of reached) for (const next of links.get(at) ?? []) reached.add(next);
  return reached;
}

/** A state of the plan, with what gives in it and how relays then stand. */
function givenState(state: GivenState, build: System, side: System, modes: readonly Mode[]): GivenState {
  const outside = modes.filter((m) => isOutside(m.source, build));
  const shore = outside.find((m) => isShore(m.source, build)) ?? outside[0];
  // A plan without states has everything on, and what comes from outside gives then too.
  const isPlugged = state.shore || state.isImplied === true;
  const fed = new Set(
    outside
      .filter(({ source }) => {
        const said = state.positions[source];
        return (
          state.on.includes(source) || (said === undefined ? isPlugged && source === shore?.source : said === "in")
        );
      })
      .map((m) => m.source),
  );
  const positions: Record<string, string> = { ...state.positions };
  const may = mayWork(build);
  const isHeld = (e: InternalElement): boolean => (e.is === "converter" || e.is === "contact") && !may(e, state);
  // What a state holds off neither leads a supply on, nor makes its own, nor charges.
  const held = build.elements.filter(isHeld);
  const leadsOn = (part: string): boolean =>
    !held.some((e) => e.is === "contact" && e.part === part && e.closedIn?.includes("passing") === true);
  const makes = (part: string): boolean =>
    !held.some((e) => e.is === "converter" && e.part === part && e.outCurrent === "AC");
  const isCut = ({ positions: asks }: Mode): boolean =>
    Object.entries(asks).some(([part, p]) => p === "in" && state.positions[part] === "out");
  const isSupplied = suppliedIn(build)(state);
  // A plan without states has everything on: what comes from outside comes everywhere then.
  const comes = (terminal: string): boolean => (state.isImplied === true ? fed.size > 0 : isSupplied(terminal));
  const isLed = (part: string): boolean =>
    build.elements.some((e) => e.is === "converter" && e.part === part && e.passesFrom !== undefined && comes(e.passesFrom)); // prettier-ignore
  const on = new Set(state.on);
  for (const mode of modes) {
    const isGiving = isOutside(mode.source, build) ? fed.has(mode.source) && !isCut(mode) : true;
    if (!isGiving) continue;
    for (const [part, p] of Object.entries(mode.positions)) {
      if (p === "passing" && isLed(part) && leadsOn(part)) positions[part] = "passing";
      else if (p === "inverting" && positions[part] === undefined) positions[part] = "inverting";
    }
  }
  const standing = { ...firstPositions(build), ...positions };
  for (const { source, lines } of modes) {
    // One that is being passed through rests, and so does one whose switch stands at another.
    const gives = positions[source] !== "passing" && (isOutside(source, build) ? fed.has(source) : makes(source));
    if (gives && reachOf(lines, standing, side).length > 0) on.add(source);
    else on.delete(source);
  }
  const chargers = chargersOf(build, held, comes);
  return { ...state, on: [...on, ...chargers], positions };
}

/** A switch of several positions that a state says nothing of stands at its first one. */
const firstPositions = ({ parts }: System): Record<string, string> =>
  Object.fromEntries(parts.flatMap(({ id, positions: [first] }) => (first === undefined ? [] : [[id, first]])));

const isOutside = (part: string, { elements }: System): boolean =>
  elements.some((e) => e.is === "source" && e.part === part);
const isRated = (part: string, { elements }: System): boolean =>
  elements.some((e) => {
    if (e.part !== part) return false;
    if (e.is === "source") return e.gives !== undefined && e.gives !== "unknown" && e.gives.value.origin !== "unknown";
    return e.is === "converter" && e.outCurrent === "AC" && e.amps.origin !== "unknown";
  });
const isShore = (part: string, { elements }: System): boolean =>
  elements.some((e) => e.is === "source" && e.from === "shore" && e.part === part);

const chargersOf = (build: System, held: readonly InternalElement[], comes: (terminal: string) => boolean): string[] =>
  build.elements.flatMap((e) => (e.is === "converter" && e.inCurrent === "AC" && !held.includes(e) && comes(e.inPlus) ? [chargerOf(e, build)] : [])); // prettier-ignore

/** Whether a supply of the plan comes to the near side of a transformer. */
export const isLedThrough = ({ from, fedBy = [] }: Source, { circuits }: System): boolean =>
  from === "transformer" &&
  circuits.some((c) => c.current !== "DC" && c.conductors.some((k) => fedBy.includes(k.from) || fedBy.includes(k.to)));

/** What the alternating input of a charger is called: of a part that makes alternating current too it is not the part, which may give while its charger rests. */
export const chargerOf = ({ part }: Converter, { elements }: System): string =>
  elements.some((e) => e.is === "converter" && e.part === part && e.outCurrent === "AC") ? `${part}:charger` : part;
