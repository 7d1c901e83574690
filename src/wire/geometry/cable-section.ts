import { cite, weakestTrust } from "../../explain/index.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import type {
  Assumption,
  CableSection,
  ConcentricGround,
  CoreRole,
  CoreSection,
  Outline,
  StrandsSection,
} from "./cable-section-shape.ts";
import { coreMarks, type CoreMark } from "./core-colours.ts";
import { groundSize } from "./ground-size.ts";
import { placeCores } from "./place-cores.ts";
import { placeStandIns, placeStrands } from "./place-strands.ts";
import { usualSheath, usualWall } from "./usual-wall.ts";
import { usualStrands } from "./usual-strands.ts";

/** More wires than this are not listed one by one: a drawing of a hand's width shows no more. */
const MOST_CIRCLES = 1400;

/** A core without its place. */
type LooseCore = Omit<CoreSection, "x" | "y">;

/**
 * A cut through a wire or cable as plain geometry in millimetres about its centre.
 *
 * Wires are round and not compacted, cores are laid up without fillers, and nothing is pressed out of shape: the drawing of a cable, not its tolerance.
 * What the label does not tell is taken from the usual make of its kind and told in `assumed`; a printed outside diameter wins over the usual one.
 * One of the `runs` is drawn.
 *
 * @param make as read from a label
 * @param options `mostCircles`: greatest number of wires listed in the whole section, 1400 where left out
 * @returns null where no size is stated: without one nothing is to scale
 * @accuracy conductors 3 %; insulation and sheath as the usual make, 10 to 20 % where nothing is printed
 * @source geometry; the walls and counts as each assumption names them
 * @example 12/2 NM-B
 * const nmB = { ...emptyMake, family: "building cable", size: { system: "AWG", name: "12", label: "12 AWG", areaMm2: 3.309, basis: "metal" }, cores: { insulated: 2, total: 3, ground: "bare", groundSize: null, others: [], paired: false } }
 * cableSection(nmB).cores.map((core) => core.role) //=> ["L", "N", "PE"]
 * cableSection(nmB).outline.is //=> "flat"
 */
export function cableSection(make: WireMake, options: { readonly mostCircles?: number } = {}): CableSection | null {
  const { size, cores } = make;
  if (size === null) return null;
  const assumed: Assumption[] = [];
  const sizes = coreSizes(make, size);
  const hasBare = cores?.ground === "bare";
  const most = Math.max(1, Math.floor((options.mostCircles ?? MOST_CIRCLES) / (sizes.length + (hasBare ? 1 : 0))));
  const { marks, isUsual } = coreMarks(make);
  if (isUsual) {
    const source = cite("trade-practice", "usual colours of the cores", "practice");
    assumed.push({ about: "colours", says: `usual colours of ${make.family ?? "cable"}`, trust: "practice", source });
  }
  // Cores of one size are alike but for their marks.
  const laid = new Map<PrintedSize, LooseCore>();
  const loose = sizes.map((own, i) => {
    const alike = laid.get(own) ?? looseCore(make, own, most, i === 0 ? assumed : null);
    laid.set(own, alike);
    const mark = marks[i] ?? null;
    return { ...alike, colour: mark?.colour ?? null, role: mark?.role ?? null, letters: lettersOf(mark) };
  });
  if (hasBare) loose.push(bareCore(make, groundSize(make, size, assumed), most));

  const [only] = loose;
  if (loose.length === 1 && only !== undefined && cores?.ground !== "concentric" && !isSheathed(make)) {
    const core = { ...only, x: 0, y: 0 };
    return finished({ is: "round", radius: core.insulationRadius }, 0, [core], null, assumed);
  }
  return isFlat(make, loose.length, assumed) ? flat(make, loose, assumed) : round(make, size, loose, assumed);
}

const finished = (
  outline: Outline,
  sheathMm: number,
  cores: readonly CoreSection[],
  concentric: ConcentricGround | null,
  assumed: readonly Assumption[],
): CableSection => ({
  outline,
  sheathMm,
  cores,
  concentric,
  assumed,
  trust: weakestTrust("derived", ...assumed.map(({ trust }) => trust)),
});

