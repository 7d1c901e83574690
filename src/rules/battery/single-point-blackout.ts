import { cite } from "../../explain/index.ts";
import { defineRule } from "../rule.ts";
import { factsOf } from "../stated.ts";
import { fedByBanks } from "./fed-by-banks.ts";
import { joinedPieces, piecesOf } from "./pieces.ts";
import { switchesOf } from "./switches.ts";

const depended = "  lamp: { kind: light, running: 2 A, critical: yes }";
const lithium =
  "chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A }";

export const singlePointBlackout = defineRule({
  id: "battery/single-point-blackout",
  title: "Single-point blackout",
  severity: "must",
  danger: "one switch that opens by itself, and a boat is dark for hours at sea",
  why: `Whatever opens by itself, one at a time (the management of a battery, a relay whose coil loses its supply), every load that is marked \`critical\`
    is still fed by some battery. Where that is accepted, a waiver says who accepts it.`,
  silent: [
    "loads that are not marked `critical`",
    "fuses and breakers, which open on a fault, and switches that people open",
    "alternating-current loads, which are not studied yet",
  ],
  sources: [
    { cite: cite("abyc-e-13", "a second source for what is critical", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a second source for what people depend on", "practice") },
  ],
  messages: { dark: "{place} depends on {opening} alone: when that opens, nothing feeds it" },
  cures: [],
  examples: {
    good: [
      { says: "nothing that people depend on", plan: "" },
      {
        says: "a second battery beside the first",
        plan: `parts:\n${depended}\n  B2: { like: B1 }\ncircuits:\n  W20: { path: B2 → SW1, length: 0.8 m }\n  W21: { path: B2:− → BN, length: 0.6 m }`,
      },
      {
        says: "lead, which has nothing that opens",
        plan: `parts:\n${depended}\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }`,
      },
    ],
    bad: [
      { says: "one lithium battery", plan: `parts:\n${depended}`, fails: "dark", about: "parts.lamp" },
      {
        says: "one relay behind two batteries",
        plan: `parts:\n${depended}\n  B1: { kind: battery, ${lithium} }\n  B2: { like: B1 }\n  REL: { kind: relay, rated: 200 A }\ncircuits:\n  W02: { path: SW1 → REL → BP, legs: [0.2 m, 0.2 m] }\n  W20: { path: B2 → SW1, length: 0.8 m }\n  W21: { path: B2:− → BN, length: 0.6 m }`,
        fails: "dark",
        about: "parts.lamp",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    const draws = new Map(grid.draws.map((d) => [d.element.part, d]));
    const critical = build.parts.filter(({ part }) => part.traits.load === true && part.critical);
    if (critical.length === 0) return;
    const closed = joinedPieces(build.settled);
    const isFed = fedByBanks(build, closed);
    const openings = [
      ...grid.stores.flatMap(({ element }, i) => {
        const view = build.part(element.part);
        const hasSwitch = element.curve === "LFP" || (view !== undefined && factsOf(view)["management"] !== undefined);
        return hasSwitch && element.strings === 1
          ? [{ says: `the management of ${element.part}`, isFed: fedByBanks(build, closed, i) }]
          : [];
      }),
      ...switchesOf(build)
        .filter(({ view }) => view.part.traits.coil === true)
        .map(({ view, contacts }) => ({
          says: view.subject.name,
          isFed: fedByBanks(
            build,
            piecesOf(build.settled, (e) => !contacts.includes(e)),
          ),
        })),
    ];
    for (const { subject, part } of critical) {
      const draw = draws.get(part.id);
      if (draw === undefined) report.notApplicable(subject, "alternating current is not studied yet");
      else if (!isFed(draw)) report.notApplicable(subject, "no battery reaches it");
      else {
        const dark = openings.find((o) => !o.isFed(draw));
        if (dark === undefined) report.pass(subject);
        else report.fail(subject, "dark", { words: { opening: dark.says } });
      }
    }
  },
});
