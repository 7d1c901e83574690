import type { Metal } from "./metal.ts";
import type { WireSize } from "./wire-size.ts";

export type Plating = "plain" | "tinned";

/** What a strand class means for resistance and diameter. */
interface StrandFacts {
  /** The class of IEC 60228 whose limits hold, or stand in, for metric sizes. */
  readonly iecClass: 1 | 2 | 5;
  /** Whether IEC 60228 itself names the class. */
  readonly isIec: boolean;
  /** Whether it is one wire. */
  readonly isSolid: boolean;
  /** Whether the strands are many and thin, so that they are bunched or roped rather than laid in layers. */
  readonly isFine: boolean;
}

const facts = (iecClass: 1 | 2 | 5, isIec: boolean): StrandFacts => ({
  iecClass,
  isIec,
  isSolid: iecClass === 1,
  isFine: iecClass === 5,
});

/** Every strand class by name: IEC numerals, small-craft types, ASTM letters. Class 6 has the limits of class 5. */
export const strandClasses = {
  "class 1": facts(1, true),
  "class 2": facts(2, true),
  "class 5": facts(5, true),
  "class 6": facts(5, true),
  "type 2": facts(5, false),
  "type 3": facts(5, false),
  "class B": facts(2, false),
  "class C": facts(2, false),
  "class D": facts(2, false),
  "class G": facts(5, false),
  "class H": facts(5, false),
  "class I": facts(5, false),
  "class K": facts(5, false),
  "class M": facts(5, false),
} as const satisfies Readonly<Record<string, StrandFacts>>;

/** How a conductor is stranded. `class 1` is one solid wire. */
export type Strands = keyof typeof strandClasses;

/** Whether a text names a strand class. */
export const isStrands = (text: string): text is Strands => Object.hasOwn(strandClasses, text);

/** What decides the resistance of a conductor: the five facts that a printed size seldom tells all. */
export interface ConductorMake {
  readonly size: WireSize;
  readonly metal: Metal;
  readonly plating: Plating;
  readonly strands: Strands;
}
