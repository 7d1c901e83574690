import { standardRatingAtLeast } from "../../device/index.ts";
import type { Edit } from "../../plan/text/index.ts";
import type { CircuitView } from "../../rules/index.ts";
import { boardsAhead, boardsBehind } from "../../rules/ac/guard-place.ts";
import type { Case, Move, Proposal, Series } from "../case.ts";
import { isWritten, namesIn, put, takeOff, textOf } from "../write.ts";

/** Devices that open on leakage: in the main of the board that feeds, in the way that leads there, in the outlet itself. */

const livesOf = ({ build, part, circuits }: Case): number => {
  const supply = part?.part.supply ?? circuits[0]?.circuit.supply;
  const cores = build.system.supplies.find((s) => s.id === supply)?.cores ?? ["L", "N"];
  return cores.filter((fn) => fn !== "PE").length;
};

/** A device as it is written, with what it opens on and all live poles. */
const withGuard = (device: string, milliamps: string, poles: number): string =>
  `${device.replace(/\s+\d+(?:\.\d+)?\s*mA\b/, "").replace(/\s+\d-pole\b/, "")} ${milliamps} ${poles}-pole`;

/** The main of the nearest board that leads to the part opens on 30 mA, then those before it; of an inlet the first boards behind it. */
export const mainGuard: Move = (at) => {
  const { build, part } = at;
  if (part === undefined) return [];
  const boards = [...boardsAhead(build, part.id).map((b) => b.board), ...boardsBehind(build, part.id)];
  return [...new Set(boards)].map((board): Series => [guardedMain(at, board)]);
};

/** Every device of the part that opens on leakage and leaves neutral whole opens it too. */
export const allPoles: Move = (at) => {
  const { document, part, build } = at;
  const poles = livesOf(at);
  const edits = (part === undefined ? undefined : build.part(part.id))?.elements.flatMap((e): readonly Edit[] => {
    if (e.is !== "residual guard" || e.through === undefined) return [];
    const names = e.id.slice(e.part.length + 1, -":residual".length);
    const inLine = /^(.*):breaker(?:$|:)/.exec(e.id.slice(0, -":residual".length))?.[1];
    const path = inLine !== undefined ? ["circuits", inLine, "breaker"] : ["parts", e.part, "ways", names];
    const text = names === "main" ? null : textOf(document, path);
    if (text !== null)
      return [put(document, path, text.replace(/\s+\d[ -]?poles?\b/i, "").replace(/mA\b/, `mA ${poles}-pole`))];
    if (names === "main") return guardedMain(at, e.part).edits;
    return names === "" ? [put(document, ["parts", e.part, "poles"], String(poles))] : [];
  });
  return edits === undefined || edits.length === 0 ? [] : [[{ edits }]];
};

function guardedMain(at: Case, board: string): Proposal {
  const { document } = at;
  const main = ["parts", board, "main"];
  const poles = livesOf(at);
  const text = textOf(document, main);
  if (text !== null && /\d\s*A\b/.test(text)) return { edits: [put(document, main, withGuard(text, "30 mA", poles))] };
  if (text === null && isWritten(document, main)) {
    const written = Number(textOf(document, [...main, "poles"]) ?? poles);
    return {
      edits: [
        put(document, [...main, "residual device"], "30 mA"),
        ...(written < poles ? [put(document, [...main, "poles"], String(poles))] : []),
      ],
    };
  }
  const record = [
    ["poles", String(poles)],
    ["residual device", "30 mA"],
  ] as const;
  return { edits: [put(document, main, { entries: record })] };
}

/**
 * Each source of alternating current opens on leakage where it feeds: in the breaker or the board that it leads to, else in a breaker in its line. One source
 * after the other, then all of them.
 */
export const sourceGuard: Move = (at) => {
  const each = at.build.parts.flatMap(({ id, elements }): readonly Edit[][] => {
    const gives = elements.some((e) => e.is === "source" || (e.is === "converter" && e.outCurrent === "AC"));
    const line = at.build.circuits.find(({ circuit: c }) => c.current === "AC" && c.from.part === id && c.from.port !== "in"); // prettier-ignore
    return gives && line !== undefined ? [guardedLine(at, line)] : [];
  });
  const own = each.filter((edits) => edits.length > 0);
  return [[...own, ...(own.length > 1 ? [own.flat()] : [])].map((edits) => ({ edits }))];
};

