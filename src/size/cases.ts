import {
  mayWork,
  reachAlternating,
  storeVolts,
  suppliedIn,
  type GivenState,
  type Grid,
  type System,
} from "../system/index.ts";

/** How a converter stands in a case. */
export const CONVERTER = { off: 0, working: 1, atItsRating: 2 } as const;

/**
 * One condition of the whole build that is solved in full, as numbers by index of the grid's parts.
 *
 * - given: a state of the plan
 * - base: nothing on but what is always on, banks at their lowest; loads alone are laid over it
 * - rating: base, and one source at its rating (a maker of alternating current is a load alone)
 */
export interface Case {
  readonly kind: "given" | "base" | "rating";
  /** Name of the state, or of the part at its rating. */
  readonly name: string;
  readonly edgeOn: Uint8Array;
  /** Volts at rest, by store. */
  readonly storeVolts: Float64Array;
  readonly feedOn: Uint8Array;
  /** Amps that are asked for, by draw; 0: off. A draw of constant power asks for amps × the volts they are stated at. */
  readonly drawAmps: Float64Array;
  readonly converter: Uint8Array;
}

/**
 * The cases that are solved in full: the given states and the ratings of converters, whose inputs are loads that are judged; then the base, then
 * the other ratings.
 */
export function makeCases(system: System, grid: Grid): Case[] {
  const quiet = system.quiet ?? { on: [], positions: {} };
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));
  const edgeOn = (positions: GivenState["positions"]): Uint8Array =>
    Uint8Array.from(grid.edges, ({ contact }) => {
      if (contact?.closedIn === undefined) return 1;
      const position = positions[contact.part] ?? first.get(contact.part);
      return position !== undefined && contact.closedIn.includes(position) ? 1 : 0;
    });
  const charges = (charge: GivenState["charge"]): Float64Array =>
    Float64Array.from(grid.stores, ({ element }) =>
      storeVolts(element, charge[element.id]?.low ?? element.lowestCharge.low),
    );
  const reach = reachAlternating(system);
  const may = mayWork(system);
  const supplied = suppliedIn(system);

  const inverting = new Set(grid.draws.flatMap(({ element, inverter }) => (inverter === null ? [] : [element.part])));

  const given = system.states.map((state): Case => {
    const on = new Set(state.on);
    // Of an inverter that also charges, `on` says that it inverts.
    const isSupplied = supplied(state);
    const runs = (runsWith: string, part: string, input?: string): boolean =>
      (on.has(part) && !inverting.has(part)) ||
      (runsWith === "engine" && state.engine) ||
      (runsWith === "shore" && (input === undefined ? state.shore : isSupplied(input))) ||
      (runsWith === "sun" && state.sun);
    const watts = reach(state);
    return {
      kind: "given",
      name: state.id,
      edgeOn: edgeOn(state.positions),
      storeVolts: charges(state.charge),
      feedOn: Uint8Array.from(grid.feeds, ({ element }) => (runs(element.runsWith, element.part) ? 1 : 0)),
      drawAmps: Float64Array.from(grid.draws, ({ element, inverter }) => {
        if (inverter === null)
          return element.alwaysOn || on.has(element.part) ? (element.levels[0]?.amps.high ?? 0) : 0;
        const asked = watts.get(inverter.id);
        if (asked === undefined) return 0;
        return (inverter.idleWatts.high + asked / inverter.efficiency.low) / element.atVolts;
      }),
      converter: Uint8Array.from(grid.converters, ({ element }) =>
        (element.runsWith === "load" || runs(element.runsWith, element.part, element.inPlus)) && may(element, state)
          ? CONVERTER.working
          : CONVERTER.off,
      ),
    };
  });

  const base: Case = {
    kind: "base",
    name: "",
    edgeOn: edgeOn(quiet.positions),
    storeVolts: charges({}),
    feedOn: Uint8Array.from(grid.feeds, ({ element }) => (quiet.on.includes(element.part) ? 1 : 0)),
    drawAmps: Float64Array.from(grid.draws, ({ element }) =>
      element.alwaysOn ? (element.levels[0]?.amps.high ?? 0) : 0,
    ),
    converter: Uint8Array.from(grid.converters, ({ element }) =>
      element.runsWith === "load" ? CONVERTER.working : CONVERTER.off,
    ),
  };

  const judged: Case[] = [];
  const ratings: Case[] = [];
  grid.converters.forEach(({ element, in: input }, k) => {
    const converter = base.converter.slice();
    converter[k] = CONVERTER.atItsRating;
    // A tracking input is fed by its modules.
    const feedOn =
      element.input === "tracks"
        ? Uint8Array.from(grid.feeds, ({ element: feed }) => (feed.runsWith === "sun" ? 1 : 0))
        : base.feedOn;
    const list = input !== null && element.input === "as needed" ? judged : ratings;
    list.push({ ...base, kind: "rating", name: element.part, converter, feedOn });
  });
  grid.feeds.forEach(({ element }, f) => {
    // What holds its volts for all there is has no rating of its own.
    if (element.runsWith === "sun" || quiet.on.length > 0) return;
    const feedOn = base.feedOn.slice();
    feedOn[f] = 1;
    ratings.push({ ...base, kind: "rating", name: element.part, feedOn });
  });
  return [...given, ...judged, base, ...ratings];
}
