import { coordinate, type Coordination } from "../coordinate/index.ts";
import { deviceFamily, openingBand } from "../device/index.ts";
import { adiabaticK, faultLimit, usualFaultInsulation, withstandI2t } from "../ampacity/thermal/index.ts";
import { printCitation } from "../explain/index.ts";
import { celsius, squareMillimetres } from "../quantity/index.ts";
import type { EdgeOhms } from "../size/cold-edges.ts";
import type { EndFault, FaultCourse, FaultDevice, SeenBy } from "../size/fault-study.ts";
import type { EndPlace } from "../size/fault-places.ts";
import { studyFaults } from "../size/study-faults.ts";
import type { LaidFaults } from "../fault/index.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { faultsLaid, faultWay } from "./fault-way.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { currentBetween, shareBorne } from "./laws.ts";
import { ofCircuit, ofPart, onTheWay, type Thing } from "./leans-on.ts";
import { withUnit } from "./print-number.ts";
import { makeAt } from "./why-ampacity.ts";
import { figure, summed, taken, work } from "./work.ts";

/** A device by where it stands. */
export const deviceAt = ({ circuit, part, way }: Pick<FaultDevice, "circuit" | "part" | "way">): string =>
  way !== undefined ? `${part}:${way}` : circuit === null ? part : `${circuit} at ${part}`;

const ampsText = (x: number): string => withUnit(x, "A", 3);
const secondsText = (x: number): string => withUnit(x, "s", 2);

const LEAST_SAYS =
  "one battery or string alone, at its lowest charge, cold and aged; conductors as hot as their insulation bears, every joint counted";
const GREATEST_SAYS =
  "every source pushes, full, warm and new; cold conductors, no joints, every contact closed that may be";

/** How a fault ends, in words. */
const endings: Readonly<Record<FaultCourse["outcome"], string>> = {
  cleared: "nothing feeds it any more",
  limited: "only sources with a limit go on feeding it",
  "too small": "the devices on its way may stay closed by their own standard",
  "not proven": "nothing is published of when a device on its way opens, or nobody knows whether one stands there",
  "not seen": "no device stands between it and a battery",
  none: "no current flows",
};

/**
 * Explains a short at the ends of a circuit, or at the load that it leads to: the greatest and the least, element by element; who sees it, from which side and
 * for how long; what opens in which order, what goes on feeding it, what conductors bear, what goes dark.
 *
 * @param part load at which the short is; left out: at both ends of the circuit
 */
