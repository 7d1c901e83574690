import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { guardsOf, UNTOLD_AMPS, type GuardedCircuit, type Guards } from "./guards.ts";

export const deviceAboveApplianceLimit = defineRule({
  id: "protection/device-above-appliance-limit",
  title: "Device above its appliance's limit",
  severity: "must",
  danger: "the thin leads inside a radio burn behind a 30 A breaker",
  why: `A maker may state the largest device that is allowed ahead of a part, because its own leads and insides carry no more. What stands on the
    way from every source to the part is held against it: of devices in a row the smallest counts, so a fuse in the part's own line is enough.
    Where several parts hang on one device, each is judged by its own limit.`,
  silent: ["parts whose maker states no largest device", "alternating current, which is not studied yet"],
  sources: [
    { cite: cite("nfpa-70-2023", "110.3(B)", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "what the maker allows", "practice") },
  ],
  messages: {
    above: "{place} allows a device of {limit} ahead of it, and has {measured}",
    none: "{place} allows a device of {limit} ahead of it, and has none",
  },
  cures: ["smaller-device", "own-circuit"],
  examples: {
    good: [
      {
        says: "its own fuse in the line",
        plan: "parts:\n  radio: { kind: electronics, running: 2 A, largest fuse: 5 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m, breaker: 15 A at PNL, fuse: 5 A at radio }",
      },
      {
        says: "nothing stated",
        plan: "parts:\n  radio: { kind: electronics, running: 2 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m, breaker: 15 A at PNL }",
      },
    ],
    bad: [
      {
        says: "a radio for 10 A behind 15 A",
        plan: "parts:\n  radio: { kind: electronics, running: 2 A, largest fuse: 10 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m, breaker: 15 A at PNL }",
        fails: "above",
        about: "parts.radio",
      },
      {
        says: "no device at all",
        plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }\n  radio: { kind: electronics, running: 2 A, largest fuse: 10 A }\ncircuits:\n  W20: { path: B2 → radio, length: 2 m, wire: 2.5 mm², fuse: none, return: B2 }",
        fails: "none",
        about: "parts.radio",
      },
      {
        says: "the limit is not known",
        plan: "parts:\n  radio: { kind: electronics, running: 2 A, largest fuse: unknown }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m, breaker: 15 A at PNL }",
        fails: "cannot tell",
        about: "parts.radio",
      },
    ],
  },
  judge(build, report) {
    const guards = guardsOf(build);
    const plusOf = new Map(guards.grid.draws.map((d) => [d.element.part, d.plus]));
    for (const view of build.parts) {
      if (view.part.traits.load !== true) continue;
      const { largestDevice } = view.part;
      const plus = plusOf.get(view.id);
      if (view.part.current === "AC") report.notApplicable(view.subject, "alternating current is not studied yet");
      else if (largestDevice === undefined) report.notApplicable(view.subject, "its maker states no largest device");
      else if (plus === undefined) report.notApplicable(view.subject, "it stands in no circuit");
      else if (largestDevice === "unknown") {
        report.cannotTell(view.subject, [needed("the largest device that it allows", view.subject)]);
      } else judgeLoad(build, guards, view, plus, largestDevice, report);
    }
  },
});

function judgeLoad(
  build: Build,
  guards: Guards,
  { subject, id }: PartView,
  plus: number,
  limit: { readonly low: number; readonly high: number },
  report: Report<"above" | "none">,
): void {
  // Amps of the devices on the way, seen from the part itself: no edge is left out.
  const sure = guards.push(plus, -1, "sure");
  if (sure.sources.length === 0) {
    report.notApplicable(subject, "no source reaches it");
    return;
  }
  const said = { limit: limit.low, unit: "A" } as const;
  if (sure.amps <= limit.low) {
    report.pass(subject, { ...said, measured: sure.amps, margin: below(sure.amps, limit.low) });
    return;
  }
  const own = circuitsOf(build, guards, id);
  const needs: Needed[] = own.flatMap((c) => {
    if (c.untold) return [needed(`the fuse of ${c.view.id}`, c.view.subject)];
    return c.guards.some((g) => g.rating === null)
      ? [needed(`the rating of the device of ${c.view.id}`, c.view.subject)]
      : [];
  });
  const behind = own.length > 0 ? guards.push(plus, -1, "perhaps") : sure;
  if (needs.length > 0) report.cannotTell(subject, needs);
  else if (sure.amps > limit.low && sure.amps <= limit.high) {
    report.cannotTell(subject, [needed("the largest device that it allows", subject)]);
  } else if (Number.isFinite(behind.amps) !== Number.isFinite(sure.amps)) {
    report.cannotTell(
      subject,
      guards.untold.map((c) => needed(`the fuse of ${c.view.id}`, c.view.subject)),
    );
  } else if (sure.amps >= UNTOLD_AMPS && Number.isFinite(sure.amps)) {
    report.cannotTell(subject, [needed("the rating of the device ahead of it", subject)]);
  } else {
    const isBare = !Number.isFinite(sure.amps);
    report.fail(subject, isBare ? "none" : "above", {
      ...said,
      measured: sure.amps,
      limit: limit.high,
      ...(isBare ? {} : { margin: below(sure.amps, limit.high) }),
    });
  }
}

/** Circuits that end at a part, or that it is chained to. */
function circuitsOf(build: Build, guards: Guards, part: string): GuardedCircuit[] {
  return build.circuits.flatMap((view) => {
    const { from, to, draws } = view.circuit;
    return from.part === part || to.part === part || draws.includes(part) ? (guards.of(view) ?? []) : [];
  });
}
