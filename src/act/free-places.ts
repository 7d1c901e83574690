import type { Build, PartView } from "../rules/build.ts";
import type { InternalElement } from "../system/index.ts";
import type { FreePlace, FullPanel } from "./free-place.ts";
import type { CompiledPlan } from "./stand.ts";

/**
 * Where a load can be added: free ways of panels, then bars that carry a live pole, in the order of the plan; batteries where there is
 * neither. Beside them the panels that have ways and none left.
 */
export function freePlaces(compiled: CompiledPlan): {
  readonly places: readonly FreePlace[];
  readonly full: readonly FullPanel[];
} {
  return placesIn(standOf(compiled));
}

/** What of a build says where places are. */
interface Stand {
  readonly parts: readonly Pick<PartView, "id" | "part" | "elements">[];
  readonly circuits: readonly Pick<Build["circuits"][number], "id" | "circuit">[];
  readonly part: (id: string) => Pick<PartView, "part"> | undefined;
}

/** A page has it before the rules and what they look at are there. */
function standOf({ system }: CompiledPlan): Stand {
  const byId = new Map(
    system.parts.map((part) => [part.id, { id: part.id, part, elements: [] as InternalElement[] }]), // filled below
  );
  for (const e of system.elements) byId.get(e.part)?.elements.push(e);
  return {
    parts: [...byId.values()],
    circuits: system.circuits.map((circuit) => ({ id: circuit.id, circuit })),
    part: (id) => byId.get(id),
  };
}

export function placesIn(build: Stand): { readonly places: readonly FreePlace[]; readonly full: readonly FullPanel[] } {
  const taken = waysTaken(build);
  const boards: FreePlace[] = [];
  const bars: FreePlace[] = [];
  const full: FullPanel[] = [];
  for (const view of build.parts) {
    const { id, part } = view;
    if (part.traits.distributes !== true) continue;
    const ways = waysOf(view);
    const common = { part: id, name: part.name, current: part.current, supply: part.supply ?? null } as const;
    if (ways.length > 0) {
      const free = ways.filter((way) => !taken.has(`${id}\n${way}`));
      if (free.length === 0) full.push({ part: id, name: part.name, ways: ways.length });
      const device = part.wayDevice ?? "breaker";
      boards.push(...free.map((way): FreePlace => ({ ...common, at: `parts.${id}:${way}`, way, device })));
    } else if (part.current === "DC" && isLive(build, id)) {
      bars.push({ ...common, at: `parts.${id}`, way: null, device: "fuse" });
    }
  }
  if (boards.length + bars.length > 0) return { places: [...boards, ...bars], full };
  const stores = build.parts
    .filter(({ part }) => part.traits.store === true)
    .map(({ id, part }): FreePlace => ({
      at: `parts.${id}`,
      part: id,
      name: part.name,
      way: null,
      current: "DC",
      supply: part.supply ?? null,
      device: "fuse",
    }));
  return { places: stores, full };
}

/** Ways of a panel as its kind lays them out. */
export const waysOf = ({ elements }: Pick<PartView, "elements">): readonly string[] => [
  ...new Set(elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.way] : []))),
];

/** Circuit that stands on each way, by part and way. */
export function waysTaken(build: Pick<Stand, "circuits">): ReadonlyMap<string, string> {
  return new Map(
    build.circuits.flatMap(({ id, circuit: { from, to } }) =>
      [from, to].map(({ part, port }) => [`${part}\n${port}`, id] as const),
    ),
  );
}

/** A bar on which a live pole lands, and no solar module: there volts come and go. */
function isLive(build: Stand, id: string): boolean {
  const ends = build.circuits.filter(({ circuit: { from, to } }) => from.part === id || to.part === id);
  const isSolar = ({ circuit: { from, to } }: (typeof ends)[number]): boolean =>
    [from, to].some(({ part }) => build.part(part)?.part.traits.solar === true);
  if (ends.some(isSolar)) return false;
  return ends.some(({ circuit }) =>
    circuit.conductors.some(({ role, from, to }) => role === "live" && [from, to].some((t) => t.startsWith(`${id}:`))),
  );
}
