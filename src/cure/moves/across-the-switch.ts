import type { Edit } from "../../plan/text/index.ts";
import type { CircuitView } from "../../rules/index.ts";
import type { Case, Move, Proposal } from "../case.ts";
import { passThrough, startAt } from "../path-text.ts";
import { devicesIn, deviceWords } from "../written-devices.ts";
import { freeName, namesIn, put, textOf } from "../write.ts";
import { ampsAbove } from "./part-ratings.ts";

/** Where a circuit can begin instead. */
export interface Start {
  readonly point: string;
  readonly part: string;
}

/** Feeds a load from ahead of the switches that cut it off, the nearest first, and at last from the source itself. */
export const aheadOfSwitch: Move = (at) =>
  at.circuits.map((c) => startsAhead(at, c).flatMap((start) => beginAt(at, c, start)));

/** Feeds what hangs ahead of a switch from behind it; where there is no switch, puts one into the lead of the bank. */
export const behindSwitch: Move = (at) => {
  const { build, part, circuits } = at;
  if (part === undefined) return [];
  const switches = circuits.flatMap(({ circuit: c }) => (isSwitch(at, c.to.part) ? [c.to.part] : []));
  const behind = build.circuits.flatMap(({ circuit: c }): Start[] => {
    if (!switches.includes(c.from.part)) return [];
    const bar = build.part(c.to.part)?.part.traits.distributes === true;
    return [bar ? { point: c.to.part, part: c.to.part } : { point: `${c.from.part}:out`, part: c.from.part }];
  });
  const ahead = [part.id, ...switches];
  const loose = build.circuits.filter(
    ({ circuit: c, model }) =>
      model !== null &&
      ahead.includes(c.from.part) &&
      c.from.port !== "out" &&
      !switches.includes(c.to.part) &&
      !mayStayAhead(at, c.to.part),
  );
  const start = behind[0];
  if (start === undefined) return [withSwitch(at)];
  const each = loose.map((c) => beginAt(at, c, start));
  const all = each.flatMap((series) => series.flatMap((p) => p.edits));
  return loose.length > 1 ? [...each, [{ edits: all }]] : each;
};

/** What is always on, or charges, belongs ahead of the switch. */
function mayStayAhead({ build }: Case, id: string): boolean {
  const part = build.part(id);
  return part?.part.traits.charges === true || part?.plan?.kindFacts["always on"]?.value === true;
}

const isSwitch = ({ build }: Case, id: string): boolean => {
  const part = build.part(id)?.part;
  return part?.traits.passes === true && part.traits.guards === undefined && part.positions.includes("off");
};

/** Points ahead of each switch on the way to a circuit, then the sources. */
function startsAhead(at: Case, c: CircuitView): readonly Start[] {
  const { build } = at;
  const starts: Start[] = [];
  const sources: Start[] = [];
  const seen = new Set<string>();
  let parts = [c.circuit.from.part];
  while (parts.length > 0) {
    const before: string[] = [];
    for (const id of parts) {
      if (seen.has(id)) continue;
      seen.add(id);
      for (const { circuit: d, model } of build.circuits) {
        if (model === null || d.to.part !== id || d.from.part === id) continue;
        if (isSwitch(at, id)) starts.push({ point: `${id}:${d.to.port}`, part: id });
        if (build.part(d.from.part)?.part.traits.store === true)
          sources.push({ point: d.from.part, part: d.from.part });
        before.push(d.from.part);
      }
    }
    parts = before;
  }
  const once = new Map([...starts, ...sources].map((s) => [s.point, s]));
  return [...once.values()];
}

/** A circuit that begins elsewhere, its device with it. */
export function beginAt(
  at: Pick<Case, "document" | "build">,
  c: CircuitView,
  { point, part }: Start,
): readonly Proposal[] {
  const { document } = at;
  const path = ["circuits", c.id, "path"];
  const text = textOf(document, path);
  const other = text === null ? null : startAt(text, point);
  if (other === null) return [];
  const moved = devicesIn(at, c).flatMap((d): Edit[] => {
    if (d.end !== "from" || d.path?.[0] !== "circuits" || d.words === null || d.ratingA === null) return [];
    const words = deviceWords(d.ratingA, d.named ? d.family : null, part);
    return [
      { do: "set", path: d.path, value: d.distanceM > 0 ? words.replace(" at ", ` ${d.distanceM} m from `) : words },
    ];
  });
  return [{ edits: [put(document, path, other), ...moved] }];
}

/** A new switch in the lead of the bank. */
function withSwitch({ document, part, circuits, build }: Case): readonly Proposal[] {
  const lead = [...circuits]
    .filter((c) => c.model !== null && c.circuit.from.part === part?.id)
    .sort((a, b) => (b.design.steadyA ?? 0) - (a.design.steadyA ?? 0))[0];
  if (lead === undefined) return [];
  const path = ["circuits", lead.id, "path"];
  const taken = [...build.parts.map((p) => p.id), ...namesIn(document, ["parts"])];
  const name = taken.includes("SW1") ? freeName(taken, "SW1") : "SW1";
  const through = passThrough(textOf(document, path) ?? "", name);
  const amps = ampsAbove(lead.design.steadyA ?? 0)[0];
  if (through === null || amps === undefined) return [];
  const value = { entries: [["kind", "switch"] as const, ["rated", `${amps} A`] as const] };
  return [{ edits: [{ do: "add", path: ["parts"], key: name, value }, put(document, path, through)] }];
}