export function explainFault(built: Built, { index, circuit }: CircuitAt, part: string | null): Explanation {
  const study = studyFaults(built.settled);
  const own = study.circuits[index] ?? null;
  const subject = part === null ? `${circuit.id}.fault` : `${part}.fault`;
  const whom = part ?? circuit.id;
  const question = part === null ? `What does a short in ${circuit.id} draw?` : `What does a short at ${part} draw?`;
  const untold = (why: string): Explanation =>
    finish(built, emptyExplanation(subject, question, `A short at ${whom} cannot be told: ${why}.`), [
      ofCircuit(circuit.id),
    ]);
  if (own === null)
    return untold(
      circuit.current === "AC"
        ? `shorts of alternating current are told by \`${circuit.id}.loop\` and \`${circuit.id}.interrupt\``
        : "it has no conductor of its own",
    );
  const laid = faultsLaid(built.settled);
  const asked = (end: EndFault): boolean =>
    part === null || (end.end === "to" ? circuit.to.part : circuit.from.part) === part;
  const ends = own.ends
    .filter((e) => asked(e))
    .map((e) => ({ end: e, place: laid.places.find((p) => isPlaceOf(built, p, e)) }))
    .sort((a, b) => (b.end.greatest?.amps.high ?? 0) - (a.end.greatest?.amps.high ?? 0));
  if (ends.length === 0) return untold("no live conductor of it ends there");

  const sections: WorkedSection[] = [];
  const things: Thing[] = [ofCircuit(circuit.id)];
  for (const { end, place } of ends) {
    if (place === undefined) continue;
    sections.push(...endSections(built, end, place));
  }
  for (const source of [...study.stores, ...study.limited]) things.push(ofPart(source.part));
  for (const { element, what } of sections.flatMap((s) => s.way))
    if (what === "wire") things.push(onTheWay(circuitOf(built, element)));
  const borne = part === null ? borneSection(built, index) : null;
  if (borne !== null) sections.push(borne.section);
  const dark = darkSays(
    coordinate(built.settled),
    ends.map(({ end }) => end),
  );
  if (dark !== "") sections.push({ title: "What goes dark", says: dark, steps: [], way: [] });

  // The figures are those of the schedule: to the return. Shorts to a structure stand in sections of their own.
  const toReturn = ends.filter(({ end }) => end.to === "return");
  const highs = toReturn.flatMap(({ end }) => (end.greatest === null ? [] : [end.greatest.amps.high]));
  const live = own.conductors.filter(({ role }) => role === "live");
  const leasts = toReturn.every(({ end }) => end.cannotTell === null)
    ? toReturn.flatMap(({ end }) => end.least[0]?.amps.low ?? [])
    : [];
  const cleared = live.map(({ seconds }) => seconds.high);
  const figures: WorkedFigure[] = [
    ...highs.slice(0, 1).map((x) => figure("faultGreatestA", x, "A", ampsText)),
    ...(leasts.length === 0 ? [] : [figure("faultLeastA", Math.min(...leasts), "A", ampsText)]),
    ...(part !== null || cleared.includes(null) || live.some(({ outcome }) => outcome !== "cleared")
      ? []
      : [figure("faultClearedByS", Math.max(...cleared.map((x) => x ?? 0)), "s", secondsText)]),
    ...(borne?.figures ?? []),
  ];
  const [most] = highs;
  const worst = ends
    .flatMap(({ end }) => [end.greatest?.course, ...end.least.map((l) => l.course)])
    .flatMap((c) => c ?? []);
  const open = worst.find(({ outcome }) => outcome !== "cleared");
  const unsure = ends.find(({ end }) => end.cannotTell !== null)?.end.cannotTell ?? null;
  const least =
    leasts.length === 0
      ? unsure === null
        ? "no battery alone reaches it"
        : `the least cannot be told, since ${unsure}`
      : `at least ${ampsText(Math.min(...leasts))}`;
  const unknown = [...new Set(ends.flatMap(({ end }) => end.greatest?.unknown ?? []))];
  const beyond = unknown.length === 0 ? "" : `, and more by what ${unknown.join(" and ")} gives, which nobody knows`;
  const answer =
    most === undefined
      ? `No source reaches a short at ${whom}.`
      : `A short at ${whom} draws at most ${ampsText(most)}${beyond}; ${least}; ${open === undefined ? `every device on the way to a battery opens in time to end it, ${within(worst)}` : endings[open.outcome]}.`;
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures,
      sections,
      cautions: [
        "Never test a short: it burns copper and bursts batteries. These are steady currents; arcs and the heating of wires meanwhile are left out.",
        ...study.notStudied.map((says) => `${says.charAt(0).toUpperCase()}${says.slice(1)}.`),
      ],
      further: [`${circuit.id}.selectivity`, `${circuit.id}.interrupt`, `${circuit.id}.heat`, circuit.id],
    },
    distinct(things),
  );
}

const within = (courses: readonly FaultCourse[]): string =>
  courses.some((c) => c.seconds.high === null)
    ? "though nobody can say when, should they open in another order"
    : `within ${secondsText(Math.max(...courses.map((c) => c.seconds.high ?? 0)))} at the worst`;

const distinct = (things: readonly Thing[]): Thing[] =>
  things.filter((one, i) => things.findIndex((x) => x.name === one.name && x.keys.join() === one.keys.join()) === i);

