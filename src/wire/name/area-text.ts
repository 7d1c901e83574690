/**
 * An area as traps print it: three figures below 100 mm², four above.
 *
 * @example
 * areaText(3.3088) //=> "3.31 mm²"
 */
export const areaText = (areaMm2: number): string => `${Number(areaMm2.toPrecision(areaMm2 < 100 ? 3 : 4))} mm²`;
