import { deviceFamily } from "../device/index.ts";
import { printCitation } from "../explain/index.ts";
import { reactancePerMetre } from "../protect/earth-fault/impedance.ts";
import { celsius, metres, ohmsPerMetre } from "../quantity/index.ts";
import { earthFaultsAt, earthFaultsOf, earthLoopOf, missingOf, viewBuild } from "../rules/index.ts";
import type { EarthFault, EarthFaultSource, EarthFaultStudy, LoopPiece } from "../size/study-earth-faults-shapes.ts";
import { conductorResistance, resistancePerMetre20 } from "../wire/index.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { dividedBy } from "./laws.ts";
import { impedanceOfLoop, insideOfSupply, leastInLoop, mostOfLoop, reactanceOfLoop } from "./laws-of-loops.ts";
import { ofCircuit, ofPart, onTheWay } from "./leans-on.ts";
import { factOf, saidAt } from "./plan-place.ts";
import { withUnit } from "./print-number.ts";
import { figure, picked, summed, taken, work } from "./work.ts";

const ohmsText = (x: number): string => withUnit(x, "Ω", 3);
const ampsText = (x: number): string => withUnit(x, "A", 3);
const secondsText = (x: number): string => withUnit(x, "s", 3);

/** The earth-fault loop of a circuit of alternating current, one source after the other: what it comes to, what flows, what opens and when. */
export function explainLoop(built: Built, { circuit }: CircuitAt): Explanation {
  const { id } = circuit;
  const subject = `${id}.loop`;
  const question = `What flows when a line of ${id} touches a case, and what opens?`;
  const further = [id, `${id}.device`, "earth"];
  if (circuit.current !== "AC") {
    const says = `${id} carries direct current: a loop of earth is asked of alternating current, and its shorts are told by ${id}.fault.`;
    return finish(built, { ...emptyExplanation(subject, question, says), further: [`${id}.fault`] }, [ofCircuit(id)]);
  }
  const build = viewBuild(built);
  const study = earthFaultsOf(build);
  const faults = earthFaultsAt(build, id)?.faults ?? [];
  const parts = faults.flatMap((fault) => {
    const source = study.sources[fault.source];
    return source === undefined ? [] : [{ fault, source, ...loopSection(built, fault, source, study) }];
  });
  const asked = earthLoopOf(build, id);
  const answer =
    parts.length === 0
      ? `${id}: no source that is known drives an earth fault through it.`
      : `${id}, a fault at its far end: ${parts.map((p) => p.answer).join("; ")}.`;
  const circuits = new Set(faults.flatMap((f) => [...f.pieces.map((p) => p.circuit), ...f.untold]));
  circuits.delete(id);
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures: parts.flatMap((p) => p.figures),
      sections: parts.map((p) => p.section),
      cautions: [
        ...(asked.outcome === "not stated" && parts.length > 0 ? [`No size of ${id} is held against it: ${asked.says}.`] : []), // prettier-ignore
        "The loop as built is measured, not worked out: a licensed electrician measures it, tests what opens on leakage, and local code decides.",
      ],
      further,
    },
    [
      ofCircuit(id),
      ...[...circuits].filter((c) => built.system.circuits.some((x) => x.id === c)).map(onTheWay),
      ...new Set(parts.map((p) => p.source.part)),
    ].map((t) => (typeof t === "string" ? ofSupply(t) : t)),
  );
}

/** A source with what is said of its loop. */
const ofSupply = (name: string): ReturnType<typeof ofPart> => {
  const part = ofPart(name);
  return { ...part, keys: [...part.keys, "loop impedance", "prospective current", "surge", "bonded", "earthing"] };
};

interface LoopTold {
  readonly section: WorkedSection;
  readonly figures: readonly WorkedFigure[];
  readonly answer: string;
}

const sorts: Readonly<Record<EarthFaultSource["from"], string>> = {
  shore: "shore",
  generator: "a generator",
  transformer: "a transformer",
  inverter: "an inverter",
};

