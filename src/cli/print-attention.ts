import type { CircuitDesign, Design, LoadDesign } from "../size/index.ts";
import { ampacityOf, ampsOf, limitOf, percentOf, voltsOf } from "./figures.ts";
import { wrap } from "./text-width.ts";

type Unmet = CircuitDesign["constraints"][number]["id"];

/** What an unmet constraint means in the real world, and its figures. */
function danger(id: Unmet, c: CircuitDesign): string {
  switch (id) {
    case "ampacity":
      return `the wire runs hotter than its insulation bears: ${ampsOf(c.steadyA)} A, it may carry ${ampacityOf(c.ampacityA)} A`;
    case "drop":
      return `too much voltage is lost on the way: ${percentOf(c.dropShare, 2)} %, the limit is ${limitOf(c.dropLimitShare)} %`;
    case "start":
      return `a load may not start: ${lowest(c, (l) => [l.startVolts, l.startsAbove])}`;
    case "least-volts":
      return `a load may cut out: ${lowest(c, (l) => [l.leastVolts, l.runsAbove])}`;
    case "device": {
      const over = c.devices.find((d) => d.ratingA !== null && d.mostA !== null && d.ratingA > d.mostA);
      const figures =
        over === undefined
          ? ""
          : `: ${ampsOf(over.ratingA)} A at ${over.at}, at most ${ampacityOf(over.mostA)} A is allowed`;
      return `the wire burns before its device opens${figures}`;
    }
    case "mechanical":
      return "the wire is thinner than the rules allow and may break";
    default:
      return `${id} is not met`;
  }
}

/** The loads of a circuit itself that have too little; those further on have a line of their own. */
function lowest(
  c: CircuitDesign,
  of: (load: LoadDesign) => readonly [volts: number | null, needed: number | null],
): string {
  const short = c.loads.flatMap((load) => {
    const [volts, needed] = of(load);
    return volts !== null && needed !== null && volts < needed
      ? [`${load.part} has ${voltsOf(volts)} V and needs ${voltsOf(needed)} V`]
      : [];
  });
  return short.length === 0 ? "it stands further on" : short.join(", ");
}

function unmet(c: CircuitDesign): string[] {
  const bad = c.constraints.filter((x) => x.outcome === "not met");
  const who = `${c.id} (${c.from} → ${c.to}${c.size === null ? "" : `, ${c.size.label}`}${c.outcome === "found" ? " as found" : c.outcome === "pinned" ? " pinned" : ""})`;
  if (bad.length === 0) return c.nothingIsEnough ? [`${who}: no size on sale is enough`] : [];
  return bad.map(({ id, alone }) => {
    const cure = alone === null ? "no size on sale is enough" : `${alone.label} would do`;
    return `${who}: ${danger(id, c)}; ${cure}`;
  });
}

/**
 * What a reader has to look at before anything else: wires that do not meet what is asked of them, loads that nothing reaches, loads that
 * the network cannot bear. Empty where all is well.
 */
export function printAttention(design: Design, width: number): string[] {
  const items = [
    ...(design.settled
      ? []
      : [`the sizes did not come to rest: ${design.unsettled.join(", ")}; take nothing below as final`]),
    ...design.circuits.flatMap(unmet),
    ...design.circuits.flatMap((c) =>
      c.devices
        .filter((d) => d.by === "proposed" && d.ratingA === null)
        .map((d) => `${c.id}: no device on sale carries its current at ${d.at}`),
    ),
    ...design.states.flatMap(({ id, dead, collapses, converged }) => [
      ...(converged ? [] : [`state \`${id}\`: no operating point was found; its figures are not to be used`]),
      ...dead.map((load) => `state \`${id}\`: \`${load}\` is on and no source reaches it`),
      ...collapses.map(({ load, says }) => `state \`${id}\`: \`${load}\` ${says}`),
    ]),
  ];
  if (items.length === 0) return [];
  return ["Look at these first", ...items.flatMap((item) => wrap(`! ${item}`, width, 2))];
}