const circuitOf = ({ system }: Built, conductor: string): string =>
  system.circuits.find((c) => c.conductors.some((x) => x.id === conductor))?.id ?? conductor;

function isPlaceOf({ settled }: Built, place: EndPlace, end: EndFault): boolean {
  const { grid } = settled.model;
  return (
    grid.edges[place.edge]?.id === end.conductor &&
    place.end === end.end &&
    place.to === end.to &&
    (grid.nodeNames[place.against] ?? "") === end.against
  );
}

function endSections(built: Built, end: EndFault, place: EndPlace): WorkedSection[] {
  const { settled } = built;
  const laid = faultsLaid(settled);
  const { cases, edges } = laid;
  const where = `${end.conductor} at its ${end.end} end, to ${end.to === "structure" ? "the structure at " : ""}${end.against}`;
  const list: WorkedSection[] = [];
  if (end.greatest !== null) {
    list.push(currentSection(built, `The greatest: ${where}`, GREATEST_SAYS, place, cases.greatest, edges.cold, true));
    list.push(courseSection(laid.devices, `What opens at the greatest: ${where}`, end.greatest.course));
  }
  if (end.cannotTell !== null) {
    list.push({ title: `The least: ${where}`, says: `it cannot be told: ${end.cannotTell}`, steps: [], way: [] });
    return list;
  }
  const [least] = end.least;
  if (least === undefined) return list;
  const alone = cases.alone.find(({ group }) =>
    group.every((s) => least.sources.includes(cases.sources.stores[s]?.part ?? "")),
  );
  const position = alone?.in.find(({ state }) => state === least.state);
  const may =
    least.opens === null ? "" : "; a management in it may open before any device does, so it is no certain source";
  const says = `${LEAST_SAYS}: ${least.sources.join(" with ")}${least.state === "" ? "" : ` as switched in "${least.state}"`}${may}`;
  if (position === undefined) {
    list.push({
      title: `The least: ${where}`,
      says,
      steps: [taken("what it pushes", least.amps.low, "A", "limited sources alone")],
      way: [],
    });
  } else list.push(currentSection(built, `The least: ${where}`, says, place, position.low, edges.hot, false));
  list.push(courseSection(laid.devices, `What opens at the least: ${where}`, least.course));
  return list;
}

/** What flows into a short: every element of the way, and what each source pushes. */
function currentSection(
  { settled }: Built,
  title: string,
  says: string,
  place: EndPlace,
  laidCase: LaidFaults,
  ohms: EdgeOhms,
  isCold: boolean,
): WorkedSection {
  const laid = faultsLaid(settled);
  const { cases } = laid;
  const way = faultWay(settled, laid, place, laidCase, ohms, isCold);
  if (way === null) return { title, says: `${says}; no battery pushes`, steps: [], way: [] };
  const { fault, elements, volts } = way;
  const steps: WorkedStep[] = [];
  const battery = cases.sources.stores[way.store]?.part ?? "";
  if (elements.length > 0) {
    const side = (pole: "out" | "back"): number =>
      elements.filter((e) => e.pole === pole).reduce((sum, e) => sum + e.volts, 0);
    steps.push(
      taken(
        `volts of ${battery} at rest`,
        volts,
        "V",
        isCold ? "its curve at full charge" : "its curve at its lowest charge",
      ),
      summed("lost on the way, out and back: all of them", [{ value: side("out"), says: "out" }, { value: side("back"), says: "back" }], "V", "ΔU"), // prettier-ignore
    );
  }
  steps.push(
    taken("volts at the place before the short", fault.openVolts, "V", "the network without it", "derived"),
    taken("resistance seen from it", fault.ohms, "Ω", "the network without its sources", "derived"),
  );
  const pushes = [
    ...fault.stores.map(({ store, amps }) => ({ says: cases.sources.stores[store]?.part ?? "", value: amps })),
    ...fault.limited.map(({ limited, amps }) => ({ says: cases.sources.limited[limited]?.part ?? "", value: amps })),
  ].filter(({ value }) => Math.abs(value) > 1e-6 * Math.abs(fault.amps));
  const total = pushes.reduce((sum, { value }) => sum + value, 0);
  if (fault.limited.length === 0 && fault.amps > 0) {
    steps.push(
      ...work(() => currentBetween({ volts: fault.openVolts, ohms: fault.ohms }), "current of the short").steps,
    );
  }
  // Units of a string carry the same current, and what is charged takes some: then the sources do not add up to the short.
  const isSum = Math.abs(total - fault.amps) < 1e-6 * Math.abs(fault.amps);
  if (isSum && pushes.length > 1) steps.push(summed("pushed into the short", pushes, "A", "Ik"));
  else if (!isSum || fault.limited.length > 0) {
    steps.push(...pushes.map(({ says: part, value }) => taken(`${part} pushes`, value, "A", "")));
    if (fault.limited.length > 0)
      steps.push(taken("current of the short", fault.amps, "A", "the solved network", "derived"));
  }
  return { title, says, steps, way: elements };
}

