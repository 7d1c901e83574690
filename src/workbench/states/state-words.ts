import type { MoverRow, NamedFacts, NamedTaker, Positions, Step } from "../worker/position-answers.ts";
import { listed } from "./signs-of.ts";

/**
 * What a state is called: by what feeds what.
 *
 * @example
 * const charger = { name: "CHG", state: "fed", sources: ["INL"] }
 * titleOf({ gives: ["INL"], takers: [charger] }) //=> "INL feeds everything"
 * titleOf({ gives: ["INL"], takers: [charger, { name: "heater", state: "dead", sources: [] }] }) //=> "INL feeds CHG"
 * titleOf({ gives: [], takers: [] }) //=> "Everything off"
 */
export function titleOf({ gives, takers }: Pick<NamedFacts, "gives"> & { readonly takers: readonly Fed[] }): string {
  if (gives.length === 0) return "Everything off";
  const fed = takers.filter(({ state }) => state !== "dead");
  const by = new Map<string, string[]>();
  for (const { sources, name } of fed) {
    const who = listed(sources);
    by.set(who, [...(by.get(who) ?? []), name]);
  }
  const idle = gives.filter((source) => !fed.some(({ sources }) => sources.includes(source)));
  const parts = [...by].map(([who, names]) => {
    const what =
      names.length === takers.length
        ? "everything"
        : names.length > 3
          ? `${names.length} of ${takers.length}`
          : listed(names);
    return `${who} ${who.includes(" and ") ? "feed" : "feeds"} ${what}`;
  });
  if (idle.length > 0) parts.push(`${listed(idle)} ${idle.length > 1 ? "live, feed" : "live, feeds"} nothing`);
  return parts.join("; ");
}

type Fed = Pick<NamedTaker, "name" | "state" | "sources">;

/** `INL in`, `INV:relay inverting by itself, after 20 s`. */
export const stepWords = ({ mover, to, by, after }: Step): string =>
  `${mover} ${to}${by === "itself" ? " by itself" : ""}${after === undefined ? "" : `, after ${after} s`}`;

/** In one line, for the eye and the ear: `1 join, INV; 3 of 3 fed`. */
export function summaryOf({ islands, takers }: NamedFacts): string {
  const fed = takers.filter(({ state }) => state === "fed").length;
  const other = takers.filter(({ state }) => state !== "fed" && state !== "dead").length;
  const joins = islands
    .filter(({ hasNeutral }) => hasNeutral)
    .map(({ sources, joins: at, joinsLow, joinsHigh }) => {
      const count = joinsLow === joinsHigh ? `${joinsLow}` : `${joinsLow} to ${joinsHigh}`;
      const where = at.length === 0 ? "" : ` at ${listed(at.map(joinPlace))}`;
      return `${listed(sources)}: ${count} ${count === "1" ? "join" : "joins"}${where}`;
    });
  return [
    ...(joins.length === 0 ? ["nothing is live"] : joins),
    `${fed} of ${takers.length} fed${other === 0 ? "" : `, ${other} half`}`,
  ].join("; ");
}

export const joinPlace = ({ name, where }: NamedFacts["islands"][number]["joins"][number]): string =>
  where === "aboard" ? name : where === "ashore" ? `${name}, ashore` : `${name}, inside`;

const TAKER_WORDS: Readonly<Record<NamedTaker["state"], string>> = {
  fed: "fed",
  dead: "dead",
  "no neutral": "live without neutral",
  half: "half live",
  reversed: "line and neutral exchanged",
  mixed: "neutral of another source",
  "no volts": "no volts between its lines",
};

export const takerWords = ({ state, sources, cutBy, takes, kind }: NamedTaker): string =>
  [
    `${TAKER_WORDS[state]}${sources.length === 0 ? "" : ` from ${listed(sources)}`}`,
    ...(cutBy.length === 0 ? [] : [`${listed(cutBy)} open`]),
    ...(kind === "charger" && state === "fed" && !takes ? ["does not charge"] : []),
  ].join("; ");

const EARTH_WORDS: Readonly<Record<NamedTaker["earth"], string>> = {
  joined: "to the join",
  unknown: "not known",
  open: "does not reach the join",
  "no join": "no join to reach",
  none: "none",
  dead: "–",
};
export const earthWords = ({ earth }: NamedTaker): string => EARTH_WORDS[earth];

/** Residual devices on the way, and whether they can see a fault. */
export const guardWords = ({ guards, state }: NamedTaker): string =>
  state === "dead"
    ? "–"
    : guards.length === 0
      ? "none"
      : guards
          .map(({ guard, joinAhead, neutralThrough }) =>
            joinAhead === true && neutralThrough !== false
              ? `${guard}, sees`
              : joinAhead === "unknown"
                ? `${guard}, not known`
                : joinAhead === "perhaps none"
                  ? `${guard}, sees if there is a join`
                  : joinAhead === "no join"
                    ? `${guard}, no join ahead`
                    : `${guard}, blind`,
          )
          .join("; ");

/** Why a move is not made. */
export const refusalWords = (
  mover: Pick<MoverRow, "name">,
  to: string,
  by: readonly { readonly name: string; readonly never: readonly string[] }[],
): string =>
  `${mover.name} stays: ${by.map(({ name, never }) => `interlock ${name} never lets ${listed(never)} be at once`).join("; ")}. It cannot go to ${to} before one of them leaves.`;

/** Positions that are not those of everything off, for the address: `INL=in`. */
export const writePlaces = (movers: readonly MoverRow[], positions: Positions): string[] =>
  movers.flatMap(({ id, start, what }) => {
    const at = Object.hasOwn(positions, id) ? positions[id] : undefined;
    return at === undefined || at === start || what === "relay" ? [] : [`${id}=${at}`];
  });
