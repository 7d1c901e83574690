import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type Plan, type PlanState } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { Draw, Store } from "./element.ts";
import type { Ledger } from "./fact-reader.ts";
import type { MovedPart } from "./moved-parts.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import type { GivenState } from "./system.ts";
import { given, type Value } from "./value.ts";

interface Open {
  engine: boolean;
  shore: boolean;
  sun: boolean;
  charge: Record<string, Value>;
  on: string[];
  positions: Record<string, string>;
  /** Whether the state, or one that it is like, says it. */
  saysShore: boolean;
}

/**
 * The states that the plan gives, each complete: what it takes from another by `like` is filled in. A plan without states has one, with
 * every load on that may run with the others.
 *
 * @param runs parts that can be named as on: loads, sources, converters
 * @param generators what runs in the one state of a plan that gives none
 * @param moved parts whose positions have names that a state may use: `GEN: running`
 */
export function resolveStates(
  plan: Plan,
  all: readonly BoundPart[],
  parts: NameIndex<BoundPart>,
  draws: readonly Draw[],
  stores: readonly Store[],
  runs: ReadonlySet<string>,
  generators: readonly string[],
  moved: ReadonlyMap<string, MovedPart>,
  ledger: Ledger,
  say: (d: Diagnostic) => void,
): GivenState[] {
  const byName = indexNames("state", plan.states, (s) => s.key);
  const done = new Map<PlanState, Open>();
  const exclusive = plan.neverTogether.map((group) =>
    group.flatMap(({ name, at }) => parts.find(name, at, "states.never together", say)?.key ?? []),
  );
  const inlets = [...moved].filter(([, m]) => m.isInlet);
  const entries = inlets.filter(([, m]) => m.fedBy.length === 0);
  const isStore = new Set(stores.map((s) => s.part));

  const modelOf = ({ facts }: PlanState): PlanState | undefined => {
    const like = known(facts.like);
    return like === undefined ? undefined : byName.get(like);
  };

  /** Completes a state, and first those that it is like: they may stand behind it, and thousands deep. */
  const resolve = (state: PlanState): Open => {
    const chain = new Set<PlanState>();
    for (let at: PlanState | undefined = state; at !== undefined && !done.has(at) && !chain.has(at); at = modelOf(at)) {
      chain.add(at);
    }
    for (const one of [...chain].toReversed()) done.set(one, complete(one));
    return done.get(state) ?? complete(state);
  };

  const complete = (state: PlanState): Open => {
    const about = `states.${state.key}`;
    const { facts, base } = state;
    let open: Open = { engine: false, shore: false, sun: false, charge: byPart({}), on: [], positions: byPart({}), saysShore: false }; // prettier-ignore
    if (facts.like !== undefined && facts.like.value !== "unknown") {
      const at = placed(base, facts.like.span);
      const model = byName.find(facts.like.value, at, `${about}.like`, say);
      const m = model === undefined ? undefined : done.get(model);
      if (m !== undefined) {
        open = { ...m, charge: byPart(m.charge), on: [...m.on], positions: byPart(m.positions) };
      } else if (model !== undefined) {
        // The one state of a ring whose model is still to be completed.
        say({
          id: "plan/like-itself",
          level: "error",
          at: [at],
          about: `${about}.like`,
          message: `the state \`${shown(state.key)}\` is like itself`,
          hint: "write one of them out in full",
        });
      }
    }
    const engine = known(facts.engine);
    if (engine !== undefined) open.engine = engine === "running";
    const shore = known(facts.shore);
    if (shore !== undefined) {
      open.shore = shore === "in";
      open.saysShore = true;
      // What the state that it is like says of each inlet no longer holds.
      for (const [inlet] of inlets) Reflect.deleteProperty(open.positions, inlet);
    }
    const sun = known(facts.sun);
    if (sun !== undefined) open.sun = sun;
    const charge = known(facts.charge);
    if (charge !== undefined) {
      if ("low" in charge) {
        for (const store of stores) open.charge[store.part] = given(charge);
      } else {
        for (const one of charge) {
          if (one.value === "unknown") continue;
          const part = parts.find(one.name, placed(base, one.nameSpan), `${about}.charge`, say);
          if (part === undefined) continue;
          open.charge[part.key] = given(one.value);
          if (!isStore.has(part.key) && part.kind !== undefined) {
            say({
              id: "system/not-a-battery",
              level: "error",
              at: [placed(base, one.nameSpan)],
              about: `${about}.charge`,
              message: `\`${shown(part.key)}\` is of kind \`${part.kind.name}\`; only a battery holds charge`,
              hint: "name a battery, or write one figure for all: `charge: 40 %`",
            });
          }
        }
      }
    }
    const on = known(facts.on);
    if (on !== undefined) {
      open.on = on.flatMap((fact) => {
        if (fact.value === "unknown") return [];
        const at = placed(base, fact.span);
        const part = parts.find(fact.value, at, `${about}.on`, say);
        if (part === undefined) return [];
        if (part.positions.includes("on")) {
          open.positions[part.key] = "on";
          return [];
        }
        Reflect.deleteProperty(open.positions, part.key);
        if (!runs.has(part.key) && part.kind !== undefined) {
          say({
            id: "system/nothing-to-switch-on",
            level: "error",
            at: [at],
            about: `${about}.on`,
            message: `\`${shown(part.key)}\` is of kind \`${part.kind.name}\`, which is never switched on`,
            hint:
              part.positions.length > 0
                ? `write its position on its own: \`${shown(part.key)}: ${part.positions[0] ?? ""}\``
                : "name a load here",
          });
        }
        return [part.key];
      });
    }
    for (const { part: name, partSpan, position, span } of state.positions) {
      const part = parts.find(name, placed(base, partSpan), about, say);
      if (part === undefined) continue;
      const at = placed(base, span);
      const word = foldName(position);
      const plain = word === "on" || word === "yes" ? "on" : word === "off" || word === "no" ? "off" : undefined;
      const own = moved.get(part.key);
      const fault = own?.isInlet === true ? plugIn(open, part.key, own, word, shore) : null;
      if (fault === "done") continue;
      if (fault === "contradicts" || part.positions.length === 0) {
        const held = own?.positions.find((p) => foldName(p) === word || (p === "off" && plain === "off"));
        const isOn = plain === "on" || (word === "running" && held !== undefined);
        if (fault === null && (isOn || plain === "off" || held !== undefined)) {
          open.on = [...open.on.filter((n) => n !== part.key), ...(isOn ? [part.key] : [])];
          // A generator that is not on is off; an inverter stands ready unless a state says that it does not.
          if (!isOn && held !== undefined && own?.positions.includes("running") !== true)
            open.positions[part.key] = held;
          else Reflect.deleteProperty(open.positions, part.key);
        } else {
          say({
            id: "system/position-unknown",
            level: "error",
            at: [at],
            about: `${about}.${part.key}`,
            ...wordFault(part.key, position, own, fault === null ? undefined : shore),
          });
        }
        continue;
      }
      const found = part.positions.find((p) => foldName(p) === word) ?? part.positions.find((p) => p === plain);
      if (found === undefined) {
        say({
          id: "system/position-unknown",
          level: "error",
          at: [at],
          about: `${about}.${part.key}`,
          message: `\`${shown(part.key)}\` has no position \`${shown(position)}\``,
          hint: `its positions are ${listed(part.positions)}`,
        });
      } else {
        open.positions[part.key] = found;
      }
    }
    return open;
  };

  /** What a state says of one inlet: of the only one it is what it says of shore. */
  const plugIn = (
    open: Open,
    part: string,
    { positions, fedBy }: MovedPart,
    word: string,
    shore: "in" | "out" | undefined,
  ): "done" | "contradicts" | null => {
    if (!positions.includes(word)) return null;
    const isOnly = inlets.length === 1;
    const isShore = isOnly || fedBy.length === 0;
    if (isShore && (isOnly || word === "in") && (shore ?? word) !== word) return "contradicts";
    if (isOnly) {
      open.shore = word === "in";
      open.saysShore = true;
    } else {
      // Where one is named, those that are not are out.
      if (isShore && shore === undefined && word === "in" && !open.saysShore) {
        for (const [other] of entries) open.positions[other] ??= "out";
        open.shore = true;
      }
      open.positions[part] = word;
    }
    return "done";
  };

  /** Where the plugs stand that something in the plan feeds. */
  const withPlugs = (open: Open): Open["positions"] => {
    const positions = byPart(open.positions);
    for (const [plug, { fedBy }] of inlets) {
      if (fedBy.length === 0) continue;
      const isFed = fedBy.some((maker) => (moved.get(maker)?.isInlet === true ? open.shore : open.on.includes(maker)));
      const isIn = entries.length > 0 ? isFed : open.saysShore ? open.shore : isFed;
      positions[plug] ??= isIn ? "in" : "out";
    }
    return positions;
  };

  if (plan.states.length === 0) {
    const on = draws.filter((d) => !d.alwaysOn).map((d) => d.part);
    if (draws.some((d) => d.current === "AC"))
      ledger.readerFor("states").assume({
        id: "all-on-together",
        value: 0,
        says: "the plan gives no states: all that runs on alternating current is on together, save what is `never together`, on each source in turn",
        trust: "practice",
        pin: "states",
      });
    return [
      {
        id: "everything on",
        isImplied: true,
        engine: false,
        shore: false,
        sun: false,
        charge: byPart({}),
        on: [
          ...generators,
          ...on.filter((name) => exclusive.every((group) => !group.includes(name) || hungriest(group, draws) === name)),
        ],
        positions: byPart(
          Object.fromEntries(inlets.flatMap(([plug, { fedBy }]) => (fedBy.length === 0 ? [] : [[plug, "in"]]))),
        ),
      },
    ];
  }
  const states = plan.states.map((state) => {
    const open = resolve(state);
    for (const group of exclusive) {
      const together = group.filter((n) => open.on.includes(n));
      if (together.length > 1) {
        say({
          id: "system/never-together",
          level: "warning",
          at: [placed(state.base, state.keySpan)],
          about: `states.${state.key}`,
          message: `${listed(together)} never run together, yet ${together.length > 2 ? "all" : "both"} are on in \`${shown(state.key)}\``,
          hint: "take one of them out of the state, or out of `never together`",
        });
      }
    }
    const { engine, sun, charge, on } = open;
    const positions = withPlugs(open);
    // What comes in by a plug feeds what shore feeds.
    const shore = open.shore || (entries.length === 0 && inlets.some(([plug]) => positions[plug] === "in"));
    return { id: state.key, engine, shore, sun, charge, on, positions };
  });
  // A switch that a state says nothing of is on; a part of several positions stands at its first one.
  for (const part of all) {
    const [first] = part.positions;
    if (
      first === undefined ||
      first === "on" ||
      part.traits.plug === true ||
      states.every((s) => s.positions[part.key] !== undefined)
    )
      continue;
    ledger.readerFor(part.key).assume({
      id: `position-${part.key}`,
      value: 0,
      says: `${part.key} stands at ${first} in states that say nothing of it`,
      trust: "practice",
      pin: `states: ${part.key}`,
    });
  }
  return states;
}

