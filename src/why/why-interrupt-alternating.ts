import { deviceFamily, interruptRating } from "../device/index.ts";
import { earthFaultsAt, earthFaultsOf, viewBuild } from "../rules/index.ts";
import type { AlternatingBreaking, EarthFaultSource, EarthFaultStudy } from "../size/study-earth-faults-shapes.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { insideOfSupply, mostInShort } from "./laws-of-loops.ts";
import { ofCircuit, ofPart } from "./leans-on.ts";
import { factOf, saidAt } from "./plan-place.ts";
import { withUnit } from "./print-number.ts";
import { figure, picked, taken, work } from "./work.ts";

const ampsText = (x: number): string => withUnit(x, "A", 3);

type Device = EarthFaultStudy["devices"][number];

/**
 * What the devices of a circuit of alternating current may have to break, source by source, beside what they break; of a circuit without one, what guards it from
 * upstream.
 *
 * Shorts from line to neutral, as the study tells them; those between two lines are not looked at.
 */
export function explainAlternatingInterrupt(built: Built, { circuit }: CircuitAt): Explanation {
  const { id } = circuit;
  const build = viewBuild(built);
  const study = earthFaultsOf(build);
  const own = study.devices.flatMap((device, index) => (device.circuit === id ? [index] : []));
  const guards = [...new Set((earthFaultsAt(build, id)?.shorts ?? []).flatMap((s) => s.devices.at(-1) ?? []))];
  const listed = own.length > 0 ? own : guards;
  const told = listed.flatMap((index) => {
    const device = study.devices[index];
    const breaking = study.breaking.find((b) => b.device === index);
    return device === undefined || breaking === undefined ? [] : [tellDevice(built, device, breaking, study)];
  });
  const answers = told.map((t) => t.answer).join("; ");
  const answer =
    told.length === 0
      ? `${id} has no device, and none is known ahead of it: nobody can say what breaks a short in it.`
      : own.length > 0
        ? `${answers}.`
        : `${id} has no device of its own; what lies ahead guards it: ${answers}.`;
  return finish(
    built,
    {
      ...emptyExplanation(`${id}.interrupt`, `Does the device of ${id} break what a short draws?`, answer),
      figures: told.flatMap((t) => t.figures),
      sections: told.map((t) => t.section),
      cautions: [
        "Shorts from line to neutral, one source at a time; between two lines of a split supply more may flow.",
        "What a supply ashore drives is measured, or told by its network: a licensed electrician does that.",
      ],
      further: [`${id}.loop`, `${id}.device`],
    },
    [
      ofCircuit(id),
      ...[...new Set(study.sources.map((s) => s.part))].map((part) => {
        const of = ofPart(part);
        return { ...of, keys: [...of.keys, "prospective current", "loop impedance", "surge"] };
      }),
    ],
  );
}

interface Told {
  readonly answer: string;
  readonly figures: readonly WorkedFigure[];
  readonly section: WorkedSection;
}

function tellDevice(built: Built, device: Device, breaking: AlternatingBreaking, study: EarthFaultStudy): Told {
  const name = nameOf(device);
  const steps: WorkedStep[] = [];
  const amps: { value: number; says: string }[] = [];
  const open: string[] = [];
  let volts = 0;
  for (const each of breaking.each) {
    const source = study.sources[each.source];
    if (source === undefined) continue;
    volts = Math.max(volts, source.volts);
    const worked = workSource(built, source, each);
    steps.push(...worked.steps);
    if (each.isTold && worked.amps !== null) amps.push({ value: worked.amps, says: source.part });
    else
      open.push(
        `what ${source.part} drives is not stated (\`prospective current\`)${worked.amps === null ? "" : `; the metal between lets no more than ${ampsText(worked.amps)} through`}`,
      );
  }
  if (amps.length > 1) steps.push(picked("the most of one source", "max", amps, "A"));
  const most = amps.reduce<{ value: number; says: string } | null>((a, b) => (a === null || b.value > a.value ? b : a), null); // prettier-ignore
  const able = breaking.breaks;
  const board = device.at.slice(0, Math.max(0, device.at.indexOf(":")));
  const isMarked = board !== "" && factOf(built.plan, "parts", board, "interrupt") !== null;
  if (isMarked && able !== null)
    steps.push(taken("breaks, as marked", able, "A", saidAt(built.plan, "parts", board, "interrupt")));
  else if (device.families[0] !== undefined && able !== null) {
    const [family] = device.families;
    const { rating } = device;
    const rated = work(
      () => interruptRating(family, volts, { supply: "AC", ...(rating === null ? {} : { rating }) }),
      `breaks, at ${withUnit(volts, "V", 3)}`,
    );
    steps.push(...rated.steps);
  }
  const ability = able === null ? "what it breaks is not known" : `breaks ${ampsText(able)}${isMarked ? "" : " as usually sold"}`; // prettier-ignore
  const asked =
    most === null
      ? ""
      : ` and may have to break ${ampsText(most.value)}, fed by ${most.says}${able === null ? "" : most.value > able ? ": too much for it" : `, ${withUnit((100 * (able - most.value)) / most.value, "%", 3)} to spare`}`;
  const says = breaking.each.length === 0 ? "; no source reaches it in any position" : "";
  return {
    answer: `${name} ${ability}${asked}${open.length === 0 ? "" : `; ${open.join("; ")}`}${says}`,
    figures: [figure("toBreakA", most?.value ?? null, "A", ampsText), figure("breaksA", able, "A", ampsText)],
    section: { title: `What ${name} may have to break`, says: open.join("; "), steps, way: [] },
  };
}

/** What one source drives into a short at the device, with its sums. */
function workSource(
  built: Built,
  { part, volts, limit, isDeclared }: EarthFaultSource,
  { amps, inside, loop, isTold }: AlternatingBreaking["each"][number],
): { readonly amps: number | null; readonly steps: readonly WorkedStep[] } {
  const steps: WorkedStep[] = [];
  if (limit !== null) {
    const given = isDeclared ? saidAt(built.plan, "parts", part, "prospective current", "surge") : "";
    if (limit.high !== null)
      steps.push(taken(`${part} gives at most`, limit.high, "A", given === "" ? "usual of its kind, by its rating" : given, limit.trust)); // prettier-ignore
  } else if (isTold && inside.r > 0) {
    const ipf = volts / inside.r;
    steps.push(
      taken(`prospective current of ${part}, greatest`, ipf, "A", saidAt(built.plan, "parts", part, "prospective current")), // prettier-ignore
      ...work(() => insideOfSupply({ volts, amps: ipf }), `inside the supply of ${part}`).steps,
    );
  }
  const own = limit === null ? inside.r : 0;
  if (Math.hypot(own + loop.r, loop.x) <= 0) return { amps, steps };
  if (loop.r > 0) steps.push(taken(`conductors from ${part} and home, cold`, loop.r, "Ω", "the earth-fault study", "derived")); // prettier-ignore
  const through = work(() => mostInShort({ volts, own, r: loop.r, x: loop.x }), `through metal, fed by ${part}`);
  steps.push(...through.steps);
  if (limit?.high != null)
    steps.push(
      picked(`fed by ${part}`, "min", [{ value: limit.high, says: "source" }, { value: through.value, says: "metal" }], "A"), // prettier-ignore
    );
  return { amps, steps };
}

function nameOf({ at, families, rating, kind }: Device): string {
  const kinds = families.map((f) => deviceFamily(f).name);
  const known = kinds.length === 1 ? kinds[0] : `${kind} of unknown kind`;
  return `${at} (${rating === null ? "" : `${ampsText(rating)} `}${known ?? kind})`;
}
