import type { StateFacts, SwitchingGroup } from "../../switching/index.ts";
import type { ThingNames } from "./thing-names.ts";

/**
 * Something of a state that wants an eye: must and should as a rule would weigh it at least, unknown where a fact is missing, note where it is no fault by
 * itself.
 */
export interface StateDanger {
  readonly grade: "must" | "should" | "unknown" | "note";
  /** What is so, in a sentence without its full stop. */
  readonly says: string;
  /** Rule that finds it; null: it is read off the state itself. */
  readonly rule: string | null;
}

const ORDER: readonly StateDanger["grade"][] = ["must", "should", "unknown", "note"];

/** The gravest first; of the same grade in their order. */
export const byGrade = (list: readonly StateDanger[]): StateDanger[] =>
  ORDER.flatMap((grade) => list.filter((d) => d.grade === grade));

const named = (names: readonly string[]): string =>
  names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;

/** What the rule of joins says of a source in every state together: why it asks for no join, or how grave the lack of one is. */
export type JoinVerdict = { readonly spared: string } | { readonly grade: StateDanger["grade"] };

/** @param about names that a rule has to speak of, if what it finds stands for this */
type Say = (grade: StateDanger["grade"], says: string, rule?: string, about?: readonly string[]) => void;

/**
 * Reads off a state what is dangerous in it, whatever rule set applies.
 *
 * Ignores how much flows: what burns is a matter of the rules that know the currents.
 *
 * @param found what rules found in the state; what one of them tells of the same things is not told again
 * @param joinVerdict of a source by its id; null: the rule of joins asks nothing of it here
 */
export function dangersOf(
  state: StateFacts,
  names: ThingNames,
  found: readonly StateDanger[] = [],
  joinVerdict: (source: string) => JoinVerdict | null = () => null,
): StateDanger[] {
  const both = (pair: readonly [string, string]): string => pair.map(names.source).join(" and ");
  const all = (list: readonly string[]): string => named(list.map(names.source));
  const list: StateDanger[] = [];
  const say: Say = (grade, says, rule, about = []) => {
    const isTold = found.some((f) => f.rule === rule && about.every((name) => f.says.includes(name)));
    if (!isTold) list.push({ grade, says, rule: null });
  };
  for (const { sources, lawful } of state.parallel) {
    const pair = sources.map(names.source);
    if (lawful === true) say("note", `${both(sources)} feed the same line, as their maker lets them`);
    else if (lawful === false) say("must", `${both(sources)} feed the same line`, "ac/parallel-sources", pair);
    else say("unknown", `${both(sources)} feed the same line; nobody says whether they may`, "ac/parallel-sources", pair); // prettier-ignore
  }
  for (const { source, from } of state.livePins)
    say("must", `terminals of ${names.source(source)} are live, fed by ${all(from)}`, "ac/live-inlet-pins", [
      names.source(source),
    ]);
  sayTakers(state, names, say);
  for (const island of state.islands) {
    const { sources, joinsLow, joinsHigh, joins, hasNeutral } = island;
    if (!hasNeutral) continue;
    const whose = `the neutral of ${all(sources)}`;
    const places = named(joins.map(({ id }) => names.join(id)));
    const who = sources.map(names.source);
    const [missing, doubled] = ["ac/missing-neutral-earth-join", "ac/doubled-neutral-earth-join"] as const;
    if (joinsHigh === 0) {
      const verdicts = sources.flatMap((id) => joinVerdict(id) ?? []);
      const [spared] = verdicts.flatMap((v) => ("spared" in v ? v.spared : []));
      const [grade = "should"] = verdicts.flatMap((v) => ("grade" in v ? v.grade : []));
      const feeds = state.takers.some((t) => t.state !== "dead" && t.sources.some((s) => sources.includes(s)));
      const opens = `${whose} meets earth nowhere`;
      if (spared !== undefined)
        list.push({ grade: "note", says: `${opens}, and none is asked for: ${spared}; a fault to earth opens nothing`, rule: missing }); // prettier-ignore
      else if (!feeds) say("note", `${opens}, while it feeds nothing`, missing, who);
      else say(grade, `${opens}: a fault to earth opens nothing`, missing, who);
    }
    if (joinsLow > 1) say("must", `${whose} meets earth in ${joinsLow} places: ${places}`, doubled, who);
    else if (joinsHigh > 1) say("unknown", `${whose} may meet earth in ${joinsHigh} places: ${places}`, doubled, who);
    else if (joinsLow === 0 && joinsHigh > 0)
      say("unknown", `nobody says whether ${whose} meets earth at ${places}`, missing, who);
  }
  for (const { guards } of state.neutralsMeet)
    say("should", `neutrals behind ${guards.join(" and ")} meet: both open for nothing`, "ac/one-neutral-behind-two-guards", guards.map((g) => g.replace(/:.*/s, ""))); // prettier-ignore
  for (const { charger, inverter } of state.ownCharge)
    say("should", `${names.taker(charger)} charges what ${names.source(inverter)} lives on`, "charging/charger-on-its-own-inverter", [names.source(inverter)]); // prettier-ignore
  for (const { sources } of state.commonNeutral) say("note", `${both(sources)} share a neutral`);
  for (const { source, to, certain } of state.adds)
    if (certain) say("note", `${names.source(source)} may give beside ${all(to)}`);
  return byGrade(list);
}

function sayTakers({ takers }: StateFacts, names: ThingNames, say: Say): void {
  const those = (test: (t: StateFacts["takers"][number]) => boolean): string[] =>
    takers.filter(test).map((t) => names.taker(t.taker));
  const told: readonly (readonly [StateDanger["grade"], string, readonly string[]])[] = [
    ["must", "line and neutral are exchanged at", those((t) => t.state === "reversed")],
    ["must", "line and neutral of different sources meet at", those((t) => t.state === "mixed")],
    ["must", "a line is live and the neutral cut at", those((t) => t.state === "no neutral")],
    ["must", "the protective conductor does not reach the join of what feeds", those((t) => t.earth === "open")],
    ["should", "only some lines are live at", those((t) => t.state === "half")],
    ["should", "all ends are one line at", those((t) => t.state === "no volts")],
    ["unknown", "nobody says whether the protective conductor is joined at", those((t) => t.earth === "unknown" && t.state !== "dead")], // prettier-ignore
  ];
  for (const [grade, says, who] of told) if (who.length > 0) say(grade, `${says} ${named(who)}`);
}

/** What only a group as a whole shows. */
export function dangersOfGroup(
  group: SwitchingGroup,
  names: ThingNames,
  found: readonly StateDanger[] = [],
  joinVerdict?: (source: string) => JoinVerdict | null,
): StateDanger[] {
  const list = dangersOf(group, names, found, joinVerdict);
  if (!group.rests) list.push({ grade: "should", says: "what moves by itself goes round and never rests", rule: null });
  return byGrade(list);
}
