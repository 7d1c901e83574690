import { named } from "./named.ts";

/** Buildings in the United States; numbers not carried yet. */
export const usCabin = named({
  id: "us-cabin",
  title: "Cabins and huts, United States: National Electrical Code",
  edition: "NEC 2023",
  scope:
    "NFPA 70 articles 110, 210, 215, 240, 250, 310, 400, 690, 705, 706 and 710; below 50 V article 720 unless another article covers the circuit",
});
