import { named } from "./named.ts";

/** Transportable structures and vehicles in Australia and New Zealand; numbers not carried yet. */
export const auNzVehicle = named({
  id: "au-nz-vehicle",
  title: "Vehicles and transportable structures, Australia and New Zealand",
  edition: "2022",
  scope: "AS/NZS 3001.2 with AS/NZS 3000 behind it; repairs follow the rule of the day they were built to",
});
