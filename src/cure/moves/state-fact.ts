import type { Case, Move, Series } from "../case.ts";
import type { Edit } from "../../plan/text/index.ts";
import { isWritten, put, takeOff, textOf } from "../write.ts";

/** Does what a key says: the part is fitted so, and the plan states it. Each value is a proposal, the least first. */
const fitted =
  (key: readonly string[], ...values: readonly string[]): Move =>
  ({ document, part }: Case): readonly Series[] =>
    part === undefined ? [] : [values.map((value) => ({ edits: [put(document, ["parts", part.id, ...key], value)] }))];

export const coverPosts = fitted(["posts covered"], "yes");
export const closedBox = fitted(["box"], "sealed");
export const holdByCoil = fitted(["held by"], "coil supply");
export const preCharge = fitted(["pre-charge"], "yes");
export const surgeClamp = fitted(["clamp"], "yes");
export const temperatureSensor = fitted(["temperature sensor"], "yes");
export const bondCase = fitted(["bonded"], "yes");
export const rapidShutdown = fitted(["rapid shutdown"], "yes");
export const groundFaultGuard = fitted(["ground-fault guard"], "yes");
export const measureFirst = fitted(["tested first"], "yes");
export const ignitionLine = fitted(["ignition line"], "yes");

export const ventOutside: Move = (at) =>
  at.part === undefined
    ? []
    : [[{ edits: inRecord(at, at.part.id, "vents", { to: "outside", low: "1200 mm²", high: "1200 mm²" }) }]];
export const shieldFuel: Move = (at) =>
  at.part === undefined ? [] : [[{ edits: inRecord(at, at.part.id, "fuel", { shielded: "yes" }) }]];
export const chargeBlock: Move = (at) =>
  at.part === undefined ? [] : [[{ edits: inRecord(at, at.part.id, "management", { "charging above": "0 °C" }) }]];
export const warningSignal: Move = (at) =>
  at.part === undefined ? [] : [[{ edits: inRecord(at, at.part.id, "management", { warns: "yes" }) }]];

/** A cover on everything that is said to be bare. */
export const cover: Move = ({ document, build }) => {
  const bare = build.parts.filter((p) => p.plan?.facts.covered?.value === false);
  return bare.length === 0 ? [] : [[{ edits: bare.map((p) => put(document, ["parts", p.id, "covered"], "yes")) }]];
};

/** Straps, and what it moved without them forgotten. */
export const holdDown: Move = ({ document, part }) => {
  if (part === undefined) return [];
  const path = ["parts", part.id];
  return [[{ edits: [...takeOff(document, [...path, "moves"]), put(document, [...path, "held down"], "yes")] }]];
};

/** A battery of the volts of its system. */
export const asItsSystem: Move = ({ document, part }) => {
  const nominal = part?.supply?.nominal;
  if (part?.part.traits.store !== true || nominal === undefined) return [];
  const isLithium = part.elements.some((e) => e.is === "store" && e.curve === "LFP");
  const volts = Number((isLithium ? (nominal * 12.8) / 12 : nominal).toFixed(1));
  const path = ["parts", part.id];
  return [
    [{ edits: [...takeOff(document, [...path, "in series"]), put(document, [...path, "nominal"], `${volts} V`)] }],
  ];
};

/** Writes keys of a record of a part: where the record stands, with the part that this one is like where it is copied, else as a new one. */
function inRecord(
  at: Case,
  id: string,
  record: string,
  values: Readonly<Record<string, string>>,
  seen: readonly string[] = [],
): readonly Edit[] {
  const { document } = at;
  const path = ["parts", id, record];
  if (isWritten(document, path)) return Object.entries(values).map(([key, v]) => put(document, [...path, key], v));
  const like = textOf(document, ["parts", id, "like"]);
  if (like !== null && !seen.includes(like)) return inRecord(at, like, record, values, [...seen, id]);
  return [put(document, path, { entries: Object.entries(values) })];
}
