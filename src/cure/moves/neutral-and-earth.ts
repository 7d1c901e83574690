import type { Case, Move, Series } from "../case.ts";
import { freeName, namesIn, put, takeOff, textOf } from "../write.ts";

const KEY = "neutral–earth join";

/** The values that a part may have for when it joins neutral and earth. */
const joined = ({ document }: Case, id: string, values: readonly string[]): Series =>
  values.map((value) => ({
    edits: [
      // A generator may say it by what its neutral does.
      ...(value === "never" ? takeOff(document, ["parts", id, "neutral"]) : []),
      put(document, ["parts", id, KEY], value),
    ],
  }));

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
