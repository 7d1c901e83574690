import type { PagePlan } from "../worker/protocol.ts";
import type { CircuitDesign } from "../../size/index.ts";
import type { Finding } from "../../rules/index.ts";
import { statusOf, statusWords, type Status } from "../look/status-shape.tsx";

/** The gravest first. */
const gravity: readonly Status[] = ["fail", "warn", "unknown", "note", "pass"];

export interface CircuitStatus {
  readonly status: Status;
  /** `fail, must: Overloaded conductor`. */
  readonly says: string;
  /** For sorting: 0 is the gravest. */
  readonly rank: number;
  readonly finding: Finding | null;
}

const isOpen = (f: Finding): boolean => f.waived === null || f.waived.lapsed !== null;

const thingOf = (about: string): string => about.replace(/\.(?:from|to)$/, "");

/** What is found of each circuit: of itself, of its ends, and of the loads that it alone feeds. */
export function circuitStatuses({ design, findings }: PagePlan): ReadonlyMap<string, CircuitStatus> {
  const byThing = new Map<string, Finding[]>();
  for (const f of findings) {
    if (!isOpen(f)) continue;
    const thing = thingOf(f.about);
    byThing.set(thing, [...(byThing.get(thing) ?? []), f]);
  }
  return new Map(design.circuits.map((c) => [c.id, statusFor(c, byThing)]));
}

function statusFor(circuit: CircuitDesign, byThing: ReadonlyMap<string, readonly Finding[]>): CircuitStatus {
  const things = [`circuits.${circuit.id}`, ...circuit.loads.map((l) => `parts.${l.part}`)];
  const found = things.flatMap((t) => byThing.get(t) ?? []);
  const worst = found.reduce<{ finding: Finding; rank: number } | null>((best, finding) => {
    const rank = gravity.indexOf(statusOf(finding));
    return best === null || rank < best.rank ? { finding, rank } : best;
  }, null);
  if (worst !== null) {
    const status = statusOf(worst.finding);
    const more = found.length > 1 ? `, and ${found.length - 1} more` : "";
    return {
      status,
      says: `${statusWords[status]}: ${worst.finding.title}${more}`,
      rank: worst.rank,
      finding: worst.finding,
    };
  }
  if (circuit.outcome === "cannot tell")
    return {
      status: "unknown",
      says: `cannot tell: ${circuit.cannotTell.join("; ")}`,
      rank: gravity.indexOf("unknown"),
      finding: null,
    };
  return { status: "pass", says: statusWords.pass, rank: gravity.indexOf("pass"), finding: null };
}
