/** Answers to the six plain questions of a new plan; each but the first may be left out. */
export interface NewPlanAnswers {
  readonly what: "boat" | "van" | "cabin";
  readonly name?: string;
  /** `nothing`: to be built · `old wiring`: to be checked, so that nothing is assumed of what stands. */
  readonly there?: "nothing" | "old wiring";
  /** `LiFePO4 12 V 200 Ah`, `2 × AGM 12 V 100 Ah`. */
  readonly battery?: string;
  readonly shore?: "none" | "230 V" | "120 V";
  /** Two letters: `DE`, `US`. Stock and rules are proposed by it. */
  readonly country?: string;
  /** Rule set, where another one is wanted than is proposed. */
  readonly rules?: string;
  /** The first load: `fridge 45 W, start 8 A, 3 m`. */
  readonly load?: string;
}