/** Who sees a fault, when each opens, and how it ends. */
function courseSection(devices: readonly FaultDevice[], title: string, course: FaultCourse): WorkedSection {
  const steps = course.sees.flatMap((seen) => seenSteps(devices[seen.device], seen));
  const order = course.opened.map(({ device, amps, isSure }) => {
    const own = devices[device];
    return `${own === undefined ? "?" : deviceAt(own)} at ${ampsText(amps)}${isSure ? "" : ", though others may open as well"}`;
  });
  const left = course.left.map(({ part, amps }) => `${part} ${ampsText(amps)}`);
  const when =
    course.seconds.high === null
      ? "nobody can say by when"
      : `after ${secondsText(course.seconds.low)} to ${secondsText(course.seconds.high)}`;
  const says = [
    course.sees.length === 0 ? "no device sees it" : "",
    order.length === 0 ? "no device certainly opens" : `opens ${order.join(", then ")}`,
    `${endings[course.outcome]}${course.outcome === "cleared" ? `, ${when}` : ""}`,
    left.length === 0 ? "" : `goes on feeding it: ${left.join(", ")}`,
  ].filter((part) => part !== "");
  return { title, says: says.join("; "), steps, way: [] };
}

function seenSteps(own: FaultDevice | undefined, { amps, from, least, most, why }: SeenBy): WorkedStep[] {
  const name = own === undefined ? "?" : deviceAt(own);
  const { family = null, rating = null } = own ?? {};
  const kind = family === null ? "device of unknown kind" : deviceFamily(family).name;
  const what = `${rating === null ? "" : `${ampsText(rating)} `}${kind}`;
  const seen: WorkedStep = { ...taken(`${name} sees, from ${from}`, amps, "A", what), working: withUnit(amps, "A") };
  if (why === "within its rating") return [{ ...seen, source: `${what}: within its rating, it stays closed` }];
  const band = family === null || rating === null ? null : openingBand(family, rating, amps);
  const bound = (
    says: string,
    seconds: number | null,
    edge: { source: Parameters<typeof printCitation>[0]; trust: WorkedStep["trust"] } | null | undefined,
    none: string,
  ): WorkedStep =>
    seconds === null
      ? {
          ...taken(`${name} ${says}`, 0, "", edge == null ? "" : printCitation(edge.source), null),
          value: none,
          working: none,
          text: none,
        }
      : taken(`${name} ${says}`, seconds, "s", edge == null ? "" : printCitation(edge.source), edge?.trust ?? null);
  return [
    seen,
    // Nothing that keeps it closed is published, or it may open at once.
    bound(
      "stays closed until",
      least === 0 ? null : least,
      band?.min,
      least === 0 ? "it may open at once" : "for good",
    ),
    bound(
      "has opened by",
      most,
      band?.max,
      why === "may stay closed" ? "it may stay closed by its standard" : "nothing is published of it",
    ),
  ];
}