/** What a source leads to opens on 30 mA. */
function guardedLine(at: Case, line: CircuitView): Edit[] {
  const { build, document } = at;
  const { id, circuit, design } = line;
  const to = build.part(circuit.to.part);
  if (to?.part.kind === "breaker") {
    const path = ["parts", to.id];
    const written = Number(textOf(document, [...path, "poles"]) ?? 1);
    const poles = livesOf(at);
    return [
      put(document, [...path, "residual device"], "30 mA"),
      ...(written < poles ? [put(document, [...path, "poles"], String(poles))] : []),
    ];
  }
  if (to !== undefined && namesIn(document, ["parts", to.id]).includes("main"))
    return [...guardedMain(at, to.id).edits];
  const rating =
    design.devices.find((d) => d.end === "from")?.ratingA ?? design.devices[0]?.ratingA ?? ofSource(at, line);
  if (rating === null) return [];
  const device = `${rating} A 30 mA ${livesOf(at)}-pole at ${circuit.from.part}`;
  return [put(document, ["circuits", id, "breaker"], device)];
}

/** The next breaker that lets all pass that a source gives. */
function ofSource({ build }: Case, { circuit, supply }: CircuitView): number | null {
  const view = build.part(circuit.from.part);
  const nominal = supply?.nominal ?? Number.NaN;
  const amps = view?.elements.flatMap((e) => {
    if (e.is === "converter" && e.outCurrent === "AC") return [(e.amps.high * e.volts.high) / nominal];
    if (e.is !== "source" || e.gives === undefined || e.gives === "unknown") return [];
    return [e.gives.unit === "VA" ? e.gives.value.high / nominal : e.gives.value.high];
  })[0];
  const family = view?.subject.set?.startsWith("us-") === true ? "branch_breaker" : "mcb_C";
  return amps === undefined || !(amps > 0) ? null : standardRatingAtLeast(family, amps);
}

/** The way of the nearest board that leads to the part; where it cannot be written there, in the line of the circuit. */
const way =
  (milliamps: string): Move =>
  (at) => {
    const { build, document, part } = at;
    const [near] = part === undefined ? [] : boardsAhead(build, part.id);
    if (near === undefined) return inLine(at, milliamps);
    const path = ["parts", near.board, "ways", near.way ?? ""];
    const poles = livesOf(at);
    const text = near.way === null ? null : textOf(document, path);
    const rating = build.circuit(near.circuit)?.design.devices.find((d) => d.end === "from")?.ratingA ?? null;
    const device =
      text !== null && /\d\s*A\b/.test(text) ? text : text !== null && rating !== null ? `breaker ${rating} A` : null;
    if (device === null) return inLine(at, milliamps, near.circuit);
    return [
      [
        {
          edits: [
            ...takeOff(document, ["circuits", near.circuit, "breaker"]),
            put(document, path, withGuard(device, milliamps, poles)),
          ],
        },
      ],
    ];
  };

/** A breaker in the line, where the circuit begins, of the rating that it has or would be given there. */
function inLine(
  at: Case,
  milliamps: string,
  id = at.circuits.find((c) => c.circuit.current === "AC")?.id,
): readonly Series[] {
  const view = id === undefined ? undefined : at.build.circuit(id);
  if (view === undefined) return [];
  const { design, circuit } = view;
  const rating = design.devices.find((d) => d.end === "from")?.ratingA ?? design.devices[0]?.ratingA ?? null;
  if (rating === null) return [];
  const device = `${rating} A ${milliamps} ${livesOf(at)}-pole at ${circuit.from.part}`;
  return [[{ edits: [put(at.document, ["circuits", view.id, "breaker"], device)] }]];
}

export const wayGuard: Move = way("30 mA");
export const classAWay: Move = way("5 mA");

/** Only an outlet holds one: in an appliance nothing of the kind is fitted. */
const inOutlet =
  (milliamps: string): Move =>
  ({ document, part }) =>
    part?.part.traits.outlet === true
      ? [[{ edits: [put(document, ["parts", part.id, "residual device"], milliamps)] }]]
      : [];

export const outletGuard: Move = inOutlet("30 mA");
export const classAOutlet: Move = inOutlet("5 mA");
