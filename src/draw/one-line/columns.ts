/** Module of the grid that all wires lie on, mm. */
export const M = 2.5;

/** Where things stand across a drawing, in modules from its left edge. */
export interface Columns {
  readonly width: number;
  /** Sources: their left edge, and where their wires begin. */
  readonly source: number;
  readonly sourceEnd: number;
  /** Joint of the second column, joint before the first, middle of the first. */
  readonly second: number;
  readonly joint: number;
  readonly first: number;
  readonly bar: number;
  /** Bars of panels, and converters. */
  readonly panel: number;
  /** Where branches end and loads begin. */
  readonly load: number;
  /** mm from the left edge: where names begin, and the right edges of the figures and of the drawing. */
  readonly name: number;
  readonly length: number;
  readonly amps: number;
  readonly percent: number;
  /** Null: no room for volts. */
  readonly volts: number | null;
}

/** Half the width of a converter, in modules. */
export const HALF = 1.5;

/** Half the thickness of a bar, in modules: lines begin at its edge. */
export const HALF_BAR = 0.24;

/** So many modules across hold volts as well. */
const WITH_VOLTS = 76;

/**
 * The columns of a drawing.
 *
 * @param widthMm of the space for it; 175 or more
 * @param marks what stands free right of the last figures for the marks of findings, mm
 * @example
 * columnsFor(180).bar //=> 28
 * columnsFor(270).volts === null //=> false
 */
export function columnsFor(widthMm: number, marks = 9.2): Columns {
  const width = Math.floor(widthMm / M);
  const edge = width * M - marks;
  if (width < 100) {
    const columns = { source: 1, sourceEnd: 3.6, second: 10, joint: 15, first: 18, bar: 28, panel: 37, load: 50 };
    const right = { name: 52.6 * M, length: edge - 14.6, amps: edge - 7.8, percent: edge, volts: null };
    // Volts take as much as a name can spare.
    const more = { length: edge - 22, amps: edge - 15, percent: edge - 7.5, volts: edge };
    return { ...columns, ...right, width, ...(width < WITH_VOLTS ? {} : more) };
  }
  const columns = { source: 1, sourceEnd: 4, second: 14, joint: 21, first: 24, bar: 39, panel: 53, load: 71 };
  return { ...columns, width, name: 73.8 * M, length: edge - 22, amps: edge - 15, percent: edge - 7.5, volts: edge };
}
