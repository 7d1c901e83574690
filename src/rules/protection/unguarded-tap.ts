import { cite } from "../../explain/index.ts";
import type { CircuitView } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";
import { guardsOf, type GuardedCircuit, type Guards } from "./guards.ts";
import { lookAtEnd } from "./look-at-end.ts";
import { guardedOrTold } from "./not-asked.ts";

/** m: the lengths of the two tap rules. */
const TEN_FEET = 3.048;
const TWENTY_FIVE_FEET = 7.62;

const cabin = (tap: string): string =>
  `rules: { DC: us-cabin NEC 2023 }\nstock: { sizes: AWG, metal: copper, strands: class 2, insulation: 90 °C }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 1/0 AWG, sheathed: yes, fuse: 100 A class T at B1 }\n  W02: { path: SW1 → BP, length: 0.4 m, wire: 1/0 AWG, fuse: none }\n  W04: { path: BP → PNL, length: 1.5 m, wire: 6 AWG, demand: 20 A, fuse: 40 A class T at BP }\n  W10: { path: BP → lamp, ${tap} }`;

export const unguardedTap = defineRule({
  id: "protection/unguarded-tap",
  title: "Unguarded tap",
  severity: "must",
  danger: "a lamp wire behind a fuse of 100 A is a fuse wire",
  why: `Where a conductor thinner than the device ahead of it allows is tapped off, American buildings let its own device stand further on: within 10 ft if it
    carries its load and a tenth of that device, within 25 ft if it carries a third of it, and it ends in a device no larger than what it carries.`,
  silent: [
    "sets without rules for taps: protection/unprotected-conductor and protection/distant-device judge them",
    "conductors that the devices ahead of them guard, or whose own device stands where they begin",
    "conductors from a battery's post",
    "alternating-current circuits, which are not studied yet",
  ],
  sources: [{ cite: cite("nfpa-70-2023", "240.21(B)", "read") }],
  messages: {
    open: "{place} is tapped off behind {ahead}, may carry {limit}, and ends in no device",
    long: "{place} is tapped off behind {ahead}, and its device stands {measured} on; what it may carry allows {limit}",
    thin: "{place} is tapped off behind {ahead}, and may carry {measured}: not a tenth of that",
  },
  cures: ["device-at-source", "device-nearer", "next-size"],
  examples: {
    good: [
      { says: "its own fuse where it begins", plan: cabin("length: 4 m, wire: 12 AWG, fuse: 5 A class T at BP") },
      {
        says: "a tap of 2 m that ends in a device",
        plan: cabin("length: 2 m, wire: 12 AWG, fuse: 5 A class T at lamp"),
      },
    ],
    bad: [
      {
        says: "no device at all",
        plan: cabin("length: 4 m, wire: 12 AWG, fuse: none"),
        fails: "open",
        about: "circuits.W10",
      },
      {
        says: "a tap of 5 m on thin wire",
        plan: cabin("length: 5 m, wire: 12 AWG, fuse: 5 A class T at lamp"),
        fails: "long",
        about: "circuits.W10",
      },
      {
        says: "less than a tenth of what stands ahead",
        plan: cabin("length: 2 m, wire: 12 AWG, fuse: 5 A class T at lamp")
          .replace("1/0 AWG, sheathed: yes, fuse: 100 A", "500 kcmil, sheathed: yes, fuse: 350 A")
          .replace("1/0 AWG, fuse: none", "500 kcmil, fuse: none"),
        fails: "thin",
        about: "circuits.W10",
      },
      {
        says: "nobody has seen its wire",
        plan: cabin("length: 4 m, wire: unknown, as found: yes, fuse: none"),
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    for (const view of build.circuits) {
      const { set } = view.subject;
      if (set !== null && set !== "us-cabin" && set !== "us-rv") {
        report.notApplicable(view.subject, "its set has no rules for taps");
        continue;
      }
      const c = guardedOrTold(build, view, report);
      if (c !== null) judgeTap(guards, view, c, report);
    }
  },
});

function judgeTap(
  guards: Guards,
  view: CircuitView,
  c: GuardedCircuit,
  report: Report<"open" | "long" | "thin">,
): void {
  const { subject, design } = view;
  for (const end of ["from", "to"] as const) {
    const push = guards.push(c.node[end], c.edge[end], "sure");
    const isStore = guards.grid.stores.some(({ plus }) => plus === c.node[end]);
    if (!Number.isFinite(push.amps) || push.amps <= 0 || isStore) continue;
    const look = lookAtEnd(guards, c, end);
    if (look.is === "untold" && design.ampacityA === null) {
      report.cannotTell(subject, [wireNeeded(view)]);
      return;
    }
    const iz = design.ampacityA ?? 0;
    const words = { ahead: { value: push.amps, unit: "A" } } as const;
    if (look.is === "bare") {
      if (c.untold) report.cannotTell(subject, [needed("its fuse", subject)]);
      else report.fail(subject, "open", { measured: push.amps, limit: iz, unit: "A", words });
      return;
    }
    if (look.is !== "guarded" || look.metres.high === 0 || push.amps <= iz) continue;
    const { high } = look.metres;
    if (iz < push.amps / 10) {
      report.fail(subject, "thin", { measured: iz, limit: push.amps / 10, unit: "A", words });
      return;
    }
    const limit = iz >= push.amps / 3 ? TWENTY_FIVE_FEET : TEN_FEET;
    const said = { measured: high, limit, unit: "m", margin: below(high, limit) } as const;
    if (high <= limit) report.pass(subject, said);
    else if (look.metres.low <= limit) report.cannotTell(subject, [needed("where its device stands", subject)]);
    else report.fail(subject, "long", { ...said, words });
    return;
  }
  report.notApplicable(subject, "it is no tap: the devices ahead of it guard it, or its own stands where it begins");
}
