import { mainRating } from "../ac/main-rating.ts";
import { givesIn, type GivenState, type System } from "../../system/index.ts";
import { followAlternating, momentName, walkAlternating } from "../battery/alternating-demand.ts";
import type { Build, PartView } from "../build.ts";
import { below, needed, type Report } from "../report.ts";

/** Amps that are rounding, not load. */
const SLACK = 1e-6;

/**
 * Holds the main device of a board of alternating current against what is on together behind it, in amps at power factor 1.
 *
 * Ignores boards of two lines, whose loads lie on either or across both.
 */
export function judgeMain(build: Build, view: PartView, report: Report<"main">): void {
  const { subject, id, supply } = view;
  const rating = mainRating(build, id);
  const passed = view.elements.filter((e) => e.is === "contact" && e.a.startsWith(`${id}:in:`));
  const lines = passed.flatMap((e) => (e.is === "contact" && /:L\d?$/.test(e.a) ? [e] : []));
  const [line] = lines;
  if (rating === null || line === undefined || supply === undefined) {
    report.notApplicable(subject, "alternating current, and its main states no rating");
    return;
  }
  if (lines.length > 1) {
    report.notApplicable(subject, "alternating current on several lines: they are not judged one by one");
    return;
  }
  const follow = followAlternating(build.system);
  const walk = walkAlternating(build.system);
  const isFed = (state: GivenState): boolean =>
    walk(givingIn(state, build.system), state, new Set([line.b])).has(line.a);
  const asks = build.system.states.filter(isFed).map((state) => {
    const on = follow([line.b], state, supply.nominal, new Set([line.a])).filter((l) => l.isOn);
    const sum = (of: (l: (typeof on)[number]) => number): number =>
      on.reduce((all, l) => all + of(l), 0) / supply.nominal;
    return { state: momentName(state), least: sum((l) => l.low), most: sum((l) => l.high), on };
  });
  const [first] = asks;
  if (first === undefined) {
    report.notApplicable(subject, "no state feeds it through its main");
    return;
  }
  const least = asks.reduce((a, b) => (b.least > a.least ? b : a), first);
  const most = asks.reduce((a, b) => (b.most > a.most ? b : a), first);
  const said = (amps: number, state: string) =>
    ({ measured: amps, limit: rating, unit: "A", margin: below(amps, rating), state }) as const;
  const open = most.on.filter((l) => l.isUnknown || l.low < l.high);
  if (least.least > rating + SLACK) report.fail(subject, "main", said(least.least, least.state));
  else if (open.some((l) => l.isUnknown) || most.most > rating + SLACK)
    report.cannotTell(
      subject,
      open.map((l) => needed(`what ${l.part} takes`, build.part(l.part)?.subject ?? subject)),
    );
  else report.pass(subject, said(most.most, most.state));
}

/** Lines of all that gives in a state; what passes a supply on while it is plugged in is not a source then. */
function givingIn(state: GivenState, system: System): readonly string[] {
  return system.elements.flatMap((e) => {
    if (e.is === "source") {
      const gives = e.from === "transformer" || givesIn(state, e.part, system);
      return gives ? Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : [])) : [];
    }
    if (e.is !== "converter" || e.outCurrent !== "AC" || (state.shore && e.passesFrom !== undefined)) return [];
    return e.outLines ?? [e.outPlus];
  });
}
