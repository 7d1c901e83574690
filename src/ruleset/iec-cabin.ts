import { named } from "./named.ts";

/** Buildings under IEC 60364; numbers not carried yet. */
export const iecCabin = named({
  id: "iec-cabin",
  title: "Cabins and huts under IEC 60364",
  edition: "2009",
  scope: "IEC 60364-4-41, -4-43, -5-52, -5-54 and -7-712 as adopted by a country; national adoptions differ",
});
