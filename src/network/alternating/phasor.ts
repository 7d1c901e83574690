/** An effective value with its phase, in both notations. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
  /** V or A, ≥ 0. */
  readonly size: number;
  /** −180 … 180; 0 where there is nothing. */
  readonly degrees: number;
}

/**
 * A complex number as a phasor.
 *
 * @example
 * phasor(0, 230) //=> { re: 0, im: 230, size: 230, degrees: 90 }
 */
export const phasor = (re: number, im: number): Phasor => ({
  re,
  im,
  size: Math.hypot(re, im),
  degrees: (Math.atan2(im, re) * 180) / Math.PI,
});
