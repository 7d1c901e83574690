import { deviceFamily, readDeviceFamily, type DeviceFamilyId } from "../device/index.ts";
import { textAt, type Edit, type Path } from "../plan/text/index.ts";
import type { Build, CircuitView } from "../rules/index.ts";
import { applianceLimitAt } from "../size/index.ts";
import type { Case } from "./case.ts";
import { put, textOf } from "./write.ts";

/** A protective device of a circuit and where the plan speaks of it. */
export interface WrittenDevice {
  readonly circuit: CircuitView;
  readonly end: "from" | "to";
  readonly kind: "fuse" | "breaker";
  readonly ratingA: number | null;
  readonly family: DeviceFamilyId | null;
  /** The plan names its family, or it is proposed: another rating stays in that family. */
  readonly named: boolean;
  /** From its end, m. */
  readonly distanceM: number;
  /** The part that is the device. */
  readonly part: string | null;
  /** Where its words stand; null: it is proposed, no words do. */
  readonly path: Path | null;
  readonly words: string | null;
  /** What its load asks for at least, A. */
  readonly leastA: number;
  /** What the rule set allows at most, A; null: it cannot be told. */
  readonly mostA: number | null;
  /** What the maker of its load allows at most, A; null: nothing is stated. */
  readonly makerA: number | null;
}

/** Devices of a circuit, those that are proposed among them. */
export function devicesIn(
  { document, build }: Pick<Case, "document" | "build">,
  circuit: CircuitView,
): readonly WrittenDevice[] {
  const placed = circuit.devices?.devices ?? [];
  return placed.map((d, i): WrittenDevice => {
    const { given } = d;
    const said = given?.span === undefined ? null : textAt(document, given.span[0]);
    const part = given?.part ?? null;
    const path: Path | null =
      part !== null ? ["parts", part, "rated"] : said === null || said.isName ? null : said.path;
    const own = circuit.design.devices[i];
    return {
      circuit,
      end: d.end,
      kind: given?.kind ?? (d.family === null ? "fuse" : deviceFamily(d.family).kind),
      ratingA: d.rating,
      family: d.family,
      named: given === null || given.family !== undefined,
      distanceM: d.distance,
      part,
      path,
      words: path === null ? null : textOf(document, path),
      leastA: d.least,
      mostA: own?.mostA ?? null,
      makerA: makerAllows(build, circuit, d.end),
    };
  });
}

/** The largest device that the maker of what a circuit feeds allows at an end of it, A; null: nothing is stated. */
export const makerAllows = ({ settled }: Build, { model }: CircuitView, end: "from" | "to"): number | null =>
  model === null ? null : (applianceLimitAt(settled.model, model, end)?.amps ?? null);

const RATING = /\d[\d.,]*\s*(?:mA|A|amps?|amperes?)(?![a-z])/i;

/** Writes another rating for a device, or writes down one that is proposed. */
export function writeRating({ document }: Pick<Case, "document">, device: WrittenDevice, amps: number): Edit | null {
  const { circuit, kind, end, path, words, family } = device;
  if (path === null) {
    if (circuit.circuit.devices !== "propose") return null;
    return put(document, ["circuits", circuit.id, kind], deviceWords(amps, family, circuit.circuit[end].part));
  }
  if (device.part !== null) return put(document, path, `${amps} A`);
  if (words === null || !RATING.test(words)) return null;
  return { do: "set", path, value: words.replace(RATING, `${amps} A`) };
}

/** Ratings on sale that may stand where a device does, ascending. */
export function ratingsFor({
  family,
  kind,
  named,
}: Pick<WrittenDevice, "family" | "kind" | "named">): readonly number[] {
  if (named && family !== null) return deviceFamily(family).standardRatings;
  const all = UNNAMED[kind].flatMap((id) => deviceFamily(id).standardRatings);
  return [...new Set<number>(all)].sort((a, b) => a - b);
}

/** Families that a device without a name is taken for, by its rating. */
const UNNAMED = {
  fuse: ["blade_type_C", "strip_SF30", "strip_SF51"],
  breaker: ["thermal_breaker", "surface_breaker"],
} as const satisfies Record<string, readonly DeviceFamilyId[]>;

const isTakenFor = (amps: number, family: DeviceFamilyId): boolean =>
  family === "thermal_breaker" || (family === "blade_type_C" && amps <= 40) || (family === "strip_SF30" && amps > 40);

/** A device as it is written in the line of its circuit; its family only where it would not be taken for that. */
export function deviceWords(amps: number, family: DeviceFamilyId | null, at: string): string {
  const words = family === null || isTakenFor(amps, family) ? "" : ` ${familyWords(family)}`;
  return `${amps} A${words} at ${at}`;
}

/** A family as it is written in the line of a circuit: without the word for its kind, which the key says. */
function familyWords(family: DeviceFamilyId): string {
  const { name } = deviceFamily(family);
  const short = name.replace(/\s+(?:fuse|breaker)$/i, "");
  return readDeviceFamily(short) === family ? short : name;
}