/** The size of each insulated core: those with a size of their own come last. */
function coreSizes({ cores }: WireMake, size: PrintedSize): readonly PrintedSize[] {
  const count = Math.max(1, cores?.insulated ?? 1);
  const others = (cores?.others ?? []).flatMap((other) => Array.from({ length: other.count }, () => other.size));
  const own = Math.max(0, count - others.length);
  return [...Array.from({ length: own }, () => size), ...others].slice(0, count);
}

const isSheathed = ({ type, family, cores }: WireMake): boolean =>
  cores !== null && cores.insulated === 1 && (family === "solar cable" || /^(H|A)0[57]R|^NY[MY]/.test(type ?? ""));

/** Strands of a conductor, real ones up to `most`, else fewer and thicker ones with the same metal. */
function strandsOf(make: WireMake, size: PrintedSize, most: number, assumed: Assumption[] | null) {
  const usual = usualStrands(make, size);
  if (usual.from !== null) assumed?.push({ about: "strands", ...usual.from });
  const wireRadius = Math.sqrt(size.areaMm2 / usual.count / Math.PI);
  const isEvery = usual.count <= most;
  const placed = isEvery
    ? placeStrands(usual.count, wireRadius, usual.isFine)
    : placeStandIns(usual.count, wireRadius, usual.isFine, most);
  const strands: StrandsSection = {
    count: usual.count,
    wireMm: 2 * wireRadius,
    lay: placed.lay,
    circles: placed.circles,
    isEvery,
  };
  return { strands, radius: placed.radius };
}

/** The letters of a colour with its tracers: `BK`, `BKWH`. */
const lettersOf = (mark: CoreMark | null): string => mark?.colour?.join("") ?? "";

const unmarked = { colour: null, role: null, letters: "" } as const;

/** @param assumed null: the same was said for the first core */
function looseCore(make: WireMake, size: PrintedSize, most: number, assumed: Assumption[] | null): LooseCore {
  const { strands, radius } = strandsOf(make, size, most, assumed);
  const isSingle = make.cores === null || make.cores.total === 1;
  const told = isSingle && !isSheathed(make) ? make.outsideMm : null;
  // The name of such cable is the diameter over the insulation of each of its wires.
  const over = told ?? (size.system === "vehicle diameter" ? Number(size.name) : null);
  let thickness: number;
  if (over !== null && over / 2 > radius) {
    thickness = over / 2 - radius;
  } else {
    const wall = usualWall(make, size);
    thickness = wall.mm;
    assumed?.push({ about: "insulation", says: wall.says, trust: wall.trust, source: wall.source });
    if (told !== null) assumed?.push(tooThin(told));
  }
  return {
    insulationRadius: radius + thickness,
    conductorRadius: radius,
    strands,
    isBare: false,
    sizeLabel: size.label,
    areaMm2: size.areaMm2,
    ...unmarked,
  };
}

const tooThin = (outsideMm: number): Assumption => ({
  about: "sheath",
  says: `the outside diameter told, ${outsideMm} mm, does not hold these conductors; the usual one is drawn`,
  trust: "derived",
  source: cite("own-derivation", "geometry", "derived"),
});

function bareCore(make: WireMake, size: PrintedSize, most: number): LooseCore {
  const { strands, radius } = strandsOf(make, size, most, null);
  const role: CoreRole = "PE";
  return {
    insulationRadius: radius,
    conductorRadius: radius,
    strands,
    isBare: true,
    sizeLabel: size.label,
    areaMm2: size.areaMm2,
    colour: null,
    role,
    letters: "",
  };
}

function isFlat({ form, family, type, cores }: WireMake, count: number, assumed: Assumption[]): boolean {
  if (form !== null) return form === "flat";
  if (count > 5) return false;
  const insulated = cores?.insulated ?? 1;
  const flat =
    family === "twin and earth" ||
    family === "japanese building cable" ||
    (family === "speaker cable" && insulated === 2) ||
    (family === "building cable" && (insulated === 2 || /^UF/.test(type ?? ""))) ||
    (family === "boat cable" && insulated === 2) ||
    /^SP|^(H|A)0[35]V+H/.test(type ?? "");
  const source = cite("trade-practice", "usual form of the cable", "practice");
  assumed.push({
    about: "form",
    says: flat ? "this kind is usually flat" : "this kind is usually round",
    trust: "practice",
    source,
  });
  return flat;
}

