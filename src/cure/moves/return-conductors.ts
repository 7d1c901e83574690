import { known } from "../../plan/index.ts";
import type { Edit } from "../../plan/text/index.ts";
import type { CircuitView } from "../../rules/index.ts";
import { compareSizes, stockedSizes } from "../../wire/index.ts";
import type { Case, Move, Proposal } from "../case.ts";
import { freeName, isWritten, namesIn, put, takeOff, textOf } from "../write.ts";

/** Loads that return through a part go home as their system says. */
export const ownNegative: Move = ({ document, build, part, circuits }) => {
  const through = (c: CircuitView): boolean => {
    const to = known(c.plan?.facts.return);
    return to !== undefined && (part === undefined || to === part.id || to.startsWith(`${part.id}:`));
  };
  const own = part === undefined ? sharing(build.circuits, circuits[0]) : build.circuits.filter(through);
  const edits = own.flatMap((c): readonly Edit[] => [
    ...takeOff(document, ["circuits", c.id, "return"]),
    ...takeOff(document, ["circuits", c.id, "return length"]),
  ]);
  return edits.length === 0 ? [] : [[{ edits }]];
};

/** Circuits whose return lands on a load of this one. */
const sharing = (all: readonly CircuitView[], one: CircuitView | undefined): readonly CircuitView[] =>
  one === undefined
    ? []
    : all.filter((c) => {
        const to = known(c.plan?.facts.return);
        return to !== undefined && [one.circuit.to.part, ...one.circuit.draws].includes(to);
      });

/** The conductor goes; that nothing is left without a way home is found by trying. */
export const openLoop: Move = ({ document, build, part, circuits }) => {
  const own = part === undefined ? circuits : build.circuits.filter((c) => returnsOnly(c) && touches(c, part.id));
  return own.map((c): Proposal[] => [{ edits: takeOff(document, ["circuits", c.id]) }]);
};

const returnsOnly = ({ circuit }: CircuitView): boolean => circuit.conductors.every((c) => c.role === "return");
const touches = ({ circuit }: CircuitView, id: string): boolean =>
  circuit.from.part !== id && circuit.to.part !== id && circuit.devices !== "propose";

/** Wire of the area that the finding asks for, on sale. */
export const equalSize: Move = ({ document, build, finding, circuits }) => {
  const asked = finding.limit?.unit === "mm²" ? finding.limit.value : null;
  if (asked === null) return [];
  const { stock } = build.system;
  return circuits.map((c): Proposal[] => {
    const system = c.circuit.size === undefined || c.circuit.size === "unknown" ? stock.system : c.circuit.size.system;
    const sizes = stockedSizes(system === "kcmil" ? "AWG" : system);
    const size = [...sizes].sort(compareSizes).find((s) => s.areaMm2 >= asked * 0.999);
    return size === undefined ? [] : [{ edits: [put(document, ["circuits", c.id, "wire"], size.label)] }];
  });
};

/** A bond from the board that the protective conductors meet on to the part that returns go to. */
export const earthBond: Move = ({ document, build }) => {
  const board = boardOf(build.parts);
  const to = build.system.supplies.find((s) => s.current === "DC" && s.returnPart !== undefined)?.returnPart;
  return board === undefined || to === undefined ? [] : [[{ edits: [bond(document, `${board}:PE`, to, SIZES.bond)] }]];
};

/** A rod in the soil, joined to the board; where there is one already, only the conductor. */
export const earthRod: Move = ({ document, build }) => {
  const board = boardOf(build.parts);
  if (board === undefined) return [];
  const there = build.parts.find((p) => p.part.traits.electrode === true)?.id;
  const rod = there ?? nameFor(build.parts, "ROD");
  const added: readonly Edit[] =
    there === undefined
      ? [{ do: "add", path: ["parts"], key: rod, value: { entries: [["kind", "earth electrode"]] } }]
      : [];
  return [[{ edits: [...added, bond(document, `${board}:PE`, rod, SIZES.electrode)] }]];
};

/** An anode on the same metal. */
export const fitAnode: Move = ({ document, build, part }) => {
  if (part === undefined) return [];
  const anode = nameFor(build.parts, "anode");
  const value = { entries: [["kind", "earth electrode"] as const, ["is", "anode"] as const] };
  return [[{ edits: [{ do: "add", path: ["parts"], key: anode, value }, bond(document, part.id, anode, SIZES.bond)] }]];
};

