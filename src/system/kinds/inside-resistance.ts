import { quantity } from "../../plan/index.ts";

/** A key of the kinds that heed a resistance of their own. */
export const insideResistance = {
  resistance: { value: quantity("resistance", { min: 0 }), doc: "Resistance inside, between its terminals." },
} as const;