/** Side by side, a bare ground between the insulated cores; in the sheath there is one thickness all round. */
function flat(make: WireMake, loose: readonly LooseCore[], assumed: Assumption[]): CableSection {
  const order = loose.map((_, i) => i);
  if (loose.at(-1)?.isBare === true && loose.length > 2) {
    order.pop();
    order.splice(Math.ceil(order.length / 2), 0, loose.length - 1);
  }
  const width = loose.reduce((sum, core) => sum + 2 * core.insulationRadius, 0);
  const height = 2 * Math.max(...loose.map((core) => core.insulationRadius));
  const sheath = usualSheath(make, height);
  if (sheath.mm > 0) assumed.push({ about: "sheath", says: sheath.says, trust: sheath.trust, source: sheath.source });
  const places: number[] = [];
  let at = -width / 2;
  for (const i of order) {
    const radius = loose[i]?.insulationRadius ?? 0;
    places[i] = at + radius;
    at += 2 * radius;
  }
  const cores = loose.map((core, i): CoreSection => ({ ...core, x: places[i] ?? 0, y: 0 }));
  const outline: Outline = { is: "flat", width: width + 2 * sheath.mm, height: height + 2 * sheath.mm };
  return finished(outline, sheath.mm, cores, null, assumed);
}

/** Laid up round; all cores get the room of the thickest. */
function round(make: WireMake, size: PrintedSize, loose: readonly LooseCore[], assumed: Assumption[]): CableSection {
  const unit = Math.max(...loose.map((core) => core.insulationRadius));
  const { centres, factor } = placeCores(loose.length);
  const cores = loose.map((core, i): CoreSection => {
    const [x, y] = centres[i] ?? [0, 0];
    return { ...core, x: x * unit, y: y * unit };
  });
  const concentric = make.cores?.ground === "concentric" ? ring(make, size, unit * factor, assumed) : null;
  const bundle = concentric?.outerRadius ?? unit * factor;
  const outside = make.outsideMm;
  if (outside !== null && outside / 2 > bundle)
    return finished({ is: "round", radius: outside / 2 }, outside / 2 - bundle, cores, concentric, assumed);
  const sheath = usualSheath(make, 2 * bundle);
  if (sheath.mm > 0) assumed.push({ about: "sheath", says: sheath.says, trust: sheath.trust, source: sheath.source });
  if (outside !== null) assumed.push(tooThin(outside));
  return finished({ is: "round", radius: bundle + sheath.mm }, sheath.mm, cores, concentric, assumed);
}

/** Wires of a concentric ground: as many as lie round the cores with their own width between, at least 12 and at most 60. */
function ring(make: WireMake, size: PrintedSize, innerRadius: number, assumed: Assumption[]): ConcentricGround {
  const own = groundSize(make, size, assumed);
  // n wires of area A/n each take 2·√(A/πn) of the circumference; with gaps of the same width n·4·√(A/πn) = 2π·R.
  const count = Math.round(Math.min(60, Math.max(12, (Math.PI ** 3 * innerRadius ** 2) / (4 * own.areaMm2))));
  const wire = Math.sqrt(own.areaMm2 / count / Math.PI);
  // Where a thick ground leaves them no room side by side, the ring is wider.
  const middle = Math.max(innerRadius + wire, wire / Math.sin(Math.PI / count));
  const wires = Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return { x: middle * Math.cos(angle), y: middle * Math.sin(angle), radius: wire };
  });
  const source = cite("own-derivation", "a ring of wires with gaps as wide as a wire", "derived");
  assumed.push({ about: "ground", says: `concentric ground drawn as ${count} wires`, trust: "derived", source });
  return { innerRadius, outerRadius: middle + wire, wires, sizeLabel: own.label };
}