/** What a state says of a part, and no state can. */
function wordFault(
  part: string,
  position: string,
  moved: MovedPart | undefined,
  shore: "in" | "out" | undefined,
): Pick<Diagnostic, "message" | "hint"> {
  if (shore !== undefined)
    return {
      message: `\`${shown(part)}: ${shown(position)}\` contradicts \`shore: ${shore}\` in the same state`,
      hint: "leave one of them out",
    };
  const words = moved?.positions.map((p) => `\`${p}\``) ?? ["`on`", "`off`"];
  const others = words.length > 2 ? words.slice(0, -1).join(", ") : words[0];
  return {
    message:
      moved === undefined
        ? `\`${shown(part)}\` has no positions; found \`${shown(position)}\``
        : `\`${shown(part)}\` has no position \`${shown(position)}\``,
    hint: `write ${others ?? ""} or ${words.at(-1) ?? ""}`,
  };
}

/** A part may be called `constructor` or `__proto__`: a map by names must know no names of its own. */
const byPart = <T>(of: Readonly<Record<string, T>>): Record<string, T> =>
  Object.assign(Object.create(null) as Record<string, T>, of); // an object without a prototype has no type of its own

/** Of loads that exclude each other the one that takes most stands for the group. */
function hungriest(group: readonly string[], draws: readonly Draw[]): string | undefined {
  const amps = (name: string) => draws.find((d) => d.part === name)?.levels[0]?.amps.high ?? 0;
  return [...group].sort((a, b) => amps(b) - amps(a))[0];
}
