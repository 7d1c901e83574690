import type { LabelContext, WireReading } from "../../src/wire/index.ts";

/**
 * A slow and plain look at a label that was read exactly: whether anything in it speaks against the reading.
 *
 * It knows nothing of the grammar of labels: it takes single figures and words, and asks whether the reading accounts for them.
 *
 * @returns what speaks against it; null: nothing
 */
export function refute(text: string, { make, quantity }: WireReading, context: LabelContext | null): string | null {
  const plain = text
    .normalize("NFKC")
    .replace(/[⁄∕]/g, "/")
    .replace(/[‐-―−]/g, "-")
    .replace(/[×хX]/g, "x")
    // The square of a unit is no number of its own.
    .replace(/mm ?\^?2(?!\d)/gi, "mm")
    .replace(/\s+/g, " ");
  return (
    figuresLost(plain, make, quantity) ??
    wrongUnit(plain, make) ??
    wrongMetal(plain, make) ??
    guessedCores(plain, make, context)
  );
}

type Make = WireReading["make"];

/** Each number of the text must be somewhere in the reading. */
function figuresLost(plain: string, make: Make, quantity: WireReading["quantity"]): string | null {
  const known = new Set<number>();
  const add = (...values: readonly (number | null | undefined)[]): void => {
    for (const value of values) if (value !== null && value !== undefined) known.add(Number(value.toPrecision(6)));
  };
  const figures = (written: string | null | undefined): void => {
    for (const found of (written ?? "").replaceAll(",", ".").matchAll(/\d+(?:\.\d+)?/g)) add(Number(found[0]));
  };
  figures(make.size?.name);
  figures(make.size?.label);
  figures(make.cores?.groundSize?.name);
  figures(make.type);
  figures(make.voltsSay);
  figures(make.stranding?.name);
  for (const { size } of make.cores?.others ?? []) figures(size.name);
  add(
    make.size?.areaMm2,
    make.volts,
    make.temperatureC,
    make.wetTemperatureC,
    make.outsideMm,
    make.runs,
    quantity?.value,
    make.cores?.insulated,
    make.cores?.total,
  );
  add(make.stranding?.wires, make.stranding?.wireMm, make.cores?.groundSize?.areaMm2);
  if (make.cores?.paired === true) add(2, make.cores.insulated / 2);
  if (make.temperatureC !== null) add(Math.round(make.temperatureC * 1.8 + 32));
  // The gauge of a strand, and a rope's two counts.
  for (let gauge = 20; gauge <= 40; gauge++)
    if (Math.abs((make.stranding?.wireMm ?? 0) / (0.127 * 92 ** ((36 - gauge) / 39)) - 1) < 1e-3) add(gauge);
  for (const [, ropes, strands] of plain.matchAll(/(\d+)x(\d+)\//g))
    if (Number(ropes) * Number(strands) === make.stranding?.wires) add(Number(ropes), Number(strands));
  // Standards, and the screws of terminals.
  if (/ring/.test(plain)) for (const [, screw] of plain.matchAll(/#(\d+)/g)) add(Number(screw));
  add(1426, 1127, 1128, 10, 0);
  // What a reel weighs is passed by.
  for (const [, grams] of plain.matchAll(/(?<!\d)(\d{3,4}) ?g(?![a-z\d])/gi)) add(Number(grams));
  // `3x100 ft`: the pieces of an order.
  for (let pieces = 2; pieces < 100; pieces++)
    if (quantity !== null && quantity.value > pieces && plain.includes(`${pieces}x`) && quantity.value % pieces === 0)
      add(pieces, quantity.value / pieces);
  if (make.volts !== null) add(make.volts / 1000, 0.6);
  const size = make.size;
  // A comma may stand before the figures: `65/,30`.
  const asDecimals = (written: string): number => Number(`0.${written}`);
  // The gauge that strands up to 14 % thinner are sold by.
  const asGauge = (n: number): boolean => {
    const share = (size?.areaMm2 ?? 0) / ((Math.PI / 4) * (0.127 * 92 ** ((36 - n) / 39)) ** 2);
    return Number.isInteger(n) && n > 0 && n <= 40 && share > 0.86 && share < 1.04;
  };
  // What a second name of the same metal may be.
  const same = (areaMm2: number): boolean => size !== null && Math.abs(areaMm2 / size.areaMm2 - 1) < 0.036;
  for (const found of plain.replace(/(\d),(\d{3})(?!\d)/g, "$1$2").matchAll(/\d+(?:[.,]\d+)?|\.\d+/g)) {
    const value = Number(found[0].replace(",", "."));
    const isKnown = [...known].some(
      (each) => Math.abs(each - value) < 1e-6 || Math.abs(each * 1000 - value) < 1e-6 || /^0+$/.test(found[0]),
    );
    if (known.has(asDecimals(found[0])) || asGauge(value)) continue;
    if (!isKnown && !same(value) && !same(value * 0.5067)) return `the number ${found[0]} is not in it`;
  }
  return null;
}

/** A gauge that stands there with its unit must be the size, or be the same metal. */
function wrongUnit(plain: string, make: Make): string | null {
  const found = /(?:^|[ ,;(])(\d{1,2}|[1-4]\/0) ?AWG(?![A-Za-z\d])/i.exec(plain)?.[1];
  if (found === undefined || make.size === null) return null;
  const n = found.includes("/") ? 1 - Number(found.charAt(0)) : /^0+$/.test(found) ? 1 - found.length : Number(found);
  const areaMm2 = (Math.PI / 4) * (0.127 * 92 ** ((36 - n) / 39)) ** 2;
  const share = make.size.areaMm2 / areaMm2;
  // Counted strands may be up to 14 % thinner than the gauge that is printed beside them.
  const isSame = share > 0.86 && share < 1.04;
  return isSame ? null : `${found} AWG is ${areaMm2.toFixed(2)} mm², the reading has ${make.size.label}`;
}

/** A word for a metal or a plating must be in it. */
function wrongMetal(plain: string, make: Make): string | null {
  if (/(?:^| )CCA(?: |$)/.test(plain) && make.metal !== "copper-clad aluminium") return "CCA is lost";
  if (/(?:^| )tinned(?: |$)/.test(plain) && make.plating !== "tinned") return "tinned is lost";
  if (/(?:^| )XYZQ(?: |$)/.test(plain)) return "an unknown word of few letters is passed over";
  return null;
}

/** `12/3` must not be counted without a kind of cable. */
function guessedCores(plain: string, make: Make, context: LabelContext | null): string | null {
  const found = /(?:^| )(?:14|12|10)[/-]([23])(?: |$)/.exec(plain);
  if (found === null || context !== null) return null;
  return make.family === null ? `${found[0]} is counted without a kind of cable` : null;
}
