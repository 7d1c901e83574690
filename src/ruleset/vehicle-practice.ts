import { named } from "./named.ts";

/** Vehicles for which no rule set is chosen; numbers not carried yet. */
export const vehiclePractice = named({
  id: "vehicle-practice",
  title: "Vehicles of 12 to 48 V, practice of the trade",
  edition: "practice",
  scope:
    "vehicles for which no rule set is chosen; ISO 6722, ISO 19642 and SAE J1128 give sizes and temperature classes of vehicle wire, and no ampacity",
});
