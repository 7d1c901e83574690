import { interruptRating, readDeviceFamily, type DeviceFamilyId } from "../device/index.ts";
import type { LineDevice } from "../protect/earth-fault/judge-disconnection.ts";
import type { ResidualDevice } from "../protect/earth-fault/residual-time.ts";
import type { ResidualGuard, SystemCircuit, SystemPart } from "../system/index.ts";
import type { EarthSystem, Hop } from "./study-earth-faults-ways.ts";

/** A fuse or breaker of the alternating-current side. */
export interface AlternatingDevice extends LineDevice {
  /** Circuit that it stands in, and at which end; null: a device that is a part, or the main of a panel. */
  readonly circuit: string | null;
  readonly end: "from" | "to" | null;
  /** `ACP:1`, `ACP:main`, `F3`. */
  readonly at: string;
  readonly kind: "fuse" | "breaker";
  /** Terminal on whose line side it stands, for what it may have to break. */
  readonly terminal: string;
}

/** Kinds of breaker that a plan may mean where it says none: UL 489 in the American sets, B, C or D of IEC 60898 elsewhere. */
const breakers = (ruleSet: string | null): readonly DeviceFamilyId[] =>
  ruleSet?.startsWith("us-") === true ? ["branch_breaker"] : ["mcb_B", "mcb_C", "mcb_D"];
const fuses = (ruleSet: string | null): readonly DeviceFamilyId[] =>
  ruleSet?.startsWith("us-") === true ? [] : ["iec_gG"];

function familiesOf(
  kind: "fuse" | "breaker",
  family: string | undefined,
  ruleSet: string | null,
): readonly DeviceFamilyId[] {
  const named = family === undefined ? null : readDeviceFamily(family);
  if (named !== null) return [named];
  if (family !== undefined) return [];
  return kind === "fuse" ? fuses(ruleSet) : breakers(ruleSet);
}

/** Which device a hop of a line stands for, by a key of the hop's own. */
export interface DeviceFinder {
  readonly devices: readonly AlternatingDevice[];
  /** Places in `devices`. */
  readonly on: (hop: Hop) => readonly number[];
  /** Those that stand in a circuit, by its place in the system's list. */
  readonly inCircuit: (circuit: number) => readonly number[];
}

/**
 * Lists the fuses and breakers of alternating current: those in circuits, in ways of panels, mains of panels, and parts.
 *
 * @param ruleSetOf id of the rule set of a circuit
 */
export function findAlternatingDevices(
  system: EarthSystem,
  ruleSetOf: (circuit: SystemCircuit) => string | null,
): DeviceFinder {
  const devices: AlternatingDevice[] = [];
  const byCircuit = new Map<number, number[]>();
  const byContact = new Map<string, number[]>();
  const byPart = new Map<string, number>();
  const ways = new Map(
    system.elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [[e.b, e] as const] : [])),
  );
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  const usual = system.circuits.find((c) => c.current === "AC");
  const usualSet = usual === undefined ? null : ruleSetOf(usual);
  system.circuits.forEach((circuit, index) => {
    if (circuit.current !== "AC") return;
    const line = circuit.conductors.find(({ role }) => role === "live");
    const list: number[] = [];
    const add = (device: AlternatingDevice): void => {
      list.push(devices.push(device) - 1);
    };
    const ends = { circuit: circuit.id, terminal: line?.from ?? "" } as const;
    if (circuit.devices === "unknown" || circuit.devices === "propose") {
      const way = ways.get(line?.from ?? "") ?? ways.get(line?.to ?? "");
      // A way has a device, whatever its rating; elsewhere nobody says that there is one.
      if (way !== undefined)
        add({
          ...ends,
          end: way.b === line?.to ? "to" : "from",
          at: `${way.part}:${way.way ?? ""}`,
          kind: "breaker",
          families: breakers(ruleSetOf(circuit)),
          rating: null,
        });
    } else {
      for (const { kind, rating, family, end } of circuit.devices) {
        const port = circuit[end];
        add({
          ...ends,
          end,
          at: port.port === "" ? port.part : `${port.part}:${port.port}`,
          kind,
          families: familiesOf(kind, family, ruleSetOf(circuit)),
          rating: rating === "unknown" ? null : rating.high,
          terminal: (end === "from" ? line?.from : line?.to) ?? "",
        });
      }
    }
    byCircuit.set(index, list);
  });
  for (const element of system.elements) {
    if (element.is !== "contact" || element.way !== undefined) continue;
    const part = parts.get(element.part);
    const device = deviceOfPart(part, usualSet);
    const isMain = element.id.startsWith(`${element.part}:main`);
    if (part?.current !== "AC" || (device === null && !isMain)) continue;
    const key = isMain ? `${element.part}:main` : element.part;
    const known = byPart.get(key);
    const at =
      known ??
      devices.push({
        circuit: null,
        end: null,
        at: key,
        terminal: element.a,
        ...(device ?? { kind: "breaker", families: breakers(usualSet), rating: null }),
      }) - 1;
    byPart.set(key, at);
    byContact.set(element.id, [at]);
  }
  const none: readonly number[] = [];
  return {
    devices,
    inCircuit: (circuit) => byCircuit.get(circuit) ?? none,
    on: ({ circuit, contact }) => (circuit >= 0 ? byCircuit.get(circuit) : byContact.get(contact ?? "")) ?? none,
  };
}

function deviceOfPart(
  part: SystemPart | undefined,
  ruleSet: string | null,
): Pick<AlternatingDevice, "kind" | "families" | "rating"> | null {
  if (part?.device === undefined) return null;
  const { kind, family, rating } = part.device;
  return { kind, families: familiesOf(kind, family, ruleSet), rating: rating === "unknown" ? null : rating.high };
}

/** What a device is able to break, A: the least of the kinds that it may be; null: not known. */
export function breaks(
  { families, rating, at }: AlternatingDevice,
  volts: number,
  parts: ReadonlyMap<string, SystemPart>,
): number | null {
  const part = parts.get(at.slice(0, Math.max(0, at.indexOf(":"))));
  const marked = at.endsWith(":main") ? part?.mainInterrupt : part?.wayInterrupt;
  if (marked !== undefined) return marked === "unknown" ? null : marked.low;
  if (families.length === 0) return null;
  const all = families.map(
    (family) => interruptRating(family, volts, { supply: "AC", ...(rating === null ? {} : { rating }) }).current,
  );
  return all.reduce<number | null>((a, b) => (a === null || b === null ? null : Math.min(a, b)), Infinity);
}

/** Up to this no delayed device is made: IEC 61008-1 gives type S times above 30 mA only. */
const NEVER_DELAYED = 0.03;

/** A residual guard as its times are asked for. */
export function residualOf({ amps, seconds, delayed }: ResidualGuard): ResidualDevice {
  const rated = amps === "unknown" ? null : amps.high;
  return {
    amps: rated,
    seconds: seconds === undefined || seconds === "unknown" ? null : seconds.high,
    isDelayed: delayed === "unknown" ? null : (delayed ?? (rated !== null && rated <= NEVER_DELAYED ? false : null)),
  };
}
