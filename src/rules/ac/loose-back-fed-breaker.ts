import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { oneSource } from "./example-plans.ts";
import { alternatingPart } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

const backFed = (held: string, to = "CU:2"): string =>
  oneSource({
    set: "us-cabin NEC 2023",
    parts: {
      GEN: "kind: generator, rated: 2 kVA, neutral: joined to earth",
      CU: `kind: load centre, ways: { 1: breaker 10 A, 2: breaker 16 A }${held}`,
    },
    circuits: { W20: `path: GEN → ${to}, length: 1 m` },
  });

export const looseBackFedBreaker = defineRule({
  id: "ac/loose-back-fed-breaker",
  title: "Loose back-fed breaker",
  severity: "must",
  danger: "it comes off its bar in somebody's hand and its clips are live",
  why: `A breaker that is plugged onto the bars of a board, and through which the board is fed, is held by a fastener that takes more than a pull to undo. Which breakers feed a board follows from the circuits: those
    that end at a way.`,
  silent: ["boards that are fed by their feed terminals alone", "sets other than us-cabin"],
  sources: [
    { cite: cite("nfpa-70-2023", "408.36(D), 710.15(E)", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "a fastener on each back-fed breaker", "practice") },
  ],
  messages: { loose: "{place} is fed through a breaker in a way, {circuit}, and the plan says that nothing holds it" },
  cures: ["hold-breaker"],
  examples: {
    good: [
      { says: "held", plan: backFed(", back-fed held: yes") },
      { says: "fed by its lugs", plan: backFed("", "CU:in") },
    ],
    bad: [
      { says: "not held", plan: backFed(", back-fed held: no"), fails: "loose", about: "parts.CU" },
      {
        says: "not held, and written from the board",
        plan: backFed(", back-fed held: no").replace("GEN → CU:2", "CU:2 → GEN"),
        fails: "loose",
        about: "parts.CU",
      },
      { says: "not stated", plan: backFed(""), fails: "cannot tell", about: "parts.CU" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const ways = new Set(
      build.system.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.b] : [])),
    );
    // A path may be written from the board to what feeds it.
    const gives = new Set(
      build.system.elements.flatMap((e) =>
        e.is === "source"
          ? Object.values(e.terminals)
          : e.is === "converter" && e.outCurrent === "AC"
            ? [e.outPlus, e.outMinus, ...(e.outLines ?? [])]
            : [],
      ),
    );
    for (const view of build.parts) {
      if (view.part.current !== "AC" || view.part.traits.distributes !== true) continue;
      const subject = alternatingPart(build, view.id);
      const feeding = build.circuits.find(({ circuit: c }) =>
        c.conductors.some(
          (w) =>
            w.fn.startsWith("L") &&
            ((c.to.part === view.id && ways.has(w.to)) ||
              (c.from.part === view.id && ways.has(w.from) && gives.has(w.to))),
        ),
      );
      const held = saysYes(factsOf(view), "back-fed held");
      if (subject.set !== "us-cabin") report.notApplicable(subject, "its rule set does not ask for it");
      else if (feeding === undefined) report.notApplicable(subject, "no breaker feeds it");
      else if (held === true) report.pass(subject);
      else if (held === false) report.fail(subject, "loose", { words: { circuit: feeding.subject.name } });
      else report.cannotTell(subject, [needed("whether a fastener holds the breaker that feeds it", subject)]);
    }
  },
});
