import type { CableFamily, Fitness, PrintedColour, Stranding, WireMake } from "../make/wire-make.ts";
import { readTypeCode, type TypeCode } from "../type/index.ts";
import { decideCores } from "./decide-cores.ts";
import { decideSize } from "./decide-size.ts";
import { agreeOnStranding, type Draft } from "./draft.ts";
import { exactLabel } from "./exact-label.ts";
import type { LabelContext, WireReading } from "./label-reading.ts";
import { sayReading } from "./say-reading.ts";

/** A reading with what narrows it. */
export interface Candidate {
  readonly reading: WireReading;
  /** Contexts that it is at home in; null: in all. */
  readonly home: readonly LabelContext[] | null;
  /** Its parts do not fit as well as parts of one label should. */
  readonly disagrees: boolean;
}

/** The kind of cable that the label names; undefined: it names two. */
export function namedFamily(draft: Draft): CableFamily | null | undefined {
  const all: CableFamily[] = [];
  for (const { family } of draft.types) if (family !== null && !all.includes(family)) all.push(family);
  // The cores of a cable have a type as well: TC-ER of THHN.
  const byType = all.length > 1 ? all.filter((family) => family !== "building wire") : all;
  if (byType.length > 1) return undefined;
  const [type] = byType;
  const [first, ...others] = draft.families;
  if (type === undefined) return others.length > 0 && counts(draft) ? undefined : (first ?? null);
  const contradicts = draft.families.some((family) => family !== type);
  return contradicts && counts(draft) ? undefined : type;
}

/** Whether it matters what a number of conductors counts. */
const counts = (draft: Draft): boolean => draft.single.countByFamily === true;

const greatest = (values: readonly (number | null)[]): number | null =>
  values.reduce((most, value) => (value === null ? most : most === null ? value : Math.max(most, value)), null);

function decideStranding(draft: Draft): Stranding | null | undefined {
  const byType = draft.types.map(({ stranding }) => stranding?.name ?? null).find((name) => name !== null) ?? null;
  const name =
    draft.strandName === null || byType === null
      ? (draft.strandName ?? byType)
      : agreeOnStranding(draft.strandName, byType);
  if (name === null && draft.strandName !== null && byType !== null) return undefined;
  const { wires = null, wireMm = null } = draft.single;
  return name === null && wires === null ? null : { name, wires, wireMm };
}

function decideFitness(draft: Draft): Fitness {
  const of = (fit: keyof Fitness): boolean | null => {
    if (draft.fits.includes(fit)) return true;
    const told = draft.types.map(({ fitness }) => fitness[fit]);
    return told.includes(true) ? true : told.includes(false) ? false : null;
  };
  return { wet: of("wet"), oil: of("oil"), sun: of("sun"), flame: of("flame"), flexible: of("flexible") };
}

/** Base and tracer, or the cores one after the other. One colour on a cable of several cores is that of its sheath. */
function decideColours(colours: readonly PrintedColour[], cores: number): readonly PrintedColour[] {
  const [only] = colours;
  if (cores < 2 || only === undefined) return colours;
  if (colours.length === cores) return colours;
  const apart = colours.flat();
  const joined = apart.flatMap((letters, index): PrintedColour[] => {
    if (letters === "YE" && apart[index - 1] === "GN") return [];
    return [letters === "GN" && apart[index + 1] === "YE" ? ["GNYE"] : [letters]];
  });
  if (colours.length > 1) return joined.length === cores ? joined : colours;
  const parts: readonly PrintedColour[] =
    only[0] === "GNYE" && cores === 2 ? [["GN"], ["YE"]] : only.map((letters): PrintedColour => [letters]);
  return parts.length === cores ? parts : [];
}

const codesOf = (types: readonly TypeCode[]): string | null =>
  types.length === 0 ? null : types.map(({ code }) => code).join("/");

/** `FLRY 1.5-A`: the lay of the strands belongs to the type. */
const withLay = (type: TypeCode, lay = ""): TypeCode => readTypeCode(`${type.code}-${lay}`) ?? type;