/** The isolators that are there fail safe; where there is none, one stands in the earth of each inlet. */
export const failSafeIsolator: Move = ({ document, build }) => {
  const there = build.parts.filter((p) =>
    p.elements.some((e) => e.is === "contact" && e.a.endsWith(":PE") && e.b.endsWith(":PE")),
  );
  const safe = there.map((p) => put(document, ["parts", p.id, "fail-safe"], "yes"));
  const inlets = build.parts.filter((p) => p.elements.some((e) => e.is === "source" && e.from === "shore"));
  const leads = build.circuits.filter(({ circuit }) => inlets.some((p) => circuit.from.part === p.id));
  const name = there[0]?.id ?? nameFor(build.parts, "GI");
  const added: readonly Edit[] =
    there.length > 0
      ? safe
      : [
          {
            do: "add",
            path: ["parts"],
            key: name,
            value: {
              entries: [
                ["kind", "galvanic isolator"],
                ["fail-safe", "yes"],
              ],
            },
          },
        ];
  const set = leads
    .filter((c) => !isWritten(document, ["circuits", c.id, "in PE"]))
    .map((c) => put(document, ["circuits", c.id, "in PE"], name));
  return [[{ edits: added }], [{ edits: [...added, ...set] }]];
};

/** A conductor between the negatives of two starters, as thick as their leads. */
export const commonConductor: Move = ({ build, part }) => {
  const starters = build.parts.filter((p) => p.part.traits.cranks === true);
  const first = starters[0];
  if (part === undefined || first === undefined || first.id === part.id) return [];
  const leads = build.circuits.filter((c) => c.circuit.draws.some((d) => d === part.id || d === first.id));
  const [thickest] = leads.flatMap((c) => c.design.size ?? []).sort((a, b) => b.areaMm2 - a.areaMm2);
  if (thickest === undefined) return [];
  const entries = [
    ["path", `${first.id}:− → ${part.id}:−`],
    ["length", "1 m"],
    ["wire", thickest.label],
    ["fuse", "none"],
  ] as const;
  return [[{ edits: [{ do: "add", path: ["circuits"], key: nameFor(build.circuits, "W01"), value: { entries } }] }]];
};

/** What lands on the battery's side of a shunt lands on its other side. */
export const behindShunt: Move = ({ document, build, part }) => {
  if (part === undefined) return [];
  const beside = build.circuits.flatMap(({ circuit }) =>
    circuit.conductors.flatMap((c) => {
      const own = [c.from, c.to].filter((t) => t.startsWith(`${part.id}:`));
      const [other] = [c.from, c.to].filter((t) => !t.startsWith(`${part.id}:`));
      return own.length === 1 && other !== undefined ? [other.replace(/:[^:]*$/, "")] : [];
    }),
  );
  const bank = beside.find((id) => build.part(id)?.part.traits.store === true);
  const far = beside.find((id) => id !== bank);
  if (bank === undefined || far === undefined) return [];
  const wrong = build.circuits.filter((c) => known(c.plan?.facts.return) === bank);
  return wrong.length === 0 ? [] : [[{ edits: wrong.map((c) => put(document, ["circuits", c.id, "return"], far)) }]];
};

/** The joints of a structure made anew: bare metal, toothed washers, within reach, as good as such joints are. */
export const remakeJoints: Move = ({ document, part }: Case) => {
  if (part === undefined) return [];
  const path = ["parts", part.id];
  const joints = namesIn(document, [...path, "joints"]);
  const good = joints.map((joint): Edit => put(document, [...path, "joints", joint], "0.5 mΩ"));
  return [[{ edits: [put(document, [...path, "prepared"], "yes"), ...good] }]];
};

const SIZES = { bond: { mm2: "10 mm²", awg: "8 AWG" }, electrode: { mm2: "16 mm²", awg: "6 AWG" } } as const;

/** A conductor for protective current alone. */
function bond(document: Case["document"], from: string, to: string, size: { mm2: string; awg: string }): Edit {
  const isMetric = textOf(document, ["stock", "sizes"]) !== "AWG";
  const entries = [
    ["path", `${from} → ${to}`],
    ["length", "1 m"],
    ["cores", ["PE"]],
    ["wire", isMetric ? size.mm2 : size.awg],
  ] as const;
  return { do: "add", path: ["circuits"], key: freeName(namesIn(document, ["circuits"]), "W01"), value: { entries } };
}

/** The board of alternating current that protective conductors meet on. */
const boardOf = (parts: Case["build"]["parts"]): string | undefined =>
  parts.find((p) => p.part.current === "AC" && p.part.traits.distributes === true)?.id;

const nameFor = (there: readonly { readonly id: string }[], name: string): string => {
  const taken = there.map((t) => t.id);
  return taken.includes(name) ? freeName(taken, name) : name;
};
