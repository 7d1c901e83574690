import { cite, formula, type Citation } from "../explain/index.ts";

/** Sums that a design is made of, in the form in which a person does them. Each figure they give is held against the design's own by tests. */

const laws = cite("circuit-laws", "", "derived");
const arithmetic = cite("own-derivation", "", "derived");

/** Ohm's law for what flows between two points of a network. */
export const currentBetween = formula(
  {
    id: "current",
    equation: "I = ΔU / R",
    source: laws,
    symbols: {
      volts: { symbol: "ΔU", unit: "V", meaning: "volts between its ends" },
      ohms: { symbol: "R", unit: "Ω", meaning: "resistance" },
    },
    unit: "A",
  },
  ({ volts, ohms }: { readonly volts: number; readonly ohms: number }) => volts / ohms,
);

/** What is left at a load. */
export const voltsLeft = formula(
  {
    id: "volts-left",
    equation: "U = Us − ΔU",
    source: laws,
    symbols: {
      source: { symbol: "Us", unit: "V", meaning: "volts at the source" },
      lost: { symbol: "ΔU", unit: "V", meaning: "lost on the way, out and back" },
    },
    unit: "V",
  },
  ({ source, lost }: { readonly source: number; readonly lost: number }) => source - lost,
);

/** Volts at the terminals of a battery under load. */
export const batteryVolts = formula(
  {
    id: "battery-volts",
    equation: "Us = E − I · Ri",
    source: laws,
    symbols: {
      rest: { symbol: "E", unit: "V", meaning: "volts at rest" },
      amps: { symbol: "I", unit: "A", meaning: "current that it gives; negative while it is charged" },
      ohms: { symbol: "Ri", unit: "Ω", meaning: "resistance inside" },
    },
    unit: "V",
  },
  ({ rest, amps, ohms }: { readonly rest: number; readonly amps: number; readonly ohms: number }) => rest - amps * ohms,
);

/** A drop as a share of the nominal volts. */
export const shareOf = formula(
  {
    id: "share",
    equation: "u = 100 · ΔU / Un",
    source: arithmetic,
    symbols: {
      lost: { symbol: "ΔU", unit: "V", meaning: "lost" },
      nominal: { symbol: "Un", unit: "V", meaning: "what the percentage is taken of" },
    },
    unit: "%",
  },
  ({ lost, nominal }: { readonly lost: number; readonly nominal: number }) => (100 * lost) / nominal,
);

/** Current of a load of constant power. */
export const currentOfPower = formula(
  {
    id: "current-of-power",
    equation: "I = P / U",
    source: laws,
    symbols: {
      watts: { symbol: "P", unit: "W", meaning: "power" },
      volts: { symbol: "U", unit: "V", meaning: "volts that it then has" },
    },
    unit: "A",
  },
  ({ watts, volts }: { readonly watts: number; readonly volts: number }) => watts / volts,
);

/** Conductors side by side share a current. */
export const together = formula(
  {
    id: "in-parallel",
    equation: "Iz = n · I1",
    source: arithmetic,
    symbols: {
      count: { symbol: "n", unit: "", meaning: "conductors in parallel" },
      one: { symbol: "I1", unit: "A", meaning: "ampacity of one" },
    },
    unit: "A",
  },
  ({ count, one }: { readonly count: number; readonly one: number }) => count * one,
);

/** Steady load of a device. */
const leastRating = (source: Citation) =>
  formula(
    {
      id: "least-rating",
      equation: "In ≥ Ib / k",
      source,
      symbols: {
        amps: { symbol: "Ib", unit: "A", meaning: "greatest steady current" },
        share: { symbol: "k", unit: "", meaning: "share of its rating that a device is loaded with for hours" },
      },
      unit: "A",
    },
    ({ amps, share }: { readonly amps: number; readonly share: number }) => amps / share,
  );
/** By the American code, which asks for it. */
export const leastForSteady = leastRating(cite("nfpa-70-2023", "210.20", "practice"));
/** By custom, where the rule set is of elsewhere. */
export const leastForSteadyByCustom = leastRating(
  cite("trade-practice", "no more for hours than a device carries in its place", "practice"),
);

