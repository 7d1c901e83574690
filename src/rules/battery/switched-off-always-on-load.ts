import { cite } from "../../explain/index.ts";
import { isUnknown, type PlanPart } from "../../plan/index.ts";
import type { SystemPart } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { fedByBanks } from "./fed-by-banks.ts";
import { piecesOf } from "./pieces.ts";
import { switchesOf, type Switch } from "./switches.ts";

const behindTheSwitch = `parts:
  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }
circuits:
  W12: { path: BP → bilge pump, length: 3 m }`;

export const switchedOffAlwaysOnLoad = defineRule({
  id: "battery/switched-off-always-on-load",
  title: "Switched-off always-on load",
  severity: "should",
  danger: "left with the main switch off, the boat has no bilge pump and no gas alarm",
  why: `A load that is marked \`always on\` has to be fed while nobody is aboard, so no switch that is opened on leaving may cut it off. Every switch
    counts as opened but those behind which there are only loads that are always on: such a switch is theirs alone. For a critical load this is a must.`,
  silent: [
    "loads that are not marked `always on`; a bilge pump is taken to be meant so unless the plan says `always on: no`",
    "loads that have a battery of their own, or that no battery reaches at all",
    "alternating-current loads, which are not studied yet",
  ],
  sources: [
    { cite: cite("trade-practice", "what is always on is fed from the battery's side of the main switch", "practice") },
  ],
  messages: {
    off: "{place} is always on, yet it is dead while {switch} is off",
    pump: "{place} is dead while {switch} is off; where that is meant, the plan says `always on: no`",
  },
  cures: ["ahead-of-switch"],
  examples: {
    good: [
      {
        says: "a pump that is meant to rest with the switch",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A, always on: no }\ncircuits:\n  W12: { path: BP → bilge pump, length: 3 m }",
      },
      {
        says: "fed ahead of the main switch",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }\ncircuits:\n  W12: { path: SW1:in → bilge pump, length: 3 m }",
      },
      {
        says: "a switch of its own",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }\n  SW2: { kind: switch, rated: 20 A }\ncircuits:\n  W12: { path: SW1:in → SW2 → bilge pump, legs: [1 m, 2 m] }",
      },
    ],
    bad: [
      {
        says: "a bilge pump of which the plan does not say so",
        plan: "parts:\n  bilge pump: { kind: bilge pump, running: 4.5 A }\ncircuits:\n  W12: { path: BP → bilge pump, length: 3 m }",
        fails: "pump",
        about: "parts.bilge pump",
      },
      { says: "a bilge pump behind the main switch", plan: behindTheSwitch, fails: "off", about: "parts.bilge pump" },
      {
        says: "nobody knows whether it is always on",
        plan: "parts:\n  lamp: { kind: light, running: 2 A, always on: unknown }",
        fails: "cannot tell",
        about: "parts.lamp",
      },
    ],
  },
  judge(build, report) {
    const { grid } = build.settled.model;
    const draws = new Map(grid.draws.map((d) => [d.element.part, d]));
    let cuts: Cuts | undefined;
    for (const { part, subject, plan } of build.parts) {
      if (part.traits.load !== true) continue;
      const draw = draws.get(part.id);
      if (isUnknown(plan?.kindFacts["always on"])) {
        const said = part.critical ? ({ severity: "must" } as const) : {};
        report.cannotTell(subject, [needed("whether it is always on", subject)], said);
      } else if (part.current === "AC") report.notApplicable(subject, "alternating current is not studied yet");
      else if (draw === undefined || !(draw.element.alwaysOn || isUnsaidPump(part, plan)))
        report.notApplicable(subject, "it is not marked `always on`");
      else if (part.traits.store === true) report.notApplicable(subject, "it has a battery of its own");
      else {
        cuts ??= whatSwitchesCut(build);
        if (!cuts.isFedClosed(draw)) report.notApplicable(subject, "no battery reaches it");
        else if (cuts.isFedLeft(draw)) report.pass(subject);
        else
          report.fail(subject, draw.element.alwaysOn ? "off" : "pump", {
            severity: part.critical ? "must" : "should",
            words: {
              switch: cuts
                .cutting(draw)
                .map(({ view }) => view.subject.name)
                .join(" or "),
            },
          });
      }
    }
  },
});

type Port = { readonly plus: number; readonly minus: number };

interface Cuts {
  readonly isFedClosed: (at: Port) => boolean;
  /** With every switch opened that is opened on leaving. */
  readonly isFedLeft: (at: Port) => boolean;
  /** Those that cut it off by themselves, else all that do together. */
  readonly cutting: (at: Port) => readonly Switch[];
}

function whatSwitchesCut(build: Build): Cuts {
  const { settled } = build;
  const { draws } = settled.model.grid;
  const withOpen = (open: readonly Switch[]) => {
    const opened = new Set(open.flatMap((s) => s.contacts));
    return fedByBanks(
      build,
      piecesOf(settled, (e) => !opened.has(e)),
    );
  };
  const isFedClosed = withOpen([]);
  const alone = switchesOf(build).map((s) => ({ switch: s, isFed: withOpen([s]) }));
  const leaving = alone.filter(({ isFed }) => {
    const dead = draws.filter((d) => isFedClosed(d) && !isFed(d));
    return dead.length === 0 || dead.some((d) => !d.element.alwaysOn);
  });
  return {
    isFedClosed,
    isFedLeft: withOpen(leaving.map((l) => l.switch)),
    cutting(at) {
      const own = leaving.filter(({ isFed }) => !isFed(at));
      return (own.length > 0 ? own : leaving).map((l) => l.switch);
    },
  };
}

/** A pump that keeps a bilge dry, of which the plan does not say whether it is always on: it is taken to be meant so. */
const isUnsaidPump = (part: SystemPart, plan: PlanPart | undefined): boolean =>
  part.traits.dropUse === "bilge pump" && plan?.kindFacts["always on"] === undefined;
