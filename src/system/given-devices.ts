import type { Diagnostic, Span } from "../diagnostic.ts";
import {
  foldName,
  known,
  listed,
  placed,
  shown,
  type CircuitFacts,
  type DeviceOnLine,
  type Fact,
  type Measure,
  type Named,
  type PlanItem,
} from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { BoundPoint, BoundSegment } from "./bind-path.ts";
import { checkFamily } from "./check-family.ts";
import type { FactReader } from "./fact-reader.ts";
import type { NameIndex } from "./name-index.ts";
import type { GivenDevice, SystemCircuit } from "./system.ts";
import { exactly, given, type Value } from "./value.ts";

interface Sources {
  readonly parts: NameIndex<BoundPart>;
  readonly say: (d: Diagnostic) => void;
}

type DeviceKind = "fuse" | "breaker";

/** Devices as the plan gives them: in the circuit's own line, or in the panel ways at its ends. */
export function devicesOf(
  item: PlanItem<CircuitFacts>,
  segments: readonly BoundSegment[],
  run: Value,
  asFound: boolean,
  read: FactReader,
  sources: Sources,
): SystemCircuit["devices"] {
  const { facts, base, key } = item;
  const first = segments[0]?.from;
  const last = segments.at(-1)?.to;
  if (first === undefined || last === undefined) return "propose";
  const devices: GivenDevice[] = [];
  let said = false;
  let none = false;
  let unknown = false;
  const take = (
    kind: DeviceKind,
    fact: Fact<DeviceOnLine>,
    span: Span | undefined,
    at: "from" | "to" = "from",
  ): void => {
    if (fact.value === "unknown") {
      unknown = true;
      read.miss(fact, kind);
      return;
    }
    if (fact.value.is === "open") return;
    said = true;
    const about = `circuits.${key}.${kind}`;
    if (fact.value.is === "none") none = true;
    else if (fact.value.is === "part" || isPart(fact.value.bare, sources))
      devices.push(...devicePart(kind, partOf(fact.value), span, about, sources, asFound ? run : null));
    else devices.push(lineDevice(kind, fact.value, { first, last, at, run, span, about, read, say: sources.say }));
  };

  for (const kind of ["fuse", "breaker"] as const) {
    const fact = facts[kind];
    if (fact === undefined) continue;
    const list = fact.value === "unknown" ? [{ value: "unknown" as const, span: fact.span }] : fact.value;
    for (const one of list) take(kind, one, placed(base, one.span));
  }
  // A device that is written in the line at this end stands in the way.
  for (const [end, point] of [
    ["from", first],
    ["to", last],
  ] as const) {
    if (none || unknown || devices.some((d) => d.end === end)) continue;
    const way = wayOf(point);
    const inWays = known(point.part.plan.kindFacts["device"] as Fact<string> | undefined) ?? point.part.traits.inWays; // a panel's own rule read it
    const kind = inWays === "fuse" ? "fuse" : "breaker";
    if (way !== undefined) take(kind, way, placed(point.part.plan.base, way.span), end);
  }
  if (unknown) return "unknown";
  if (said) return devices;
  if (!asFound) return "propose";
  read.miss(undefined, "fuse");
  return "unknown";
}

/** A marking that a part is called by as well names the part. */
const isPart = (bare: string | undefined, { parts }: Sources): boolean =>
  bare !== undefined && parts.get(bare) !== undefined;
const partOf = (device: Extract<DeviceOnLine, { is: "part" | "device" }>): string =>
  device.is === "part" ? device.part : (device.bare ?? "");

/** What the plan says of the device in the way at an end of a circuit. */
function wayOf({ part, port }: BoundPoint): Named<DeviceOnLine> | undefined {
  const ways = part.plan.kindFacts["ways"]?.value;
  if (!Array.isArray(ways)) return undefined;
  const list = ways as readonly Named<DeviceOnLine>[]; // read by the panel's own rule
  return list.find((w) => foldName(w.name) === foldName(port.name));
}

/**
 * A device that is a part of its own.
 *
 * @param somewhere length of a run that was found, along which nobody says where it sits; null: it is to be set at the start
 */
