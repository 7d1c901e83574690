import type { DeviceOnLine, Plan } from "../../plan/index.ts";
import { foldName } from "../../plan/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";
import type { Design, DeviceDesign } from "../../size/index.ts";
import type { System, SystemCircuit, SystemPart } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import { loadsBehind } from "./loads-behind.ts";
import { mainOf } from "./main-of.ts";
import { residualText } from "./residual-text.ts";

/** A way of a board, or one of the circuits that share it; texts as they are printed, empty where there is nothing to say. */
export interface WayRow {
  readonly way: string;
  /** `miniature breaker, curve C`. */
  readonly device: string;
  /** The tool chose it: the plan does not say what stands there. */
  readonly isProposed: boolean;
  /** `16 A`; `?`: it cannot be told. */
  readonly rating: string;
  readonly poles: string;
  /** `30 mA`. */
  readonly residual: string;
  readonly circuit: string;
  /** In people's words; empty: the way is. */
  readonly feeds: string;
  readonly wire: string;
}

/** What hangs on the door of a board. */
export interface BoardDirectory {
  /** Key path in the plan. */
  readonly about: string;
  readonly id: string;
  /** What people call it. */
  readonly name: string;
  readonly current: "DC" | "AC";
  /** `panel, 230 V AC`. */
  readonly says: string;
  /** Its main device; null: the plan states none. */
  readonly main: string | null;
  /** A sentence for each feed. */
  readonly feeds: readonly string[];
  /** Neutral and earth meet in it: always, or perhaps. */
  readonly joins: "always" | "not said" | "no";
  readonly rows: readonly WayRow[];
}

/** What directories are read from. */
interface DirectoryBuild {
  readonly plan: Plan;
  readonly system: System;
  readonly design: Design;
}

/**
 * Reads what stands in each way of each board and fuse block, in the order of the plan; parts without ways are not among them.
 *
 * A device that the plan does not state is the one that was chosen, and marked so. Ways of nothing are kept: whoever opens the board finds them too.
 *
 * @param build as settled
 */
export function readBoards({ plan, system, design }: DirectoryBuild): BoardDirectory[] {
  return system.parts.flatMap((part): BoardDirectory[] => {
    const inside = system.elements.filter((element) => element.part === part.id);
    const ways = [...new Set(inside.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.way] : [])))];
    if (ways.length === 0) return [];
    const facts = plan.parts.find(({ key }) => key === part.id)?.kindFacts ?? {};
    const join = inside.find((e) => e.is === "earth join");
    const given = writtenWays(facts["ways"]?.value);
    return [
      {
        about: `parts.${part.id}`,
        id: cleanText(part.id),
        name: cleanText(part.name),
        current: part.current === "AC" ? "AC" : "DC",
        says: sayBoard(part, system),
        main: mainOf(part.id, facts["main"]?.value, inside),
        feeds: feedsOf(part.id, ways, { system, design }),
        joins: join === undefined ? "no" : join.closedIn === "unknown" ? "not said" : "always",
        rows: ways.flatMap((way) => rowsOf(part, way, given.get(foldName(way)), { system, design })),
      },
    ];
  });
}

type Read = Pick<DirectoryBuild, "system" | "design">;

const amps = (a: number): string => `${decimalText(a, { figures: 3 })} A`;

function sayBoard({ kind, supply, rated, current }: SystemPart, { supplies }: System): string {
  const of = supplies.find(({ id }) => id === supply);
  const volts = of === undefined ? current : `${decimalText(of.nominal, { figures: 3 })} V ${of.current}`;
  const bears = rated === undefined ? "" : rated === "unknown" ? ", rating not known" : `, rated ${amps(rated.high)}`;
  return cleanText(`${kind}, ${volts}${bears}`);
}

/** Devices that the plan writes in ways, by their folded names. */
function writtenWays(value: unknown): ReadonlyMap<string, DeviceOnLine | "unknown"> {
  if (!Array.isArray(value)) return new Map();
  const list = value as readonly { readonly name: string; readonly value: DeviceOnLine | "unknown" }[]; // the rule of `ways` reads a count or this
  return new Map(list.map(({ name, value: device }) => [foldName(name), device]));
}

