import type { DeviceOnLine, Fact, FactsOf, KeyRules, Named, PartFacts } from "../../plan/index.ts";
import { foldName } from "../../plan/index.ts";
import type { InternalElement } from "../element.ts";
import type { Fn } from "../terminal.ts";
import { exactly } from "../value.ts";
import { linesOf, livesOf, mover } from "./alternating-poles.ts";
import { residualGuard } from "./residual.ts";

type MainDevice = FactsOf<KeyRules> | DeviceOnLine;

interface BoardFacts {
  readonly ways?: Fact<number | readonly Named<DeviceOnLine>[]>;
  readonly main?: Fact<MainDevice>;
  readonly "neutral–earth join"?: Fact<"always" | "never">;
}

interface BoardAtHand {
  readonly part: string;
  readonly facts: BoardFacts & PartFacts;
  readonly t: (port: string, fn: Fn) => string;
  readonly cores: readonly Fn[];
}

/** The bar behind a main device has terminals of its own, by a name that no way has; without one it is the feed. */
const BAR = "behind the main";

/**
 * What a board of alternating current holds: its main device between feed and bar, a device in each way, bars of neutral and earth, and
 * where it joins the two.
 */
export function alternatingBoard(
  { part, facts, t, cores }: BoardAtHand,
  sections: readonly string[],
  ways: readonly string[],
): InternalElement[] {
  const elements: InternalElement[] = [];
  const main = facts.main;
  const hasMain = main !== undefined && !(isDevice(main.value) && main.value.is === "none");
  // A way may be called so too.
  const mainId = ways.includes("main") ? `${part}:main device` : `${part}:main`;
  if (hasMain) {
    const poles = polesOfMain(main) ?? livesOf(cores).length;
    const passed = between(mainId, part, "in", BAR, { cores, t, poles });
    elements.push(...passed, mover(mainId, part, ["off", "on"], "hand"));
    elements.push(...residualOfMain(mainId, part, main, passed));
  }
  const written = typeof facts.ways?.value === "object" ? facts.ways.value : [];
  for (const way of ways) {
    // That name is its feed's.
    if (way === "in") continue;
    const dot = way.indexOf(".");
    const section = dot > 0 ? way.slice(0, dot) : undefined;
    const bar = section !== undefined && sections.includes(section) ? section : hasMain ? BAR : "in";
    const device = written.find((w) => foldName(w.name) === foldName(way))?.value;
    const isClosed = device !== undefined && device !== "unknown" && device.is === "none";
    const poles = device !== undefined && device !== "unknown" && device.is === "device" ? device.poles : undefined;
    const passed = between(`${part}:${way}`, part, bar, way, { cores, t, poles: poles ?? linesOf(cores).length, way });
    elements.push(...passed);
    if (!isClosed) elements.push(mover(`${part}:${way}`, part, ["off", "on"], "hand"));
    if (device !== undefined && device !== "unknown" && device.is === "device" && device.residual !== undefined) {
      const residual = { value: device.residual, span: facts.ways?.span ?? NOWHERE };
      elements.push(...residualGuard(`${part}:${way}`, part, passed, { "residual device": residual }));
    }
  }
  // Bars of sections share their earth, whatever feeds their lines.
  const feed = hasMain ? BAR : "in";
  if (cores.includes("PE")) {
    for (const section of sections) {
      elements.push({ is: "join", id: `${part}.${section}:PE`, part, a: t(feed, "PE"), b: t(section, "PE") });
    }
  }
  const join = facts["neutral–earth join"];
  if (join !== undefined && join.value !== "never" && cores.includes("N") && cores.includes("PE")) {
    elements.push({
      is: "earth join",
      id: `${part}:N–PE`,
      part,
      neutral: t(feed, "N"),
      earth: t(feed, "PE"),
      ...(join.value === "unknown" ? { closedIn: "unknown" as const } : {}),
    });
  }
  return elements;
}

const NOWHERE = [0, 0] as const;

/** One device with the poles that it opens; what it does not open is one piece of metal. */
function between(
  id: string,
  part: string,
  from: string,
  to: string,
  { cores, t, poles, way }: Pick<BoardAtHand, "cores" | "t"> & { readonly poles: number; readonly way?: string },
): InternalElement[] {
  const opened = livesOf(cores).slice(0, poles);
  const alone = linesOf(cores).length === 1;
  return cores.map((fn): InternalElement => {
    const ends = { part, a: t(from, fn), b: t(to, fn) };
    if (!opened.includes(fn)) return { is: "join", id: `${id}:${fn}`, ...ends };
    return {
      is: "contact",
      id: alone && fn === linesOf(cores)[0] ? id : `${id}:${fn}`,
      ...ends,
      ohms: exactly(0, "derived"),
      closedIn: ["on"],
      mover: id,
      ...(way === undefined ? {} : { way }),
    };
  });
}

const isDevice = (main: MainDevice | "unknown"): main is DeviceOnLine =>
  typeof main === "object" && typeof main.is === "string";

function polesOfMain({ value }: Fact<MainDevice>): number | undefined {
  if (value === "unknown") return undefined;
  if (isDevice(value)) return value.is === "device" ? value.poles : undefined;
  const poles = (value as { readonly poles?: Fact<number> }).poles?.value; // the record's own rule read a count
  return poles === "unknown" ? undefined : poles;
}

function residualOfMain(
  id: string,
  part: string,
  { value, span }: Fact<MainDevice>,
  passed: readonly InternalElement[],
): InternalElement[] {
  if (value === "unknown") return [];
  if (isDevice(value)) {
    if (value.is !== "device" || value.residual === undefined) return [];
    return residualGuard(id, part, passed, { "residual device": { value: value.residual, span } });
  }
  return residualGuard(id, part, passed, value); // read by the rules of `residualFacts`
}
