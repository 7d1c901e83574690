import { cite, formula } from "../explain/index.ts";

/** Sums of an earth-fault loop, in the form in which a person does them. */

const laws = cite("circuit-laws", "", "derived");
const law = cite("iec-60364-4-41", "411.4.4", "derived");

/** What the supply has inside, from the least current that its site declares. */
export const insideOfSupply = formula(
  {
    id: "inside-of-supply",
    equation: "Re = U0 / Ipf",
    source: laws,
    symbols: {
      volts: { symbol: "U0", unit: "V", meaning: "line to earth" },
      amps: { symbol: "Ipf", unit: "A", meaning: "least prospective current" },
    },
    unit: "Ω",
  },
  ({ volts, amps }: { readonly volts: number; readonly amps: number }) => volts / amps,
);

/** Reactance of all conductors of a loop. */
export const reactanceOfLoop = formula(
  {
    id: "reactance",
    equation: "X = x · f / 50 · L",
    source: cite("trade-practice", "0.08 mΩ/m at 50 Hz", "practice"),
    symbols: {
      perMetre: { symbol: "x", unit: "Ω/m", meaning: "reactance of a metre at 50 Hz, whatever the size" },
      hertz: { symbol: "f", unit: "Hz", meaning: "frequency" },
      metres: { symbol: "L", unit: "m", meaning: "conductor in the loop, out and back" },
    },
    unit: "Ω",
  },
  (g: { readonly perMetre: number; readonly hertz: number; readonly metres: number }) =>
    g.perMetre * (g.hertz / 50) * g.metres,
);

/** Impedance of a loop. */
export const impedanceOfLoop = formula(
  {
    id: "impedance-of-loop",
    equation: "Zs = √(R² + X²)",
    source: laws,
    symbols: {
      r: { symbol: "R", unit: "Ω", meaning: "resistance of the loop" },
      x: { symbol: "X", unit: "Ω", meaning: "reactance of the loop" },
    },
    unit: "Ω",
  },
  ({ r, x }: { readonly r: number; readonly x: number }) => Math.hypot(r, x),
);

/** What surely flows. */
export const leastInLoop = formula(
  {
    id: "least-in-loop",
    equation: "Ik− = c · U0 / Zs",
    source: law,
    symbols: {
      share: { symbol: "c", unit: "", meaning: "share of the volts that may be reckoned with" },
      volts: { symbol: "U0", unit: "V", meaning: "line to earth" },
      ohms: { symbol: "Zs", unit: "Ω", meaning: "impedance of the loop, hot" },
    },
    unit: "A",
  },
  ({ share, volts, ohms }: { readonly share: number; readonly volts: number; readonly ohms: number }) =>
    (share * volts) / ohms,
);

/** What the loop may come to. */
export const mostOfLoop = formula(
  {
    id: "most-of-loop",
    equation: "Zmax = c · U0 / Ia",
    source: law,
    symbols: {
      share: { symbol: "c", unit: "", meaning: "share of the volts that may be reckoned with" },
      volts: { symbol: "U0", unit: "V", meaning: "line to earth" },
      amps: { symbol: "Ia", unit: "A", meaning: "opens the device in the time that is asked" },
    },
    unit: "Ω",
  },
  ({ share, volts, amps }: { readonly share: number; readonly volts: number; readonly amps: number }) =>
    (share * volts) / amps,
);

/** What a supply drives at most into a short. */
export const mostInShort = formula(
  {
    id: "most-in-short",
    equation: "Ik+ = U0 / √((Re + R)² + X²)",
    source: laws,
    symbols: {
      volts: { symbol: "U0", unit: "V", meaning: "line to neutral" },
      own: { symbol: "Re", unit: "Ω", meaning: "of the source, least" },
      r: { symbol: "R", unit: "Ω", meaning: "conductors to the device and home, cold" },
      x: { symbol: "X", unit: "Ω", meaning: "their reactance" },
    },
    unit: "A",
  },
  ({ volts, own, r, x }: { readonly volts: number; readonly own: number; readonly r: number; readonly x: number }) =>
    volts / Math.hypot(own + r, x),
);
