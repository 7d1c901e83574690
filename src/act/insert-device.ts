import { ampsAbove } from "../cure/moves/part-ratings.ts";
import { passThrough } from "../cure/path-text.ts";
import { freeName, isWritten, namesIn, put, takeOff, textOf, textsOf } from "../cure/write.ts";
import { devicesIn, deviceWords, makerAllows } from "../cure/written-devices.ts";
import { shown } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import type { DeviceFamilyId } from "../device/index.ts";
import { chooseDevice } from "../protect/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";
import { fromSi, metres, printAmount, readQuantity, type Reading } from "../quantity/index.ts";
import type { CircuitView } from "../rules/index.ts";
import { askBack, lengthUnit } from "./ask-back.ts";
import { deviceSentence, readDeviceSentence, type DeviceSentence } from "./device-sentence.ts";
import { isRefusal, prove, refuse } from "./draft.ts";
import { withoutSeparator } from "./read-value.ts";
import type { ActRequest, ActResult, NotActed } from "./request.ts";
import { openCircuit } from "./rewire.ts";
import type { Stand } from "./stand.ts";
import { brief } from "./step-name.ts";
import { supplyEnd, type End } from "./supply-end.ts";

type Asked = Extract<ActRequest, { readonly do: "insert-device" }>;

/** Parts that a path can pass through, as people type them. */
const THROUGH = /^(main switch|battery switch|switch|isolator|relay|contactor|shunt)(?:\s+(.+))?$/i;
const STEMS: Readonly<Record<string, string>> = { relay: "K", contactor: "K", shunt: "SH" };

/** A fuse, breaker or switch in the line of a circuit. */
export function insertDevice(stand: Stand, { circuit, distance, text }: Asked): ActResult {
  const opened = openCircuit(stand, circuit);
  if (isRefusal(opened)) return opened;
  const said = withoutSeparator(distance ?? "").trim();
  const far = said === "" ? null : readQuantity(said, "length", { min: 0 });
  if (far?.ok === false) {
    const refusal = (reading: Reading<"length">): NotActed | null => {
      const [problem] = reading.ok ? [] : reading.problems;
      return problem === undefined ? null : refuse(problem.message, problem.hint ?? "write it with its unit");
    };
    const own = refusal(far) ?? refuse("a length was expected", "write it with its unit");
    return askBack(stand, own, said, ["length"], (text) => refusal(readQuantity(text, "length", { min: 0 })));
  }
  const along = far === null || far.amount.form === "unknown" ? null : far.amount;
  const most = opened.view.circuit.length.high;
  if (along !== null && along.low > most && most > 0) {
    return refuse(
      `${printAmount(along)} is beyond the end of \`${shown(opened.thing.name)}\`, which is ${longText(stand, most)} long`,
      "give a place along it, from its supply side",
    );
  }
  const place = along === null || along.high === 0 ? null : { text: printAmount(along), metres: along.high };
  const through = THROUGH.exec(withoutSeparator(text).trim());
  if (through !== null) return insertPart(stand, opened, through, place);
  const device = readDeviceSentence(text);
  if (isRefusal(device)) return device;
  return insertGuard(stand, opened, device, place);
}

/** A length as the plan counts. */
function longText(stand: Stand, most: number): string {
  const unit = lengthUnit(stand);
  return `${decimalText(unit === "m" ? most : fromSi(metres(most), "length", "ft"), { figures: 3 })} ${unit}`;
}

type Opened = Exclude<ReturnType<typeof openCircuit>, NotActed>;
type Along = { readonly text: string; readonly metres: number } | null;

function insertGuard(stand: Stand, { thing, view }: Opened, device: DeviceSentence, place: Along): ActResult {
  const { document } = stand;
  const kind = device.kind ?? "fuse";
  const { conductors } = view.circuit;
  if (conductors.length > 0 && conductors.every(({ role }) => role !== "live")) {
    return refuse(
      `\`${shown(thing.name)}\` has no live conductor: a device in it guards nothing`,
      "insert it in the circuit that leads from the supply",
    );
  }
  const start = view.circuit[supplyEnd(stand, view)].part;
  const own = proposed(stand, view, kind);
  const where = device.place ?? (place === null ? `at ${start}` : `${place.text} from ${start}`);
  const words =
    device.rating === null && own !== null
      ? deviceSentence({ ...own, place: where }, "")
      : deviceSentence({ ...device, place: where, kind }, "");
  if (device.rating === null && own === null) {
    return refuse(`a rating cannot be proposed for \`${shown(thing.name)}\` yet`, `type it, as in \`${kind} 10 A\``);
  }
  const path = ["circuits", thing.name, kind];
  const there = textsOf(document, path).filter((t) => !/^(?:none|no|unknown|fuse|breaker)$/i.test(t.trim()));
  const kept = there.length > 0 ? there : keptProposals(stand, view, kind);
  const none = kind === "breaker" && textsOf(document, ["circuits", thing.name, "fuse"]).join() === "none";
  const edits: Edit[] = [
    ...(none ? takeOff(document, ["circuits", thing.name, "fuse"]) : []),
    put(document, path, kept.length === 0 ? words : [...kept, words]),
  ];
  const remarks = device.rating === null ? [`${kind} ${words} is proposed for what the circuit carries`] : [];
  return prove(stand, {
    edits,
    step: `${brief(thing.name)} ${kind} ${brief(words)} inserted`,
    select: thing.about,
    remarks,
    mustHold: thing.about,
  });
}