/** Every make that a choice of readings comes to; none where its parts contradict one another. */
export function makesOf(draft: Draft, context: LabelContext | null): readonly Candidate[] {
  const named = namedFamily(draft);
  const stranding = decideStranding(draft);
  if (named === undefined || stranding === undefined) return [];
  const { single } = draft;
  const types =
    single.strandLay === undefined ? draft.types : draft.types.map((type) => withLay(type, single.strandLay));
  const first = types[0] ?? null;
  const candidates: Candidate[] = [];
  for (const decidedSize of decideSize(draft, named, context)) {
    const sized = decidedSize.size;
    for (const decided of decideCores(draft, named, sized, context)) {
      const hinted = draft.maybeFamilies.find((family) => family === "boat cable") ?? draft.maybeFamilies[0] ?? null;
      const printed = single.volts;
      const make: WireMake = {
        family: decided.family ?? hinted,
        size: sized,
        cores: decided.cores,
        runs: single.runs ?? 1,
        stranding,
        metal: single.metal ?? types.find(({ metal }) => metal !== null)?.metal ?? null,
        plating: single.plating ?? types.find(({ plating }) => plating !== null)?.plating ?? null,
        type: codesOf(types),
        volts: printed ?? greatest(types.map(({ volts }) => volts)),
        voltsSay: single.voltsSay ?? first?.voltsSay ?? null,
        temperatureC: single.temperatureC ?? greatest(types.map(({ temperatureC }) => temperatureC)),
        wetTemperatureC: single.wetTemperatureC ?? greatest(types.map(({ wetTemperatureC }) => wetTemperatureC)),
        fitness: decideFitness(draft),
        colours: decideColours(draft.colours, decided.cores?.insulated ?? single.runs ?? 1),
        form: single.form ?? types.find(({ form }) => form !== null)?.form ?? null,
        outsideMm: single.outsideMm ?? null,
      };
      candidates.push({
        home: meet(draft.home, meet(decidedSize.home, decided.home)),
        disagrees: decidedSize.disagrees,
        reading: {
          make,
          quantity: draft.quantity,
          from: types.length === 0 ? draft.from : withType(draft.from, make),
          by: [...draft.by, ...decidedSize.by, ...decided.by],
          says: sayReading(make, draft.quantity),
          exactLabel: exactLabel(make, draft.from),
          traps: [
            ...decidedSize.traps,
            ...decided.traps,
            ...draft.traps,
            ...metalTraps(make),
            ...types.flatMap(({ traps }) => traps),
          ],
        },
      });
    }
  }
  return candidates;
}

/** Facts that follow from the type point at its letters where nothing else says them. */
function withType(from: WireReading["from"], make: WireMake): WireReading["from"] {
  const { type } = from;
  if (type === undefined) return from;
  const more: { -readonly [Fact in keyof WireReading["from"]]: WireReading["from"][Fact] } = { ...from };
  for (const fact of BY_TYPE) if (make[fact] !== null) more[fact] ??= type;
  const { wet, oil, sun, flame, flexible } = make.fitness;
  if ((wet ?? oil ?? sun ?? flame ?? flexible) !== null) more.fitness ??= type;
  return more;
}
const BY_TYPE = ["family", "cores", "stranding", "metal", "plating", "volts", "temperatureC", "form"] as const;

const metalTraps = ({ metal, size }: WireMake): readonly string[] => {
  if (metal === "copper-clad aluminium")
    return [
      `copper-clad aluminium has about the resistance of copper two gauge numbers thinner${size === null ? "" : `: ${size.label} of it is no ${size.label} of copper`}`,
    ];
  return metal === "aluminium" ? ["aluminium has 1.6 times the resistance of copper of the same size"] : [];
};

type Home = readonly LabelContext[] | null;
const meet = (a: Home, b: Home): Home => (a === null ? b : b === null ? a : a.filter((context) => b.includes(context)));