function devicePart(
  kind: DeviceKind,
  name: string,
  span: Span | undefined,
  about: string,
  { parts, say }: Sources,
  somewhere: Value | null,
): GivenDevice[] {
  const part = parts.find(name, span ?? [0, 0], about, say);
  if (part === undefined) return [];
  const guards = part.traits.guards;
  if (guards === undefined && part.kind !== undefined) {
    say({
      id: "system/not-a-device",
      level: "error",
      at: span === undefined ? [] : [span],
      about,
      message: `\`${shown(part.key)}\` is of kind \`${part.kind.name}\`, neither a fuse nor a breaker`,
      hint: "write a rating, `10 A at BP`, or the name of a part of kind `fuse` or `breaker`",
    });
    return [];
  }
  const rated = known(part.plan.kindFacts["rated"] as Fact<Measure> | undefined); // a fuse's and a breaker's own rule reads amps
  const family = known(part.plan.kindFacts["family"] as Fact<string> | undefined); // and a text
  return [
    {
      kind: guards ?? kind,
      rating: rated === undefined ? "unknown" : given(rated),
      ...(family === undefined ? {} : { family }),
      end: "from",
      distance: somewhere === null ? exactly(0, "default") : { low: 0, high: somewhere.high, origin: "unknown" },
      part: part.key,
      ...(span === undefined ? {} : { span }),
    },
  ];
}

interface InLine {
  readonly first: BoundPoint;
  readonly last: BoundPoint;
  /** The end that it stands at where its line names none. */
  readonly at: "from" | "to";
  /** Metres of the whole run. */
  readonly run: Value;
  readonly span: Span | undefined;
  readonly about: string;
  readonly read: FactReader;
  readonly say: (d: Diagnostic) => void;
}

/** A device that is written in the line of its circuit. */
function lineDevice(
  kind: DeviceKind,
  device: Extract<DeviceOnLine, { is: "device" }>,
  { first, last, at: otherwise, run, span, about, read, say }: InLine,
): GivenDevice {
  const at = span === undefined ? [] : [span];
  let end = otherwise;
  if (device.from !== undefined) {
    const names = namesOf(device.from);
    const isAt = (point: BoundPoint): boolean => names.includes(foldName(point.part.key));
    if (isAt(last)) end = "to";
    else if (!isAt(first)) {
      say({
        id: "system/device-not-at-an-end",
        level: "error",
        at,
        about,
        message: `a device is measured from one end of its circuit; \`${shown(device.from)}\` is neither \`${shown(first.text)}\` nor \`${shown(last.text)}\``,
        hint: `write ${listed([`at ${first.part.key}`, `at ${last.part.key}`], "or")}`,
      });
    }
  }
  if (device.distance !== undefined && run.origin === "given" && device.distance.low > run.high) {
    say({
      id: "system/device-beyond-the-run",
      level: "error",
      at,
      about,
      message: `the device stands ${device.distance.text} from \`${shown(device.from ?? first.text)}\`, the whole run is ${Number(run.high.toFixed(3))} m`,
      hint: "mend the distance, or the length of the run",
    });
  }
  if (device.rating === "unknown") read.miss(undefined, kind);
  if (device.family !== undefined) checkFamily(device.family, at, about, say);
  return {
    kind: device.kind ?? kind,
    rating: device.rating === "unknown" ? "unknown" : given(device.rating),
    ...(device.family === undefined ? {} : { family: device.family }),
    ...(device.poles === undefined ? {} : { poles: device.poles }),
    ...(device.residual === undefined ? {} : { residual: given(device.residual) }),
    end,
    distance: device.distance === undefined ? exactly(0, "given") : given(device.distance),
    ...(span === undefined ? {} : { span }),
  };
}

/** `BP`, `BP:stud`, `ACP.inverter`: a terminal or section may follow the part, or belong to its name. */
function namesOf(written: string): string[] {
  const names = [written];
  for (const sign of [":", "."]) {
    const at = written.indexOf(sign);
    if (at > 0) names.push(written.slice(0, at));
  }
  return names.map(foldName);
}
