/**
 * A second reader of quantities, written from how people write them and not from the code: by patterns, slow, for few
 * units, and with every lawful reading instead of one. What the project's reader accepts, this must accept as the same.
 */

/** Size in the unit inside. Sources: the international foot and inch (0.3048 m, 0.0254 m) and mile (1609.344 m), all exact. */
const SIZES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  length: {
    m: 1,
    mm: 1e-3,
    cm: 1e-2,
    km: 1e3,
    mi: 1609.344,
    ft: 0.3048,
    "'": 0.3048,
    in: 0.0254,
    '"': 0.0254,
    "''": 0.0254,
    "in.": 0.0254,
    "ft.": 0.3048,
  },
  current: { A: 1, mA: 1e-3, kA: 1e3, µA: 1e-6 },
  voltage: { V: 1, mV: 1e-3, kV: 1e3, µV: 1e-6, VAC: 1 },
  charge: { C: 1, Ah: 3600, mAh: 3.6, kAh: 3.6e6, "A h": 3600, "A.h": 3600, "A-h": 3600, "A*h": 3600 },
  ratio: { "%": 0.01 },
  temperature: { "°C": 1, "° C": 1, C: 1 },
};

type Ends = readonly [low: number, high: number];

/** Every lawful reading of a text. */
export function readByHand(raw: string, dimension: string): Ends[] {
  const sizes = SIZES[dimension] ?? {};
  const text = raw
    .replaceAll(/[ \u00a0\u2009\t]+/g, " ")
    .replaceAll(/[−–]/g, "-")
    .trim();
  const readings: Ends[] = [];
  const exact = measure(text, sizes);
  if (exact !== null) readings.push([exact, exact]);

  const about = /^(?:[~≈]|(?:about|ca)\.?) *(.*)$/.exec(text);
  const middle = measure(about?.[1] ?? "", sizes);
  if (middle !== null) {
    const off = dimension === "temperature" ? 5 : Math.abs(middle) * 0.1;
    readings.push([middle - off, middle + off]);
  }
  for (const sign of text.matchAll(/ ?(…|\.{2,3}|-|±|\+\/?-| to ) ?/g)) {
    const left = text.slice(0, sign.index);
    const right = text.slice(sign.index + sign[0].length);
    const to = measure(right, sizes);
    const from = measure(left, sizes) ?? lent(left, right, sizes);
    if (to === null || from === null) continue;
    const isTolerance = /[±+]/.test(sign[1] ?? "");
    readings.push(isTolerance ? [from - to, from + to] : [Math.min(from, to), Math.max(from, to)]);
  }
  return readings;
}

/** A number without a unit, in that of the other one. */
function lent(left: string, right: string, sizes: Readonly<Record<string, number>>): number | null {
  for (const [unit, size] of Object.entries(sizes)) {
    const value = endsWith(right, unit) && measure(right, { [unit]: size }) !== null ? signed(left) : null;
    if (value !== null) return value * size;
  }
  return null;
}

const endsWith = (text: string, unit: string): boolean => text.toLowerCase().endsWith(unit.toLowerCase());

function measure(text: string, sizes: Readonly<Record<string, number>>): number | null {
  const two = /^([+-]?)(\d+) ?(ft\.?|'|m) ?-?([\d.,/½ ]+?) ?(in\.?|"|''|cm)$/i.exec(text);
  if (two !== null && "ft" in sizes) {
    const [, sign, large = "", largeUnit = "", small = "", smallUnit = ""] = two;
    const isMetric = largeUnit === "m";
    const parts = number(small.trim());
    if (parts !== null && isMetric === (smallUnit === "cm") && parts < (isMetric ? 100 : 12)) {
      const size = isMetric ? Number(large) + parts * 0.01 : Number(large) * 0.3048 + parts * 0.0254;
      return sign === "-" ? -size : size;
    }
  }
  for (const [unit, size] of Object.entries(sizes)) {
    const value = endsWith(text, unit) ? signed(text.slice(0, text.length - unit.length).trim()) : null;
    if (value !== null) return value * size;
  }
  return null;
}

function signed(text: string): number | null {
  const size = number(text.replace(/^[+-]/, ""));
  return size === null || !text.startsWith("-") ? size : -size;
}

const FRACTION = /^(?:(.*\d)[ -]?(?=½)|(.*\d)[ -])?(½|1\/2|[12]\/3|[13]\/4|[1357]\/8|(?:[13579]|1[135])\/16)$/;

function number(text: string): number | null {
  const fraction = FRACTION.exec(text);
  if (fraction !== null) {
    const whole = fraction[1] ?? fraction[2];
    const [over = 1, under = 2] = (fraction[3] ?? "").replace("½", "1/2").split("/").map(Number);
    const before = whole === undefined ? 0 : number(whole);
    return before === null || !Number.isInteger(before) ? null : before + over / under;
  }
  // Plain, then with a decimal comma that cannot group, then grouped.
  if (/^\d+$|^\d*\.\d+$/.test(text)) return Number(text);
  if (/^\d+,\d+$/.test(text) && !/^[1-9]\d{0,2},\d{3}$/.test(text)) return Number(text.replace(",", "."));
  if (/^[1-9]\d{0,2}( \d{3})+([.,]\d+)?$/.test(text)) return Number(text.replaceAll(" ", "").replace(",", "."));
  if (/^[1-9]\d{0,2}(,\d{3})+\.\d+$|^[1-9]\d{0,2}(,\d{3}){2,}$/.test(text)) return Number(text.replaceAll(",", ""));
  if (/^[1-9]\d{0,2}(\.\d{3})+,\d+$|^[1-9]\d{0,2}(\.\d{3}){2,}$/.test(text)) {
    return Number(text.replaceAll(".", "").replace(",", "."));
  }
  return null;
}