function loopSection(built: Built, fault: EarthFault, source: EarthFaultSource, study: EarthFaultStudy): LoopTold {
  const title = `Fed by ${source.part}, ${sorts[source.from]}`;
  const fed = `fed by ${source.part} `;
  if (fault.loop !== "closed") {
    const why = {
      "no join": "its neutral meets earth nowhere, so that a first fault drives no current and nothing opens",
      "no protective conductor": "no protective conductor leads from there to where neutral meets earth: nothing opens",
      unknown: "nobody says whether its neutral meets earth",
    }[fault.loop];
    return { section: { title, says: why, steps: [], way: [] }, figures: [], answer: fed + why };
  }
  const worked = workLoop(built, fault, source);
  const cut = workCut(fault, study);
  const metal = source.earthing === "TT" ? "the soil leads back (TT)" : "metal leads back (TN)";
  const limit =
    fault.limitedBy === null || source.limit === null
      ? ""
      : `, limited by source to ${ampsText(source.limit.low)}${source.limit.seconds === null ? "" : ` for ${secondsText(source.limit.seconds)}`}`;
  const says = `neutral meets earth at ${fault.join ?? "?"}; ${metal}${limit}${fault.untold.length === 0 ? "" : `; not told: ${fault.untold.join(", ")}`}`;
  const isLimited = fault.limitedBy !== null;
  const flows =
    fault.least === null
      ? "nobody knows the least that flows"
      : isLimited
        ? `${ampsText(fault.least)} flow, limited by source`
        : `${ampsText(fault.least)} flow through ${ohmsText(fault.zsHot ?? 0)}`;
  return {
    section: { title, says, steps: [...worked, ...cut.steps], way: [] },
    figures: [
      figure("zsHotOhms", fault.zsHot, "Ω"),
      figure("zsColdOhms", fault.zsCold, "Ω"),
      figure("earthFaultLeastA", fault.least, "A"),
      figure("opensWithinS", fault.disconnection?.seconds ?? null, "s"),
      figure("allowedS", fault.limit?.seconds ?? null, "s"),
      figure("greatestLoopOhms", isLimited ? null : fault.greatestLoop, "Ω"),
      figure("sourceVolts", fault.sourceVolts, "V"),
    ],
    answer: `${fed}${flows}; ${cut.answer}${isHarmless(fault) ? `; ${source.part} keeps up no more than ${withUnit(fault.sourceVolts ?? 0, "V", 3)} meanwhile, and up to ${HARMLESS} V is as good as off` : ""}`,
  };
}

/** Where a source keeps up no more, it is as good as off: IEC 60364-4-41 411.3.2.5. */
const HARMLESS = 50;

const isHarmless = ({ outcome, sourceVolts }: EarthFault): boolean =>
  outcome !== "in time" && sourceVolts !== null && sourceVolts <= HARMLESS;

const words: Readonly<Record<LoopPiece["is"], string>> = {
  line: "line",
  protective: "protective conductor",
  neutral: "neutral",
};

/** The loop, hot and at its longest, and the least current in it. */
function workLoop(built: Built, fault: EarthFault, source: EarthFaultSource): WorkedStep[] {
  const steps: WorkedStep[] = [];
  const ohms: { value: number; says: string }[] = [];
  const { inside, pieces, volts } = fault;
  if (inside !== null && inside.r > 0) {
    const at = saidAt(built.plan, "parts", source.part, "loop impedance", "prospective current");
    const isLoop = factOf(built.plan, "parts", source.part, "loop impedance") !== null;
    if (isLoop) steps.push(taken(`loop of ${source.part}, greatest`, inside.r, "Ω", at));
    else {
      const amps = volts / inside.r;
      steps.push(taken("prospective current, least", amps, "A", at));
      steps.push(...work(() => insideOfSupply({ volts, amps }), `loop of ${source.part}, greatest`).steps);
    }
    ohms.push({ value: inside.r, says: "Re" });
  }
  let length = 0;
  let hertz = 0;
  for (const { is, conductor, laid } of pieces) {
    if (laid === null) continue;
    const per = work(() => resistancePerMetre20(laid.make), `one metre of ${laid.make.size.label} at 20 °C`);
    const one = work(
      () =>
        conductorResistance({
          metal: laid.metal,
          at20: ohmsPerMetre(per.value.ohmsPerMetre),
          length: metres(laid.metres.high),
          conductorC: celsius(Math.max(20, laid.hotC)),
        }),
      `${conductor}, ${words[is]}, hot`,
    );
    const shown = new Set(steps.map((s) => JSON.stringify(s)));
    steps.push(...[...per.steps, ...one.steps].filter((s) => !shown.has(JSON.stringify(s))));
    let value = Number(one.value);
    if (laid.parallel > 1) {
      const shared = work(() => dividedBy({ one: value, count: laid.parallel }), `${conductor}, all in parallel`);
      steps.push(...shared.steps);
      value = shared.value;
    }
    ohms.push({ value, says: `R(${conductor})` });
    length += laid.metres.high / laid.parallel;
    hertz = Math.max(hertz, laid.hertz);
  }
  if (fault.zsHot === null) return steps;
  const r = summed("resistance of the loop, hot", ohms, "Ω", "R");
  const x = work(
    () => reactanceOfLoop({ perMetre: reactancePerMetre(50), hertz, metres: length }),
    "reactance of the loop",
  );
  const total = Number(r.value);
  const zs = work(() => impedanceOfLoop({ r: total, x: x.value }), "impedance of the loop, hot");
  if (zs.value <= 0) return [...steps, r];
  const free = work(() => leastInLoop({ share: fault.voltsShare, volts, ohms: zs.value }), "least current of an earth fault"); // prettier-ignore
  steps.push(r, ...x.steps, ...zs.steps, ...free.steps);
  if (source.limit === null) return steps;
  const { low, trust } = source.limit;
  const given = source.isDeclared ? saidAt(built.plan, "parts", source.part, "prospective current", "surge") : "";
  return [
    ...steps,
    taken(`${source.part} gives at least`, low, "A", given === "" ? "usual of its kind, by its rating" : given, trust),
    picked(
      "what surely flows",
      "min",
      [
        { value: free.value, says: "loop" },
        { value: low, says: "source" },
      ],
      "A",
    ),
  ];
}

