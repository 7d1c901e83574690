import type { PagePlan } from "../worker/protocol.ts";

/** What stands where counts of findings would stand, while there are none to be had; empty: there are. */
export function notJudgedYet({ judged }: Pick<PagePlan, "judged">): string {
  switch (judged) {
    case "yes":
      return "";
    case "not yet":
      return "The rules are being fetched: nothing is judged yet.";
    case "rules not read":
      return "The rules could not be fetched: nothing is judged. Load the page again.";
  }
}
