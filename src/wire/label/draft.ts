import type { Span } from "../../diagnostic.ts";
import type { CableFamily, PrintedColour, PrintedSize, StrandingName } from "../make/wire-make.ts";
import type { TypeCode } from "../type/index.ts";
import type { LabelContext, LabelFact, OrderQuantity } from "./label-reading.ts";
import type { Facts, Option, Part } from "./part.ts";

/** A size as it stands in a label. */
export interface SizeThere {
  readonly size: PrintedSize;
  readonly vehicleSize: PrintedSize | null;
  readonly hash: boolean;
  readonly isUnitless: boolean;
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
  | "fit"
  | "hash"
  | "isUnitless"
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
  strandLay: "type",
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
  if (a.unit === b.unit) return a.value === b.value ? a : null;
  // `100 ft (30 m)`: rounded by whoever printed both.
  return a.metres !== null && b.metres !== null && Math.abs(a.metres / b.metres - 1) < 0.03 ? a : null;
}

/** Adds one fact; false where it contradicts what was said before. */
function addFact(draft: Draft, facts: Facts, name: keyof Facts): boolean {
  const value = facts[name];
  if (value === undefined) return true;
  switch (name) {
    case "size":
      if (facts.size !== undefined)
        draft.sizes.push({
          size: facts.size,
          vehicleSize: facts.vehicleSize ?? null,
          hash: facts.hash === true,
          isUnitless: facts.isUnitless === true,
          bare: facts.bare === true,
        });
      return true;
    case "vehicleSize":
    case "hash":
    case "isUnitless":
    case "bare":
      return true;
    case "family":
      if (facts.family !== undefined && !draft.families.includes(facts.family)) draft.families.push(facts.family);
      return true;
    case "maybeFamily":
      if (facts.maybeFamily !== undefined) draft.maybeFamilies.push(facts.maybeFamily);
      return true;
    case "type":
      if (facts.type !== undefined && !draft.types.includes(facts.type)) draft.types.push(facts.type);
      return true;
    case "coloursOrTracers":
      if (facts.coloursOrTracers !== undefined) draft.colours.push(facts.coloursOrTracers);
      return true;
    case "fit":
      if (facts.fit !== undefined) draft.fits.push(facts.fit);
      return true;
    case "strands":
      if (facts.strands !== undefined) draft.strands.push(facts.strands);
      return true;
    case "strandName": {
      const agreed = agreeOnStranding(draft.strandName, facts.strandName ?? null);
      draft.strandName = agreed;
      return agreed !== null;
    }
    case "quantity": {
      const agreed = facts.quantity === undefined ? draft.quantity : agreeOnQuantity(draft.quantity, facts.quantity);
      draft.quantity = agreed;
      return agreed !== null;
    }
    default: {
      const single: Record<string, unknown> = draft.single; // one name, one value: the type of each pair is that of the facts
      const before = single[name];
      if (before === undefined) single[name] = value;
      return before === undefined || before === value || mayDiffer(name);
    }
  }
}

/** Adds what a part says; false where it contradicts what was said before. */
function add(draft: Draft, { facts, fits, by, trap }: Option, span: Span): boolean {
  for (const each in facts) {
    const name = each as keyof Facts; // the names of a plain object of that type
    if (!addFact(draft, facts, name)) return false;
    const fact = FACT_OF[name];
    if (fact === undefined) continue;
    const spans = (draft.from[fact] ??= []);
    if (spans.at(-1) !== span) spans.push(span);
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
  name === "voltsSay" || name === "others" || name === "ground" || name === "fitting";

/** Puts one choice of readings together; null where they contradict one another. */
export function draftOf(parts: readonly Part[], choice: readonly number[], spans: readonly Span[]): Draft | null {
  const draft = empty();
  for (let index = 0; index < parts.length; index++) {
    const part = parts[index];
    const option = part?.options[choice[index] ?? 0];
    const span = spans[index];
    if (part === undefined || option === undefined || span === undefined) continue;
    if (!add(draft, option, span)) return null;
  }
  // Boats are not wired in aluminium: a triplex of it is a service drop.
  if (draft.single.metal === "aluminium" && draft.maybeFamilies.includes("boat cable"))
    return { ...draft, maybeFamilies: draft.maybeFamilies.filter((family) => family !== "boat cable") };
  return draft;
}
