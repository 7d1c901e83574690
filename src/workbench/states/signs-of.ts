import type { Status } from "../look/status-shape.tsx";
import type { NamedFacts, NamedTaker } from "../worker/position-answers.ts";

/** Something dangerous, or worth knowing, of one state. */
export interface Sign {
  readonly status: Exclude<Status, "pass">;
  readonly title: string;
  /** What could happen, then what is. */
  readonly says: string;
}

/**
 * What is dangerous in a state as it stands, the gravest first. Rules judge the plan; these are facts of one position in the words of the trade.
 *
 * Ignores volts, sizes and times.
 */
export function signsOf(facts: NamedFacts, rests: boolean): readonly Sign[] {
  const signs: Sign[] = [...sourceSigns(facts), ...joinSigns(facts), ...takerSigns(facts)];
  if (!rests) {
    signs.push({
      status: "fail",
      title: "Never comes to rest",
      says: "Contacts wear and may weld: what moves by itself goes round for ever in this position.",
    });
  }
  return signs.sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status));
}

const order: readonly Sign["status"][] = ["fail", "warn", "unknown", "note"];

/** The gravest of some signs; null: there is none. */
export const gravestOf = (signs: readonly Sign[]): Sign["status"] | null =>
  order.find((status) => signs.some((s) => s.status === status)) ?? null;

/** `a`, `a and b`, `a, b and c`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1) ?? ""}`;

function sourceSigns({ parallel, livePins, commonNeutral, adds, ownCharge, neutralsMeet }: NamedFacts): Sign[] {
  return [
    ...parallel.map(({ sources, lawful }): Sign => ({
      status: lawful === true ? "note" : lawful === "unknown" ? "unknown" : "fail",
      title: "Two sources on one line",
      says:
        lawful === true
          ? `${listed(sources)} feed the same line; one of them is made to give beside another.`
          : lawful === "unknown"
            ? `${listed(sources)} feed the same line. Whether one may give beside the other is not stated.`
            : `Out of step they burn what is between them: ${listed(sources)} feed the same line.`,
    })),
    ...livePins.map(({ source, from }): Sign => ({
      status: "fail",
      title: `Live terminals at ${source}`,
      says: `Whoever touches the pins of a plug that is out, or works on a machine that stands, gets a shock: ${listed(from)} feeds back into ${source}.`,
    })),
    ...commonNeutral.map(({ sources }): Sign => ({
      status: "warn",
      title: "Shared neutral",
      says: `One neutral carries the current of both: ${listed(sources)} share it, and no line.`,
    })),
    ...neutralsMeet.map(({ guards }): Sign => ({
      status: "warn",
      title: "Neutrals meet behind two residual devices",
      says: `Both trip without a fault, or see only part of one: the neutrals of ${listed(guards)} are one behind them.`,
    })),
    ...adds.map(({ source, to, certain }): Sign => ({
      status: certain ? "note" : "unknown",
      title: `${source} may add`,
      says: certain
        ? `${source} may give beside ${listed(to)}: wires behind it carry what both give.`
        : `Whether ${source} gives beside ${listed(to)} is not stated.`,
    })),
    ...ownCharge.map(({ charger, inverter }): Sign => ({
      status: "warn",
      title: "Battery charges itself",
      says: `The battery is drained by what is lost on the way: ${inverter} feeds ${charger}, which charges the bank that it takes from.`,
    })),
  ];
}

function joinSigns({ islands }: NamedFacts): Sign[] {
  return islands.flatMap(({ sources, hasNeutral, joins, joinsLow, joinsHigh }): Sign[] => {
    if (!hasNeutral) return [];
    const on = listed(sources);
    if (joinsHigh === 0) {
      return [
        {
          status: "fail",
          title: `No join on ${on}`,
          says: `A fault to a case trips nothing and the case stays live: on ${on} neutral meets earth nowhere.`,
        },
      ];
    }
    if (joinsLow > 1) {
      return [
        {
          status: "fail",
          title: `${joinsLow} joins on ${on}`,
          says: `Cases and bonded metal carry load current all the time, and residual devices may not see a fault: on ${on} neutral meets earth at ${listed(joins.map(({ name }) => name))}.`,
        },
      ];
    }
    if (joinsLow === 1 && joinsHigh === 1) return [];
    return [
      {
        status: "unknown",
        title: `Joins on ${on} not known`,
        says: `On ${on} neutral meets earth at least ${joinsLow} and at most ${joinsHigh} times: ${listed(joins.filter((j) => !j.certain).map(({ name }) => name))} does not say when it joins them.`,
      },
    ];
  });
}

/** Takers of one kind of fault share a sign. */
const TAKER_FAULTS: readonly {
  readonly is: (taker: NamedTaker) => boolean;
  readonly status: Sign["status"];
  readonly title: string;
  readonly says: (names: string) => string;
}[] = [
  {
    is: ({ state }) => state === "no neutral",
    status: "fail",
    title: "Live without neutral",
    says: (n) => `It looks off and is live, and on split lines its volts float: the neutral of ${n} is cut.`,
  },
  {
    is: ({ state }) => state === "reversed",
    status: "fail",
    title: "Line and neutral exchanged",
    says: (n) => `Switched off it stays live: at ${n} line and neutral are exchanged.`,
  },
  {
    is: ({ state }) => state === "mixed",
    status: "fail",
    title: "Line of one source, neutral of another",
    says: (n) => `The current has no way back of its own, residual devices trip or are blind: ${n}.`,
  },
  {
    is: ({ state }) => state === "half",
    status: "warn",
    title: "Half live",
    says: (n) => `It looks off and is live: only some lines reach ${n}.`,
  },
  {
    is: ({ state }) => state === "no volts",
    status: "note",
    title: "No volts between its lines",
    says: (n) => `All lines of ${n} are one.`,
  },
  {
    is: ({ earth }) => earth === "open",
    status: "fail",
    title: "Protective conductor does not reach the join",
    says: (n) => `A fault to the case trips nothing and the case stays live: ${n}.`,
  },
  {
    is: ({ earth, state }) => earth === "none" && state !== "dead",
    status: "note",
    title: "No protective conductor",
    says: (n) => `Right only for what needs none: ${n}.`,
  },
  {
    is: ({ earth }) => earth === "unknown",
    status: "unknown",
    title: "Protective conductor not known",
    says: (n) => `Whether it reaches the join is not stated: ${n}.`,
  },
  {
    is: ({ guards, state }) => state !== "dead" && guards.some((g) => g.joinAhead === false),
    status: "warn",
    title: "Residual device does not see it",
    says: (n) => `A current through a person trips nothing: the join lies behind the residual device of ${n}.`,
  },
  {
    is: ({ guards, state }) => state !== "dead" && guards.some((g) => g.neutralThrough === false),
    status: "warn",
    title: "Residual device trips without a fault",
    says: (n) => `Its neutral goes past it: ${n}.`,
  },
];

function takerSigns({ takers }: NamedFacts): Sign[] {
  return TAKER_FAULTS.flatMap(({ is, status, title, says }): Sign[] => {
    const names = takers.filter(is).map(({ name }) => name);
    return names.length === 0 ? [] : [{ status, title, says: says(listed(names)) }];
  });
}
