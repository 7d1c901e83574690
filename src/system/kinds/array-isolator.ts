import { count, quantity, recordOf } from "../../plan/index.ts";

/** The isolator of an array that stands in a part beside what else it holds. */
export const arrayIsolator = {
  value: recordOf(
    {
      poles: { value: count(1, 8), doc: "How many poles it opens together; else two." },
      "DC volts": { value: quantity("voltage", { min: 0 }), doc: "Direct volts that it can open under load." },
    },
    "an isolator",
  ),
  doc: "Isolator for direct current that stands in it, toward the solar modules: `{ poles: 2, DC volts: 150 V }`. One that is a part of its own is a `switch` on the path.",
} as const;