/** What conductors bear of the hardest short that is cleared soon. */
function borneSection(built: Built, index: number): { section: WorkedSection; figures: WorkedFigure[] } | null {
  const { settled } = built;
  const study = studyFaults(settled);
  const conductors = study.circuits[index]?.conductors ?? [];
  const c = settled.model.circuits[settled.model.at[index] ?? -1];
  const worst = conductors.reduce<(typeof conductors)[number] | null>(
    (a, b) => (b.withstand.share !== null && (a === null || b.withstand.share > (a.withstand.share ?? -1)) ? b : a),
    null,
  );
  if (worst === null || c === undefined) return null;
  const { withstand } = worst;
  const steps: WorkedStep[] = [];
  const make = makeAt(built, c);
  if (make !== null) {
    const { insulationC, parallel } = c.circuit;
    const area = squareMillimetres(make.size.areaMm2);
    const limit = faultLimit(usualFaultInsulation(insulationC.low), area);
    const k = work(
      () => adiabaticK({ metal: make.metal, initialC: celsius(insulationC.low), finalC: limit.finalC }),
      "k of its metal",
    );
    const one = work(
      () => withstandI2t({ k: k.value, area }),
      parallel > 1 ? "what one conductor bears" : "what it bears",
    );
    steps.push(...k.steps, ...one.steps);
    if (parallel > 1 && !withstand.isInLeg)
      steps.push(
        taken(
          `${parallel} in parallel, by the square of their number`,
          withstand.limit ?? 0,
          "A²s",
          "current divides alike",
        ),
      );
  }
  const figures: WorkedFigure[] = [];
  const limit = withstand.isInLeg ? withstand.leg : withstand.limit;
  if (withstand.i2t !== null && limit !== null) {
    steps.push(
      taken("let through at least", withstand.i2t.low, "A²s", "I² t before any device that sees it may open"),
      taken("let through at most", withstand.i2t.high, "A²s", "Σ I² t by the greatest opening times"),
    );
    const through = withstand.i2t.high;
    const share = work(() => shareBorne({ through, limit }), "of what it bears");
    steps.push(...share.steps);
    figures.push(figure("faultBorneShare", share.value / 100, "", (x) => withUnit(100 * x, "%", 3)));
  }
  const forGood =
    withstand.forGood === null
      ? ""
      : `; ${ampsText(withstand.forGood.amps)} may flow for good in a short in ${withstand.forGood.at}`;
  return {
    section: {
      title: `What ${worst.conductor} bears, the hardest pressed of its conductors`,
      says: `the hardest short that is cleared within 5 s is in ${withstand.at ?? ""}${forGood}`,
      steps,
      way: [],
    },
    figures,
  };
}

function darkSays({ faults, devices }: Coordination, ends: readonly EndFault[]): string {
  const names = (list: readonly number[]): string =>
    list.flatMap((d) => (devices[d] === undefined ? [] : [deviceAt(devices[d])])).join(", ");
  const says = ends.flatMap((end) => {
    const own = faults.find((f) => f.conductor === end.conductor && f.end === end.end);
    if (own === undefined) return [];
    const first = own.whole[0];
    const who = first === undefined ? "no device parts it from every battery" : `${names([first])} is to open`;
    const dark = own.dark.length === 0 ? "no load goes dark" : `${own.dark.join(", ")} without supply`;
    const more =
      own.mayOpen.length === 0
        ? ""
        : `; may open too: ${names(own.mayOpen)}${own.mayBeDark.length === 0 ? "" : `, which leaves dark besides ${own.mayBeDark.join(", ")}`}`;
    return [`${end.conductor} at its ${end.end} end: ${who}, ${dark}${more}`];
  });
  return [...new Set(says)].join(". ");
}