/** Resistance of a run of several conductors side by side. */
export const dividedBy = formula(
  {
    id: "divided",
    equation: "R = R1 / n",
    source: laws,
    symbols: {
      one: { symbol: "R1", unit: "Ω", meaning: "resistance of one" },
      count: { symbol: "n", unit: "", meaning: "conductors in parallel" },
    },
    unit: "Ω",
  },
  ({ one, count }: { readonly one: number; readonly count: number }) => one / count,
);

/** What an inverter takes from its bank. */
export const inverterPower = formula(
  {
    id: "inverter-power",
    equation: "P = P0 + Pac / η",
    source: arithmetic,
    symbols: {
      idle: { symbol: "P0", unit: "W", meaning: "taken when idle; its rating is counted without" },
      asked: { symbol: "Pac", unit: "W", meaning: "asked of it" },
      eta: { symbol: "η", unit: "", meaning: "efficiency" },
    },
    unit: "W",
  },
  ({ idle, asked, eta }: { readonly idle: number; readonly asked: number; readonly eta: number }) => idle + asked / eta,
);

/** Copper in the conductors of a circuit. */
export const copperOfCircuit = formula(
  {
    id: "copper",
    equation: "V = A · L",
    source: arithmetic,
    symbols: {
      areaMm2: { symbol: "A", unit: "mm²", meaning: "area of one conductor" },
      metres: { symbol: "L", unit: "m", meaning: "length of all its conductors" },
    },
    unit: "mm²·m",
  },
  ({ areaMm2, metres }: { readonly areaMm2: number; readonly metres: number }) => areaMm2 * metres,
);

/** What a short lets through, of what a conductor bears. */
export const shareBorne = formula(
  {
    id: "share-borne",
    equation: "p = 100 · Q / Qmax",
    source: arithmetic,
    symbols: {
      through: { symbol: "Q", unit: "A²s", meaning: "∫ I² dt that flows through it" },
      limit: { symbol: "Qmax", unit: "A²s", meaning: "k² S² that it bears" },
    },
    unit: "%",
  },
  ({ through, limit }: { readonly through: number; readonly limit: number }) => (100 * through) / limit,
);

/** What is used of a limit, or had of what is asked for. */
export const shareOfLimit = formula(
  {
    id: "share-of-limit",
    equation: "p = 100 · x / X",
    source: arithmetic,
    symbols: {
      is: { symbol: "x", unit: "", meaning: "what it is" },
      limit: { symbol: "X", unit: "", meaning: "what it may be at most, or has to be at least" },
    },
    unit: "%",
  },
  ({ is, limit }: { readonly is: number; readonly limit: number }) => (100 * is) / limit,
);

/** A short at a device's terminals as it comes through the device, itself a plain link. */
export const throughPlainLink = formula(
  {
    id: "through-plain-link",
    equation: "I = U / (U / I1 − R)",
    source: laws,
    symbols: {
      volts: { symbol: "U", unit: "V", meaning: "highest volts of its system" },
      amps: { symbol: "I1", unit: "A", meaning: "greatest through it, its own resistance counted" },
      ohms: { symbol: "R", unit: "Ω", meaning: "its own resistance, cold" },
    },
    unit: "A",
  },
  ({ volts, amps, ohms }: { readonly volts: number; readonly amps: number; readonly ohms: number }) =>
    volts / (volts / amps - ohms),
);

/** A share of a bank's current. */
export const shareOfBank = formula(
  {
    id: "share-of-bank",
    equation: "p = 100 · I1 / I",
    source: arithmetic,
    symbols: {
      one: { symbol: "I1", unit: "A", meaning: "what one battery gives" },
      all: { symbol: "I", unit: "A", meaning: "what the bank gives" },
    },
    unit: "%",
  },
  ({ one, all }: { readonly one: number; readonly all: number }) => (100 * one) / all,
);

/** The model beside the table. */
export const modelOverTable = formula(
  {
    id: "model-over-table",
    equation: "r = Im / It",
    source: arithmetic,
    symbols: {
      model: { symbol: "Im", unit: "A", meaning: "ampacity by the balance of heat" },
      table: { symbol: "It", unit: "A", meaning: "ampacity by the table and its factors" },
    },
    unit: "",
  },
  ({ model, table }: { readonly model: number; readonly table: number }) => model / table,
);
