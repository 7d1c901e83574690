import { mainRating } from "../ac/main-rating.ts";
import { givesIn, lineVolts, suppliedIn, type GivenState, type System } from "../../system/index.ts";
import { coreOf, followAlternating, momentName, walkAlternating } from "../battery/alternating-demand.ts";
import type { Build, PartView } from "../build.ts";
import { below, needed, type Report } from "../report.ts";

/** Amps that are rounding, not load. */
const SLACK = 1e-6;

/** Holds the main device of a board of alternating current against what is on together behind it, in amps (watts at the power factor that a load states, else at 1), on the line that carries most. */
export function judgeMain(build: Build, view: PartView, report: Report<"main">): void {
  const { subject, id, supply } = view;
  const rating = mainRating(build, id);
  const passed = view.elements.filter((e) => e.is === "contact" && e.a.startsWith(`${id}:in:`));
  const lines = passed.flatMap((e) => (e.is === "contact" && /:L\d?$/.test(e.a) ? [e] : []));
  if (rating === null || lines.length === 0 || supply === undefined) {
    report.notApplicable(subject, "alternating current, and its main states no rating");
    return;
  }
  const follow = followAlternating(build.system);
  const walk = walkAlternating(build.system);
  const supplied = suppliedIn(build.system);
  const volts = lineVolts(supply.nominal, supply.cores);
  const ahead = new Set(lines.map((line) => line.a));
  const behind = new Set(lines.map((line) => line.b));
  const asks = build.system.states.flatMap((state) => {
    const fed = walk(givingIn(state, build.system, supplied(state)), state, behind);
    return lines.flatMap((line) => {
      if (!fed.has(line.a)) return [];
      const on = follow([line.b], state, ahead).filter((l) => l.isOn);
      const sum = (of: (l: (typeof on)[number]) => number): number => on.reduce((all, l) => all + of(l), 0) / volts;
      const words = { on: lines.length > 1 ? ` on ${coreOf(line.a)}` : "" };
      return [{ state: momentName(state), words, least: sum((l) => l.low), most: sum((l) => l.high), on }];
    });
  });
  const [first] = asks;
  if (first === undefined) {
    report.notApplicable(subject, "no state feeds it through its main");
    return;
  }
  const least = asks.reduce((a, b) => (b.least > a.least ? b : a), first);
  const most = asks.reduce((a, b) => (b.most > a.most ? b : a), first);
  const said = (amps: number, { state, words }: (typeof asks)[number]) =>
    ({ measured: amps, limit: rating, unit: "A", margin: below(amps, rating), state, words }) as const;
  const open = most.on.filter((l) => l.isUnknown || l.low < l.high);
  if (least.least > rating + SLACK) report.fail(subject, "main", said(least.least, least));
  else if (open.some((l) => l.isUnknown) || most.most > rating + SLACK)
    report.cannotTell(
      subject,
      open.map((l) => needed(`what ${l.part} takes`, build.part(l.part)?.subject ?? subject)),
    );
  else report.pass(subject, said(most.most, most));
}

/** Lines of all that gives in a state; what passes a supply on is not a source then. */
function givingIn(state: GivenState, system: System, isSupplied: (terminal: string) => boolean): readonly string[] {
  return system.elements.flatMap((e) => {
    if (e.is === "source") {
      const gives = e.from === "transformer" || givesIn(state, e.part, system);
      return gives ? Object.entries(e.terminals).flatMap(([fn, t]) => (fn.startsWith("L") ? [t] : [])) : [];
    }
    if (e.is !== "converter" || e.outCurrent !== "AC") return [];
    if (e.passesFrom !== undefined && isSupplied(e.passesFrom)) return [];
    return e.outLines ?? [e.outPlus];
  });
}
