import { quantity } from "../../plan/index.ts";
import type { Default } from "../fact-reader.ts";

/** A key of the kinds that heed a resistance of their own. */
export const insideResistance = {
  resistance: { value: quantity("resistance", { min: 0 }), doc: "Resistance inside, between its terminals." },
} as const;

/** What a closed contact loses where its maker says nothing. */
export const CONTACT: Default = {
  id: "contact-resistance",
  value: 0.0002,
  says: "each closed switch contact 0.2 mΩ",
  trust: "practice",
  pin: "resistance",
};
