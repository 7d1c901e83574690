import { named } from "./named.ts";

/** Caravans and motor caravans in Europe; numbers not carried yet. */
export const iecCaravan = named({
  id: "iec-caravan",
  title: "Caravans and motor caravans, Europe",
  edition: "2018",
  scope: "230 V: IEC 60364-7-721 with hook-up 7-708; 12 V: EN 1648-1 and -2",
});
