import type { Span } from "../../diagnostic.ts";
import type { CableFamily, PrintedColour, PrintedSize, StrandingName } from "../make/wire-make.ts";
import type { TypeCode } from "../type/index.ts";
import type { LabelContext, LabelFact, OrderQuantity } from "./label-reading.ts";
import type { Facts, Option, Part } from "./part.ts";

/** A size as it stands in a label. */
export interface SizeThere {
  readonly size: PrintedSize;
  readonly vehicleSize: PrintedSize | null;
  readonly bracketed: boolean;
  readonly hash: boolean;
  readonly bare: boolean;
}

/** Facts of which a label has one. */
type Single = Omit<
  Facts,
  | "family"
  | "maybeFamily"
  | "size"
  | "vehicleSize"
  | "type"
  | "coloursOrTracers"
  | "colours"
  | "fit"
  | "hash"
  | "bare"
  | "quantity"
  | "strandName"
  | "strands"
>;

/** One choice among the ways to read each part, put together. */
export interface Draft {
  readonly single: { -readonly [Name in keyof Single]?: Single[Name] };
  readonly sizes: SizeThere[];
  readonly strands: PrintedSize[];
  readonly families: CableFamily[];
  readonly maybeFamilies: CableFamily[];
  readonly types: TypeCode[];
  readonly colours: PrintedColour[];
  readonly fits: NonNullable<Facts["fit"]>[];
  strandName: StrandingName | null;
  quantity: OrderQuantity | null;
  readonly from: Partial<Record<LabelFact, Span[]>>;
  readonly by: string[];
  readonly traps: string[];
  /** Contexts that the reading is at home in; null: in all. */
  home: readonly LabelContext[] | null;
}

const empty = (): Draft => ({
  single: {},
  sizes: [],
  strands: [],
  families: [],
  maybeFamilies: [],
  types: [],
  colours: [],
  fits: [],
  strandName: null,
  quantity: null,
  from: {},
  by: [],
  traps: [],
  home: null,
});

/** The fact of a make that a piece of information belongs to. */
const FACT_OF: Readonly<Partial<Record<keyof Facts, LabelFact>>> = {
  family: "family",
  maybeFamily: "family",
  size: "size",
  strands: "stranding",
  wires: "stranding",
  strandName: "stranding",
  count: "cores",
  ground: "cores",
  groundSize: "cores",
  paired: "cores",
  runs: "runs",
  metal: "metal",
  plating: "plating",
  type: "type",
  volts: "volts",
  temperatureC: "temperatureC",
  wetTemperatureC: "temperatureC",
  fit: "fitness",
  coloursOrTracers: "colours",
  form: "form",
  outsideMm: "outsideMm",
  quantity: "quantity",
};

/** Names that may stand for a more exact one. */
const isVaguer = (vague: StrandingName, exact: StrandingName): boolean =>
  (vague === "stranded" && exact !== "solid" && exact !== "class 1") || (vague === "solid" && exact === "class 1");

/** The more exact of two names; null where they contradict each other. */
export function agreeOnStranding(a: StrandingName | null, b: StrandingName | null): StrandingName | null {
  if (a === null || a === b) return b;
  if (b === null || isVaguer(b, a)) return a;
  return isVaguer(a, b) ? b : null;
}

function agreeOnQuantity(a: OrderQuantity | null, b: OrderQuantity): OrderQuantity | null {
  if (a === null) return b;
  // `250 ft reel`: the length of the one reel.
  if (b.unit === "reel" && b.value === 1 && a.metres !== null) return a;
  if (a.unit === "reel" && a.value === 1 && b.metres !== null) return b;
  const same = a.metres !== null && b.metres !== null && Math.abs(a.metres / b.metres - 1) < 0.03; // rounded by whoever printed both
  return same || (a.unit === b.unit && a.value === b.value) ? a : null;
}

/** Adds what a part says; false where it contradicts what was said before. */
function add(draft: Draft, { facts, fits, by, trap }: Option, part: Part, span: Span): boolean {
  for (const name in facts) {
    const key = name as keyof Facts; // the names of a plain object of that type
    const fact = FACT_OF[key];
    if (fact !== undefined) (draft.from[fact] ??= []).push(span);
  }
  const {
    family,
    maybeFamily,
    size,
    vehicleSize,
    type,
    coloursOrTracers,
    colours,
    fit,
    hash,
    bare,
    quantity,
    strandName,
    strands,
    ...single
  } = facts;
  if (family !== undefined && !draft.families.includes(family)) draft.families.push(family);
  if (maybeFamily !== undefined) draft.maybeFamilies.push(maybeFamily);
  if (type !== undefined && !draft.types.includes(type)) draft.types.push(type);
  if (coloursOrTracers !== undefined) draft.colours.push(coloursOrTracers);
  if (colours !== undefined) draft.colours.push(...colours);
  if (fit !== undefined) draft.fits.push(fit);
  if (strands !== undefined) draft.strands.push(strands);
  if (size !== undefined)
    draft.sizes.push({
      size,
      vehicleSize: vehicleSize ?? null,
      bracketed: part.bracketed,
      hash: hash === true,
      bare: bare === true,
    });
  if (strandName !== undefined) {
    const agreed = agreeOnStranding(draft.strandName, strandName);
    if (agreed === null) return false;
    draft.strandName = agreed;
  }
  if (quantity !== undefined) {
    const agreed = agreeOnQuantity(draft.quantity, quantity);
    if (agreed === null) return false;
    draft.quantity = agreed;
  }
  const so: Record<string, unknown> = draft.single;
  for (const [name, value] of Object.entries(single)) {
    const before = so[name];
    if (before === undefined) so[name] = value;
    else if (before !== value && !mayDiffer(name)) return false;
  }
  if (by !== undefined && !draft.by.includes(by)) draft.by.push(by);
  if (trap !== undefined && !draft.traps.includes(trap)) draft.traps.push(trap);
  if (fits !== undefined) {
    const home = draft.home;
    draft.home = home === null ? fits : home.filter((context) => fits.includes(context));
  }
  return true;
}

/** Facts that a label may tell twice in other words. */
const mayDiffer = (name: string): boolean =>
  name === "voltsSay" || name === "others" || name === "ground" || name === "groundKind" || name === "fitting";

/** Puts one choice of readings together; null where they contradict one another. */
export function draftOf(parts: readonly Part[], choice: readonly number[], spanOf: (part: Part) => Span): Draft | null {
  const draft = empty();
  for (const [index, part] of parts.entries()) {
    const option = part.options[choice[index] ?? 0];
    if (option !== undefined && !add(draft, option, part, spanOf(part))) return null;
  }
  return draft;
}
