import type { Case, Move, Series } from "../case.ts";
import { freeName, isWritten, namesIn, put, takeOff, textOf } from "../write.ts";

const KEY = "neutral–earth join";

/** The values that a part may have for when it joins neutral and earth. */
const joined = ({ document }: Case, id: string, values: readonly string[]): Series =>
  values.map((value) => {
    // A generator may say it by what its neutral does; beside the other key it would contradict it.
    const own = ["parts", id, "neutral"];
    const says = value === "never" ? "floating" : "joined to earth";
    return isWritten(document, own)
      ? { edits: [put(document, own, says), ...takeOff(document, ["parts", id, KEY])] }
      : { edits: [put(document, ["parts", id, KEY], value)] };
  });

/** A source joins them while it gives; else the boards that can do. */
export const earthJoin: Move = (at) => {
  const { part, build } = at;
  if (part === undefined) return [];
  const isInverter = part.elements.some((e) => e.is === "converter" && e.outCurrent === "AC");
  const boards = build.parts.filter((p) => p.part.current === "AC" && p.part.traits.distributes === true);
  const isAboard = isInverter || part.elements.some((e) => e.is === "source" && e.from !== "shore");
  return [
    ...(isAboard ? [joined(at, part.id, isInverter ? ["closed when inverting", "always"] : ["always"])] : []),
    ...boards.map((b) => joined(at, b.id, ["always"])),
  ];
};

/** What joins them is opened: while another source feeds, or for good. */
export const openJoin: Move = (at) => {
  const { document, part } = at;
  if (part === undefined) return [];
  const isInverter = part.elements.some((e) => e.is === "converter" && e.outCurrent === "AC");
  const isAlways = textOf(document, ["parts", part.id, KEY]) === "always";
  return [joined(at, part.id, isInverter && isAlways ? ["closed when inverting", "never"] : ["never"])];
};

/** The join of a board, which may lie behind a residual device, is opened; or moved into the sources aboard. */
export const unblind: Move = (at) => {
  const { build, document } = at;
  const sources = build.parts.flatMap(({ id, elements }) => {
    const isInverter = elements.some((e) => e.is === "converter" && e.outCurrent === "AC");
    const isAboard = isInverter || elements.some((e) => e.is === "source" && e.from !== "shore");
    return isAboard ? (joined(at, id, [isInverter ? "closed when inverting" : "always"])[0]?.edits ?? []) : [];
  });
  return build.parts.flatMap(({ id, part }): readonly Series[] => {
    if (part.traits.distributes !== true || textOf(document, ["parts", id, KEY]) !== "always") return [];
    const opened = joined(at, id, ["never"]).flatMap(({ edits }) => edits);
    return [[{ edits: opened }, { edits: [...opened, ...sources] }]];
  });
};

/** What moves opens before it closes. */
export const breakFirst: Move = ({ document, part }) =>
  part === undefined ? [] : [[{ edits: [put(document, ["parts", part.id, "break before make"], "yes")] }]];

/** A slide between the breakers that two sources come in by; else an interlock of the sources themselves. */
export const neverBoth: Move = ({ document, part, build }) => {
  if (part === undefined) return [];
  const landsOn = build.circuits.flatMap(({ circuit: { from, to } }) => {
    const board = from.part === part.id ? to : to.part === part.id ? from : null;
    const written = board === null ? null : textOf(document, ["parts", board.part, "kind"]);
    const hasMain = board !== null && namesIn(document, ["parts", board.part]).includes("main");
    return board === null || written === null || !hasMain || board.port === "in"
      ? []
      : [[`${board.part}:main on`, `${board.part}:${board.port} on`]];
  });
  const giving = build.parts.flatMap((p) => {
    const mover = p.elements.find((e) => e.is === "mover" && e.id === p.id);
    const makes = p.elements.some((e) => e.is === "source" || (e.is === "converter" && e.outCurrent === "AC"));
    const at = mover?.is === "mover" ? mover.positions.at(-1) : undefined;
    return !makes || at === undefined ? [] : [{ id: p.id, at: `${p.id} ${at}` }];
  });
  const own = giving.find((g) => g.id === part.id);
  const others = own === undefined ? [] : giving.flatMap((g) => (g === own ? [] : [[own.at, g.at]]));
  const taken = namesIn(document, ["interlocks"]);
  const name = taken.length === 0 ? "interlock" : freeName([...taken, "interlock"], "interlock");
  return [...landsOn, ...others].map((never) => [
    { edits: [put(document, ["interlocks", name], { entries: [["never", never]] })] },
  ]);
};

/** A fact of the part, as it is once it is fitted. */
const fitted =
  (key: string, value: string): Move =>
  ({ document, part }) =>
    part === undefined ? [] : [[{ edits: [put(document, ["parts", part.id, key], value)] }]];

export const polarityIndicator = fitted("polarity indicator", "yes");
export const holdBreaker = fitted("back-fed held", "yes");

/** A transfer switch of as many poles as there are lines, and one for neutral. */
export const moveNeutral: Move = ({ document, part, build }) => {
  const cores = build.system.supplies.find((s) => s.id === part?.part.supply)?.cores ?? ["L", "N"];
  const poles = cores.filter((fn) => fn !== "PE").length;
  return part === undefined ? [] : [[{ edits: [put(document, ["parts", part.id, "poles"], String(poles))] }]];
};

/** The circuit gets its protective core again: all that its supply has. */
export const protectiveCore: Move = ({ document, circuits }) => {
  const edits = circuits.flatMap((c) => takeOff(document, ["circuits", c.id, "cores"]));
  return edits.length === 0 ? [] : [[{ edits }]];
};
