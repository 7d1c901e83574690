/** Figures of the page's own lines: few digits, unit behind a narrow space, the reader's decimal mark. */
export interface FigurePrinter {
  readonly amps: (amps: number) => string;
  readonly volts: (volts: number) => string;
  readonly hours: (hours: number) => string;
  /** With so many decimals, without a unit. */
  readonly plain: (value: number, decimals: number) => string;
}

/**
 * @example
 * printFigures(",").amps(9.04) //=> "9,0 A"
 */
export function printFigures(decimal: "." | ","): FigurePrinter {
  const plain = (value: number, decimals: number): string =>
    value.toFixed(decimals).replace("-", "−").replace(".", decimal);
  return {
    plain,
    amps: (amps) => `${plain(amps, amps < 0.1 ? 2 : amps < 100 ? 1 : 0)} A`,
    volts: (volts) => `${plain(volts, volts < 100 ? 2 : 0)} V`,
    hours: (hours) => (hours >= 1000 ? "over 1000 h" : `${plain(hours, hours < 10 ? 1 : 0)} h`),
  };
}
