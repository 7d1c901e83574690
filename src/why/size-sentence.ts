import { printTrust } from "../explain/index.ts";
import type { CircuitDesign, Constraint } from "../size/index.ts";
import type { Built } from "./built.ts";
import type { LadderRung } from "./explanation.ts";
import { saidAt } from "./plan-place.ts";
import { figureText } from "./print-number.ts";
import type { Thinner, VoltKind } from "./size-ladder.ts";

interface Ladder {
  readonly rungs: readonly LadderRung[];
  readonly thinner: ReadonlyMap<Constraint["id"], Thinner>;
}

/** Why a size is what it is, in one sentence. */
export function sentenceOf(built: Built, design: CircuitDesign, ladder: Ladder): string {
  const { id, size, outcome } = design;
  if (outcome === "cannot tell" || size === null)
    return `The size of ${id} cannot be told: ${design.cannotTell.join("; ")}.`;
  if (outcome !== "chosen") return fixed(built, design, ladder);
  if (design.nothingIsEnough) {
    const { decidedBy } = design;
    const asks = ladder.rungs.filter((r) => r.outcome === "not met").map((r) => `${r.id} (${r.says})`);
    return `No size on sale is enough for ${id}: ${asks.length > 0 ? asks.join(", ") : (decidedBy ?? "what is asked")} asks for more than ${size.label}, which stands in.`;
  }
  return `${id} is ${size.label} because ${because(design, ladder)}.`;
}

function because(design: CircuitDesign, { rungs, thinner }: Ladder): string {
  const { size, decidedBy } = design;
  if (decidedBy === null || size === null) return "nothing asks for more";
  const rung = rungs.find((r) => r.id === decidedBy);
  const alone = rung?.areaMm2 ?? 0;
  const below = thinner.get(decidedBy);
  const more =
    alone < size.areaMm2 - 1e-9
      ? `; ${rung?.size ?? ""} would be enough for that, and ${size.label} saves more copper in other wires than it costs here`
      : "";
  switch (decidedBy) {
    case "ampacity":
      return `it carries ${figureText.amps(design.steadyA ?? 0)} for long${below === undefined ? "" : ` and ${below.size} ${below.short[0]?.says ?? ""}`}${more}`;
    case "device": {
      const rating = Math.max(0, ...design.devices.map((d) => d.ratingA ?? 0));
      const what =
        rating > 0
          ? `its ${figureText.amps(rating)} device must open before the wire burns`
          : `it has to bear what the devices behind it let through (${rung?.says ?? ""})`;
      return `${what}${below === undefined ? "" : `, and ${below.size} ${below.short[0]?.says ?? ""}`}${more}`;
    }
    case "mechanical":
      return `nothing thinner is strong enough: the rules ask for ${rung?.says ?? ""}${more}`;
    case "bond":
      return `it carries current only in a fault, and the rules ask for ${rung?.says ?? ""} (${rung?.source ?? ""}${rung?.trust == null || rung.trust === "read" ? "" : `, ${printTrust(rung.trust)}`})${more}`;
    case "drop":
    case "start":
    case "least-volts": {
      if (below === undefined) return `${words[decidedBy]} asks for it (${rung?.says ?? ""})${more}`;
      const [first] = below.short;
      if (first === undefined) return `${words[decidedBy]} asks for it (${rung?.says ?? ""})${more}`;
      const others = below.short.length > 1 ? `, and ${below.short.length - 1} more would have too little` : "";
      const now =
        rung?.says === "loads behind it" || rung === undefined
          ? ""
          : `; with ${size.label} ${standsNow(design, decidedBy)}`;
      return `with ${below.size} ${first.says}${others}${now}${more}`;
    }
    default:
      return `${words[decidedBy] ?? decidedBy} asks for it${more}`;
  }
}

const words: Readonly<Record<string, string>> = {
  drop: "the voltage drop",
  start: "the volts left for a start",
  "least-volts": "the volts left while it runs",
  stock: "what is kept in stock",
};

/** How it stands with the size that was chosen. */
function standsNow({ dropV, dropShare, dropLimitShare, startVolts, leastVolts }: CircuitDesign, id: VoltKind): string {
  if (id === "drop" && dropV !== null && dropShare !== null) {
    const share =
      dropLimitShare === null ? figureText.percent(dropShare) : figureText.beside(dropShare, dropLimitShare);
    return `it loses ${figureText.volts(dropV)}, ${share}`;
  }
  const left = id === "start" ? startVolts : leastVolts;
  return left === null ? "it has enough" : `it has ${figureText.volts(left)}`;
}

/** A size that the plan gives is judged, not chosen. */
function fixed(built: Built, design: CircuitDesign, { rungs }: Ladder): string {
  const { id, size, outcome } = design;
  const said = saidAt(built.plan, "circuits", id, "wire");
  const bad = rungs.filter((r) => r.outcome === "not met");
  const head = `${id} is ${size?.label ?? ""} because ${outcome === "found" ? "that was found" : "the plan says so"} (${said})`;
  if (bad.length === 0) return `${head}; it meets all that is asked of it.`;
  const how = bad.map(
    (r) => `${r.id}${r.says === "" ? "" : ` (${r.says})`}, for which ${r.size ?? "nothing on sale"} would do`,
  );
  return `${head}; it does not meet ${how.join(", nor ")}.`;
}