/** A device that carries what the circuit does; null: nothing on sale, or its current is not known. */
function proposed(stand: Stand, view: CircuitView, kind: "fuse" | "breaker"): DeviceSentence | null {
  const { circuit, design, supply } = view;
  const end = supplyEnd(stand, view);
  const sentence = (amps: number, family: DeviceFamilyId | null): DeviceSentence | null => {
    const read = readDeviceSentence(deviceWords(amps, family, circuit[end].part));
    return isRefusal(read) ? null : { ...read, kind };
  };
  const own = devicesIn(stand, view).find((d) => d.path === null && d.end === end);
  if (own !== undefined && own.ratingA !== null && own.kind === kind) return sentence(own.ratingA, own.family);
  if (design.steadyA === null) return null;
  const store = stand.build.part(circuit[end].part)?.elements.find((e) => e.is === "store");
  const at =
    store?.is === "store"
      ? ({ at: "store", faultAmps: store.shortCircuitAmps.high } as const)
      : kind === "breaker"
        ? ({ at: "way", device: "breaker" } as const)
        : ({ at: "elsewhere" } as const);
  const start = design.startA === null ? null : { amps: design.startA, seconds: 0.5 };
  const maker = makerAllows(stand.build, view, end);
  const found = chooseDevice(at, {
    steadyAmps: design.steadyA,
    start,
    volts: supply?.highestVolts ?? 14.6,
    ...(maker === null ? {} : { atMost: maker }),
  });
  return found === null ? null : sentence(found.rating, found.family);
}

/** With one written down nothing is proposed any more: what was proposed at the other end is written down too. */
function keptProposals(stand: Stand, view: CircuitView, kind: string): readonly string[] {
  if (view.circuit.devices !== "propose") return [];
  return devicesIn(stand, view)
    .filter((d) => d.path === null && d.ratingA !== null && d.kind === kind && d.end !== supplyEnd(stand, view))
    .map((d) => deviceWords(d.ratingA ?? 0, d.family, view.circuit[d.end].part));
}

function insertPart(
  stand: Stand,
  { thing, view, path }: Opened,
  [, kindText = "switch", more]: RegExpExecArray,
  place: Along,
): ActResult {
  const { document } = stand;
  const kind = kindText.toLowerCase();
  let rated: string | null = null;
  const remarks: string[] = [];
  if (more !== undefined) {
    const read = readQuantity(more, "current", { min: 0 });
    if (!read.ok) {
      const [problem] = read.problems;
      return refuse(problem?.message ?? "a rating was expected", problem?.hint ?? "write it as in `100 A`");
    }
    rated = printAmount(read.amount);
  } else {
    const amps = view.design.steadyA === null ? undefined : ampsAbove(view.design.steadyA)[0];
    if (amps !== undefined) {
      rated = `${amps} A`;
      remarks.push(`rated ${rated}, the next above what the circuit carries`);
    }
  }
  const stem = STEMS[kind] ?? "SW";
  const parts = namesIn(document, ["parts"]);
  const key = parts.includes(`${stem}1`) ? freeName(parts, `${stem}1`) : `${stem}1`;
  const end = supplyEnd(stand, view);
  const through = end === "from" ? passThrough(path, key) : passLast(path, key);
  if (through === null)
    return refuse(`the path of \`${shown(thing.name)}\` cannot be changed`, "edit its line in the text");
  const entries = [["kind", kind] as const, ...(rated === null ? [] : [["rated", rated] as const])];
  const legs = legsWith(stand, view, place, end);
  if (legs === null && isWritten(document, ["circuits", thing.name, "legs"])) {
    return refuse(
      `\`${shown(thing.name)}\` has a length for each stretch`,
      "insert it in the text, with one more of its `legs`",
    );
  }
  if (legs === null)
    remarks.push("its distance is not said: the whole length is taken to lie in the first stretch of the path");
  return prove(stand, {
    edits: [
      { do: "add", path: ["parts"], key, value: { entries } },
      put(document, ["circuits", thing.name, "path"], through),
      ...(legs ?? []),
    ],
    step: `${brief(key)} inserted in ${brief(thing.name)}`,
    select: `parts.${key}`,
    remarks,
    mustHold: "everything",
  });
}

/** A path with another stop ahead of its last one; null where it is no path. */
function passLast(path: string, part: string): string | null {
  const at = Math.max(...["→", "->", "=>", "⟶"].map((arrow) => path.lastIndexOf(arrow)));
  const tail = at < 0 ? null : passThrough(path.slice(at), part);
  return tail === null ? null : path.slice(0, at) + tail;
}

/** A length for each of the two stretches, in the order of the path; null: it cannot be told, or there are several already. */
function legsWith({ document }: Stand, { id }: CircuitView, place: Along, end: End): readonly Edit[] | null {
  const whole = textOf(document, ["circuits", id, "length"]);
  const read = whole === null ? null : readQuantity(whole, "length");
  if (place === null || read?.ok !== true || read.amount.form !== "exact") return null;
  const [term] = read.amount.terms;
  if (term === undefined || read.amount.terms.length > 1) return null;
  const share = place.metres / read.amount.high;
  const figures = Number(term.figures);
  if (!Number.isFinite(figures) || share > 1) return null;
  const rest = `${decimalText(figures * (1 - share), { figures: 4 })} ${term.unit}`;
  return [
    ...takeOff(document, ["circuits", id, "length"]),
    { do: "add", path: ["circuits", id], key: "legs", value: end === "from" ? [place.text, rest] : [rest, place.text] },
  ];
}
