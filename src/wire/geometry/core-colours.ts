import type { CoreRole } from "./cable-section-shape.ts";
import type { PrintedColour, WireMake } from "../make/wire-make.ts";

/** Colour and purpose of a core; null: not known. */
export interface CoreMark {
  readonly colour: PrintedColour | null;
  readonly role: CoreRole | null;
}

const mark = (colour: string, role: CoreRole | null): CoreMark => ({ colour: [colour], role });
const L = (colour: string): CoreMark => mark(colour, "L");
const N = (colour: string): CoreMark => mark(colour, "N");
const PE = mark("GNYE", "PE");
const green = mark("GN", "PE");

/** Usual colours by number of insulated cores. American and small-craft practice; HD 308 for the European ones. */
const american: readonly (readonly CoreMark[])[] = [[], [L("BK")], [L("BK"), N("WH")], [L("BK"), L("RD"), N("WH")]];
const cord: readonly (readonly CoreMark[])[] = [
  [],
  [L("BK")],
  [L("BK"), N("WH")],
  [L("BK"), N("WH"), green],
  [L("BK"), L("RD"), N("WH"), green],
];
const boat: readonly (readonly CoreMark[])[] = [[], [], [mark("RD", "+"), mark("YE", "−")], [L("BK"), N("WH"), green]];
const withGround: readonly (readonly CoreMark[])[] = [
  [],
  [],
  [],
  [L("BN"), N("BU"), PE],
  [L("BN"), L("BK"), L("GY"), PE],
  [L("BN"), L("BK"), L("GY"), N("BU"), PE],
];
const without: readonly (readonly CoreMark[])[] = [
  [],
  [],
  [L("BN"), N("BU")],
  [L("BN"), L("BK"), L("GY")],
  [L("BN"), L("BK"), L("GY"), N("BU")],
];

/** Usual colours of the insulated cores of a cable; null where none are usual. */
function usualMarks({ family, cores }: WireMake): readonly CoreMark[] | null {
  const count = cores?.insulated ?? 1;
  if (count === 1 || cores?.paired === true) return null;
  switch (family) {
    case "building cable":
      return american[count] ?? null;
    case "flexible cord":
      return cord[count] ?? null;
    case "boat cable":
      return boat[count] ?? null;
    case "harmonised cable":
    case "twin and earth":
      return (cores?.ground === "insulated" ? withGround : without)[count] ?? null;
    default:
      return null;
  }
}

/**
 * Colour and purpose of each insulated core, in their order.
 *
 * Colours that the label gives win, and of these only green-yellow tells a purpose: a colour alone tells none. Without them the usual colours of the
 * kind of cable are taken, and with them the purposes that go with it; that is said by `isUsual`.
 *
 * @returns one an insulated core; no more than `isUsual` says that they were not printed
 */
export function coreMarks(make: WireMake): { readonly marks: readonly CoreMark[]; readonly isUsual: boolean } {
  const count = make.cores?.insulated ?? 1;
  if (make.colours.length > 0) {
    const marks = Array.from({ length: count }, (_, i): CoreMark => {
      const colour = make.colours[i] ?? null;
      return { colour, role: colour?.[0] === "GNYE" ? "PE" : null };
    });
    return { marks, isUsual: false };
  }
  const usual = usualMarks(make);
  if (usual !== null && usual.length === count) return { marks: usual, isUsual: true };
  const blank: CoreMark = { colour: null, role: null };
  // What is known all the same: one core of a cable with an insulated ground is the ground, and is the last.
  const marks = Array.from({ length: count }, (_, i) =>
    count > 1 && make.cores?.ground === "insulated" && i === count - 1 ? { colour: null, role: "PE" as const } : blank,
  );
  return { marks, isUsual: false };
}