/** Circuits of a way: it feeds them, or is fed by them. */
function rowsOf(part: SystemPart, way: string, written: DeviceOnLine | "unknown" | undefined, read: Read): WayRow[] {
  const { system } = read;
  const contacts = system.elements.filter((e) => e.is === "contact" && e.part === part.id && e.way === way);
  const residual = residualText(system, new Set(contacts.map(({ id }) => id)));
  const ends = system.circuits.flatMap((circuit) =>
    (["from", "to"] as const)
      .filter((end) => circuit[end].part === part.id && circuit[end].port === way)
      .map((end) => ({ circuit, end })),
  );
  const base = { way: cleanText(way), residual };
  if (ends.length === 0) return [{ ...base, ...emptyWay(written) }];
  return ends.map(({ circuit, end }) => {
    const designed = read.design.circuits.find(({ id }) => id === circuit.id);
    const device = designed?.devices.find((d) => d.end === end && d.distanceM === 0);
    const cores = new Set(circuit.conductors.map(({ fn }) => fn as string)); // compared with the ends of terminal names
    const opened = contacts.filter((c) => c.is === "contact" && cores.has(c.a.slice(c.a.lastIndexOf(":") + 1)));
    const isNone = device === undefined && written !== undefined && written !== "unknown" && written.is === "none";
    // A direct-current way opens the one pole that it stands in, whatever its core is called.
    const poles = part.current === "AC" ? opened.length : contacts.length;
    return {
      ...base,
      device: device === undefined ? (isNone ? "none" : "cannot be told") : deviceSays(device),
      isProposed: device?.by === "proposed",
      rating: isNone ? "" : device === undefined || device.ratingA === null ? "?" : amps(device.ratingA),
      poles: isNone || poles === 0 ? "" : String(poles),
      circuit: cleanText(circuit.id),
      feeds:
        end === "to"
          ? `fed from ${nameOf(system, circuit.from.part)}`
          : loadsBehind(system, circuit).map(cleanText).join(", "),
      wire: wireSays(circuit, read.design),
    };
  });
}

const deviceSays = ({ familyName, kind }: DeviceDesign): string => familyName ?? kind;

function emptyWay(device: DeviceOnLine | "unknown" | undefined): Omit<WayRow, "way" | "residual"> {
  const nothing = { device: "", isProposed: false, rating: "", poles: "", circuit: "", feeds: "", wire: "" };
  if (device === undefined || device === "unknown") return nothing;
  if (device.is === "open") return { ...nothing, device: device.kind };
  if (device.is === "part") return { ...nothing, device: cleanText(device.part) };
  if (device.is === "none") return nothing;
  return {
    ...nothing,
    device: cleanText(device.family ?? device.kind ?? "device"),
    rating: device.rating === "unknown" ? "?" : cleanText(device.rating.text),
    poles: device.poles === undefined ? "" : String(device.poles),
  };
}

/** Size and colours of a circuit's cores; in brackets colours that are only proposed. */
function wireSays({ id }: SystemCircuit, { circuits }: Design): string {
  const of = circuits.find((c) => c.id === id);
  if (of === undefined) return "";
  const { size, make, colours } = of;
  const count = make.parallel > 1 ? `${make.parallel} × ` : "";
  const said = (by: "plan" | "proposed"): string => colours.flatMap((c) => (c.by === by ? [c.letters] : [])).join(" ");
  const proposed = said("proposed") === "" ? "" : `(${said("proposed")})`;
  return cleanText(
    [size === null ? "?" : `${count}${size.label}`, said("plan"), proposed].filter((t) => t !== "").join(" "),
  );
}

function nameOf({ parts }: System, id: string): string {
  const part = parts.find((p) => p.id === id);
  return cleanText(part === undefined ? id : part.name === part.id ? `${part.kind} ${part.id}` : part.name);
}

/** Where a board gets its current from, by section, with what guards it there. */
function feedsOf(id: string, ways: readonly string[], { system, design }: Read): string[] {
  return system.circuits
    .filter(({ to, from }) => to.part === id && from.part !== id && !ways.includes(to.port))
    .filter(({ conductors }) => conductors.some(({ role }) => role === "live"))
    .map((circuit) => {
      const section = circuit.to.port === "in" || circuit.to.port === "" ? "" : `${cleanText(circuit.to.port)}: `;
      const devices = design.circuits.find((c) => c.id === circuit.id)?.devices ?? [];
      const behind = devices.map((d) => `${deviceSays(d)} ${d.ratingA === null ? "?" : amps(d.ratingA)} at ${d.at}${d.by === "proposed" ? " (chosen, not in the plan)" : ""}`); // prettier-ignore
      return `${section}${cleanText(circuit.id)} from ${nameOf(system, circuit.from.part)}${behind.length === 0 ? "" : cleanText(`, behind ${behind.join(" and ")}`)}`;
    });
}
