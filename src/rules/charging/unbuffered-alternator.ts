import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { alternatorsOf, coilContacts, enginesRun, piecesIn, stateName, storesBeside } from "./alternators.ts";

const onto = (facts: string, to: string, more = ""): string =>
  `parts:\n  ALT: { kind: alternator, rated: 60 A, ${facts} }\n${more}circuits:\n  W20: { path: ALT → ${to}, length: 1 m }`;

export const unbufferedAlternator = defineRule({
  id: "charging/unbuffered-alternator",
  title: "Unbuffered alternator",
  severity: "must",
  danger:
    "when its battery is gone at full output, a surge of a hundred volts kills the diodes and every electronic thing on board",
  why: `With the engine running, all that can open by itself opens: the management of every lithium battery, and every relay. Then a lead battery is still
    metal with the alternator, or a clamp stands at its terminals (\`clamp: yes\`), or the management stops it first (\`stop line: yes\`).`,
  silent: ["alternators on which a lead battery hangs with no relay between", "fuses, which open on a fault"],
  sources: [
    { cite: cite("abyc-e-13", "load dump", "memory"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a lead battery, a clamp or a stop line", "practice") },
  ],
  messages: {
    lithium:
      "{place} loses its only battery when the management of {others} opens ({state}): no lead battery, no clamp and no stop line is left",
    relay:
      "{place} loses its battery when {others} opens ({state}): no lead battery, no clamp and no stop line is left",
  },
  cures: ["surge-clamp"],
  examples: {
    good: [
      { says: "a clamp at its terminals", plan: onto("limit: 40 A, clamp: yes", "BP") },
      { says: "a stop line", plan: onto("limit: 40 A, stop line: yes", "BP") },
      {
        says: "on a lead battery, with a converter between",
        plan:
          onto(
            "hot: 50 A",
            "B3",
            "  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n  DCDC: { kind: DC-DC charger, output: 20 A, input: 25 A }\n",
          ) +
          "\n  W21: { path: B3 → DCDC:in, length: 1 m }\n  W22: { path: DCDC:out → BP, length: 1 m }\n  W23: { path: B3:− → BN, length: 1 m }",
      },
    ],
    bad: [
      { says: "nothing but lithium on it", plan: onto("limit: 40 A", "BP"), fails: "lithium", about: "parts.ALT" },
      {
        says: "a relay before its lead battery",
        plan:
          onto(
            "hot: 50 A",
            "REL → B3, legs: [1 m, 0.5 m]",
            "  REL: { kind: relay, rated: 100 A }\n  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n",
          ).replace(", length: 1 m }", " }") + "\n  W23: { path: B3:− → BN, length: 1 m }",
        fails: "relay",
        about: "parts.ALT",
      },
      {
        says: "nobody knows of a clamp",
        plan: onto("limit: 40 A, clamp: unknown", "BP"),
        fails: "cannot tell",
        about: "parts.ALT",
      },
    ],
  },
  judge(build, report) {
    const coils = coilContacts(build);
    for (const one of alternatorsOf(build)) {
      const { subject } = one.view;
      const facts = factsOf(one.view);
      const [clamp, stop] = [saysYes(facts, "clamp"), saysYes(facts, "stop line")];
      const bare = enginesRun(build).flatMap((at) => {
        const before = storesBeside(build, one, piecesIn(build, at));
        const after = storesBeside(
          build,
          one,
          piecesIn(build, at, (e) => coils.has(e)),
        );
        const isLeft = after.some((s) => s.curve === "lead");
        return isLeft ? [] : [{ at, before }];
      });
      const [first] = bare;
      if (first === undefined) report.pass(subject);
      else if (first.before.length === 0) report.notApplicable(subject, "no battery hangs on it");
      else if (clamp === true || stop === true) report.pass(subject);
      else if (clamp === "unknown" || stop === "unknown")
        report.cannotTell(subject, [needed("whether a clamp or a stop line takes its surge", subject)]);
      else {
        const lithium = first.before.filter((s) => s.curve === "LFP").map((s) => s.part);
        const lead = first.before.some((s) => s.curve === "lead");
        const relays = [...coils].flatMap((e) => build.settled.model.grid.edges[e]?.contact?.part ?? []);
        report.fail(subject, lead ? "relay" : "lithium", {
          state: stateName(first.at),
          words: { others: lead ? nameSome(relays) : nameSome(lithium) },
        });
      }
    }
  },
});
