import { decimalText } from "../../quantity/decimal-text.ts";
import { cleanText } from "../clean-text.ts";
import type { TitleFields } from "../sheet/title-block.ts";
import type { OneLineBuild, OneLineOptions } from "./one-line-build.ts";

/** What the title block of a one-line says. */
export function titleOf({ plan, system }: OneLineBuild, { date, paper }: OneLineOptions): TitleFields {
  const name = cleanText(plan.name === "" ? "unnamed build" : plan.name);
  const rules = [...new Set(plan.rules.map(({ text }) => cleanText(text)))].join(", ");
  const systems = system.supplies
    // One that the plan neither names nor wires is only what would be assumed.
    .filter(
      ({ id }) => plan.systems.some(({ key }) => key === id) || system.circuits.some(({ supply }) => supply === id),
    )
    .map((s) => {
      const frequency = plan.systems.find(({ key }) => key === s.id)?.facts.frequency?.value;
      const hertz = frequency === undefined || frequency === "unknown" ? "" : ` ${cleanText(frequency.text)}`;
      return `${decimalText(s.nominal, { figures: 3 })} V${hertz} ${s.current}`;
    })
    .join(", ");
  const slug = name
    .toUpperCase()
    .replace(/[^A-Z0-9]+/g, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 13)
    .replace(/-$/, "");
  return {
    owner: "",
    documentType: "one-line diagram",
    status: "for review",
    revision: cleanText(plan.revision),
    title: name,
    identification: `${slug === "" ? "PLAN" : slug}-E1`,
    supplement: systems,
    scale: "none",
    sheet: "",
    language: "en",
    date: date ?? "",
    creator: "",
    approval: "",
    rules,
    changes: [
      {
        revision: cleanText(plan.revision === "" ? "–" : plan.revision),
        zone: "–",
        what: `drawn from the plan, ${paper}`,
        date: date ?? "",
      },
    ],
  };
}
