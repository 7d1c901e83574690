import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { metalOf, metalPieces } from "./metal.ts";

const twin = (fuel: string, lead: string): string =>
  `rules: { DC: us-small-craft ABYC E-11 }\nzones:\n  engine space: { kind: engine${fuel}, ambient: 50 °C }\nparts:\n  B2: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 90 Ah, cranking: 800 A, held down: yes, posts covered: yes }\n  B3: { like: B2 }\n  ST1: { kind: starter, running: 0 A, starting: 250 A, start time: 2 s }\n  ST2: { like: ST1 }\ncircuits:\n  W20: { path: B2 → ST1, length: 1 m, wire: 2/0 AWG, cranking: yes, fuse: none, return: B2 }\n  W21: { path: B3 → ST2, length: 1 m, wire: 2/0 AWG, cranking: yes, fuse: none, return: B3 }\n  W22: { path: B2:− → BN, length: 1 m, wire: 6 AWG, fuse: none }\n  W23: { path: B3:− → BN, length: 1 m, wire: 6 AWG, fuse: none }${lead}`;
const PETROL = ", fuel: petrol";

export const missingCrankConductor = defineRule({
  id: "return/missing-common-crank-conductor",
  title: "Missing common crank conductor",
  severity: "must",
  danger:
    "with one ground lead loose the starting current of both engines runs through a fuel line or a throttle cable",
  why: `A boat with more than one petrol engine has one conductor, as thick as the leads of the starters, that joins the negatives of their starters. Its way is followed through metal that is nowhere thinner than
    the thinner of the two starter leads.`,
  silent: [
    "builds with fewer than two starters",
    "rule sets other than us-small-craft",
    "engines that burn no petrol, where practice only advises it",
  ],
  sources: [{ cite: cite("33-cfr-183", "183.415", "read") }],
  messages: {
    none: "{place} and {other}: nothing as thick as their leads joins the negatives of the two starters",
  },
  cures: ["common-conductor"],
  examples: {
    good: [
      {
        says: "one thick conductor between them",
        plan: twin(PETROL, "\n  W24: { path: ST1:− → ST2:−, length: 1 m, wire: 2/0 AWG, fuse: none }"),
      },
      { says: "one engine", plan: "" },
    ],
    bad: [
      { says: "two starters that thin wire joins", plan: twin(PETROL, ""), fails: "none", about: "parts.ST2" },
      { says: "nobody knows what they burn", plan: twin("", ""), fails: "cannot tell", about: "parts.ST2" },
    ],
  },
  judge(build, report) {
    const starters = build.parts.filter((p) => p.part.traits.cranks === true && p.part.current === "DC");
    const [first, ...others] = starters;
    if (first === undefined || others.length === 0) {
      for (const { subject } of starters) report.notApplicable(subject, "there is one starter");
      return;
    }
    const fuel = fuelOf(build);
    for (const other of others) {
      const { subject } = other;
      if (subject.set !== "us-small-craft") report.notApplicable(subject, "its rule set does not ask for it");
      else if (areJoined(build, first, other)) report.pass(subject);
      else if (fuel === null) report.cannotTell(subject, [needed("what its engine burns", subject)]);
      else
        report.fail(subject, "none", {
          words: { other: first.id },
          ...(fuel === "petrol" ? {} : { severity: "should", source: PRACTICE }),
        });
    }
  },
});

const PRACTICE = cite("trade-practice", "a common conductor for all engines", "practice");

/** Petrol where any engine burns it; null: nobody says. */
function fuelOf({ plan }: Build): "petrol" | "other" | null {
  const fuels = plan.zones.flatMap((z) => z.facts.fuel?.value ?? []);
  if (fuels.includes("petrol")) return "petrol";
  return fuels.length === 0 || fuels.includes("unknown") ? null : "other";
}

/** Whether metal no thinner than their leads joins the minus of two starters. */
function areJoined(build: Build, one: PartView, other: PartView): boolean {
  const metal = metalOf(build);
  const minusOf = ({ elements }: PartView): string => elements.find((e) => e.is === "draw")?.minus ?? "";
  const [a, b] = [one, other].map((p) => metal.nodeOf(minusOf(p)));
  const leads = [one, other].map((p) =>
    Math.max(
      0,
      ...build.circuits.filter((c) => c.circuit.draws.includes(p.id)).map((c) => c.design.size?.areaMm2 ?? 0),
    ),
  );
  const least = Math.min(...leads);
  const pieces = metalPieces(metal, ({ is, view }) => {
    if (is === "contact") return true;
    if (is === "blocker" || view === undefined) return false;
    const own = view.circuit.size;
    const area = view.design.size?.areaMm2 ?? (own === undefined || own === "unknown" ? 0 : own.areaMm2);
    return area * view.circuit.parallel >= least * 0.95;
  });
  return a !== undefined && b !== undefined && a >= 0 && b >= 0 && pieces[a] === pieces[b];
}
