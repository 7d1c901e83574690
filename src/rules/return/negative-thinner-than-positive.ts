import { cite } from "../../explain/index.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { above } from "../report.ts";
import { defineRule } from "../rule.ts";

const bank = (wire: string): string =>
  `circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 35 mm², sheathed: yes, fuse: 100 A class T at B1 }\n  W03: { path: B1:− → BN, length: 0.6 m, wire: ${wire} }`;

export const negativeThinnerThanPositive = defineRule({
  id: "return/negative-thinner-than-positive",
  title: "Negative thinner than positive",
  severity: "should",
  danger: "a short, or all loads together, burns the thin return, while the fuse in the plus stands",
  why: `What goes out through the plus of a part comes home through its minus. The negatives at its minus have together at least the area of its thickest plus lead, or carry at least what the devices in the
    plus let through: then the fuse guards both.`,
  silent: [
    "parts whose plus and minus lie in one circuit, of one size",
    "parts with a plus or a minus of which the size is not known",
  ],
  sources: [{ cite: cite("trade-practice", "the negative as thick as the positive", "practice") }],
  messages: {
    thinner:
      "{place} is {measured} at the minus of {part}, where {limit} leads from its plus, and it carries {carries}: less than the device there lets through",
  },
  cures: ["equal-size"],
  examples: {
    good: [
      { says: "as thick as its plus", plan: bank("35 mm²") },
      { says: "thinner, and guarded by the fuse in the plus", plan: bank("25 mm²") },
      { says: "sizes that are chosen", plan: "" },
    ],
    bad: [{ says: "a thin negative at the battery", plan: bank("6 mm²"), fails: "thinner", about: "circuits.W03" }],
  },
  judge(build, report) {
    const byTerminal = leadsByTerminal(build);
    for (const part of build.parts) {
      for (const element of part.elements) {
        if (element.is !== "store" && element.is !== "feed" && element.is !== "draw") continue;
        const minus = byTerminal.get(element.minus) ?? [];
        const alone = minus.filter((c) => c.circuit.conductors.every((k) => k.role === "return"));
        if (alone.length === 0) continue;
        judgeOne(part, byTerminal.get(element.plus) ?? [], minus, alone);
      }
    }

    function judgeOne(
      part: PartView,
      plus: readonly CircuitView[],
      minus: readonly CircuitView[],
      alone: readonly CircuitView[],
    ): void {
      const [thinnest] = [...alone].sort((a, b) => (a.design.size?.areaMm2 ?? 0) - (b.design.size?.areaMm2 ?? 0));
      if (thinnest === undefined) return;
      const { subject } = thinnest;
      const [out, back] = [greatest(plus.map(areaOf)), sum(minus.map(areaOf))];
      if (out === null || back === null || out === 0) {
        report.notApplicable(
          subject,
          out === 0 ? "nothing leads from the plus" : "a size of the plus or the minus is not known",
        );
        return;
      }
      const said = { measured: back, limit: out, unit: "mm²", margin: above(back, out) } as const;
      const carries = sum(minus.map((c) => c.design.ampacityA));
      const passed = greatest(plus.map(letThrough));
      if (back >= out * ALIKE || (carries !== null && passed !== null && carries >= passed)) report.pass(subject, said);
      else
        report.fail(subject, "thinner", {
          ...said,
          words: {
            part: part.id,
            carries: carries === null ? "what nobody knows" : { value: carries, unit: "A" },
          },
        });
    }
  },
});

/** Sizes of two systems that stand for each other differ by less than this: 2/0 AWG and 70 mm² by 4 %. */
const ALIKE = 0.95;

const sum = (list: readonly (number | null)[]): number | null =>
  list.reduce<number | null>((all, one) => (all === null || one === null ? null : all + one), 0);

const greatest = (list: readonly (number | null)[]): number | null =>
  list.reduce<number | null>((all, one) => (all === null || one === null ? null : Math.max(all, one)), 0);

const areaOf = ({ design, circuit }: CircuitView): number | null =>
  design.size === null ? null : design.size.areaMm2 * circuit.parallel;

/** What may flow for long in a plus lead: what its device lets through, else what it carries itself. */
function letThrough({ design }: CircuitView): number | null {
  const ratings = design.devices.flatMap((d) => (d.ratingA === null ? [] : [d.ratingA]));
  return ratings.length > 0 ? Math.min(...ratings) : design.ampacityA;
}

/** Circuits of direct current by the terminals that their conductors land on. */
function leadsByTerminal(build: Build): ReadonlyMap<string, readonly CircuitView[]> {
  const leads = new Map<string, CircuitView[]>();
  for (const view of build.circuits) {
    if (view.model === null) continue;
    for (const { from, to, role } of view.circuit.conductors) {
      if (role === "protective") continue;
      for (const t of [from, to]) {
        const list = leads.get(t);
        if (list === undefined) leads.set(t, [view]);
        else if (!list.includes(view)) list.push(view);
      }
    }
  }
  return leads;
}
