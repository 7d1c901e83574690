import { named } from "./named.ts";

/** Recreational vehicles in the United States; numbers not carried yet. */
export const usRv = named({
  id: "us-rv",
  title: "Recreational vehicles, United States",
  edition: "NEC 2023",
  scope:
    "120 V: NFPA 70 articles 551 and 552; 12 V of park trailers: 552.10. Article 551 leaves the 12 V side of other vehicles to NFPA 1192 and ANSI/RVIA LV",
});