/** What opens and when, beside what is allowed. */
function workCut(fault: EarthFault, study: EarthFaultStudy): { steps: WorkedStep[]; answer: string } {
  const { limit, disconnection: cut, opener, volts, voltsShare: share } = fault;
  const steps: WorkedStep[] = [];
  if (limit !== null) {
    const binds = limit.binds ? "" : ", which its rule set does not ask for: the trade's measure";
    steps.push(taken(`allowed${binds}`, limit.seconds, "s", printCitation(limit.source), limit.trust));
  }
  const devices = fault.devices.map((d) => deviceSays(study, d));
  const guards = fault.residual.map((r) => guardSays(study, r));
  const there = [...new Set([...devices, ...guards])];
  const onWay = there.length === 0 ? "no device aboard is on its way" : `on its way: ${there.join(", ")}`;
  if (cut === null || limit === null) return { steps, answer: `no time is asked of it, ${onWay}` };
  if (cut.openingAmps !== null) {
    const amps = cut.openingAmps;
    steps.push(
      taken("opens the quickest fuse or breaker in that time", amps, "A", "its time–current gates", cut.trust),
    );
    if (fault.limitedBy === null)
      steps.push(...work(() => mostOfLoop({ share, volts, amps }), "the loop may come to").steps);
  }
  const name = opener === null ? null : cut.by === "device" ? deviceSays(study, opener) : guardSays(study, opener);
  if (name !== null && cut.seconds !== null) {
    const [source] = cut.sources;
    steps.push(taken(`${name} has opened within`, cut.seconds, "s", source === undefined ? "" : printCitation(source), cut.trust)); // prettier-ignore
  }
  const times = name === null || cut.seconds === null ? "" : `${name} opens within ${secondsText(cut.seconds)}`;
  const allowed = `${secondsText(limit.seconds)} allowed`;
  switch (cut.outcome) {
    case "in time":
      return { steps, answer: `${times}, ${allowed}` };
    case "cannot tell":
      return { steps, answer: `not proven, ${missingOf(cut.missing, fault.untold)} (${onWay}; ${allowed})` };
    default: {
      const need = cut.openingAmps === null ? "" : `, ${ampsText(cut.openingAmps)} would open one in time`;
      return { steps, answer: `${times === "" ? "nothing is sure to open" : times}, too late: ${allowed}${need} (${onWay})` }; // prettier-ignore
    }
  }
}

function deviceSays({ devices }: EarthFaultStudy, at: number): string {
  const device = devices[at];
  if (device === undefined) return "?";
  const kinds = device.families.map((f) => deviceFamily(f).name);
  const kind = kinds.length === 1 ? kinds[0] : `${device.kind} of unknown curve`;
  return `${device.at} (${device.rating === null ? "" : `${ampsText(device.rating)} `}${kind ?? device.kind})`;
}

function guardSays({ residual }: EarthFaultStudy, at: number): string {
  const guard = residual[at];
  if (guard === undefined) return "?";
  return `the residual device of ${guard.part}${guard.amps === null ? ", of unknown current" : ` (${withUnit(1000 * guard.amps, "mA", 3)})`}`;
}
