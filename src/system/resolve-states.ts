import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type Plan, type PlanState } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { Draw, Store } from "./element.ts";
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
}

/**
 * The states that the plan gives, each complete: what it takes from another by `like` is filled in. A plan without states has one, with
 * every load on that may run with the others.
 */
export function resolveStates(
  plan: Plan,
  parts: NameIndex<BoundPart>,
  draws: readonly Draw[],
  stores: readonly Store[],
  say: (d: Diagnostic) => void,
): GivenState[] {
  const byName = indexNames("state", plan.states, (s) => s.key);
  const done = new Map<PlanState, Open>();
  const exclusive = plan.neverTogether.map((group) => group.map((n) => parts.get(n)?.key ?? n));

  const resolve = (state: PlanState, trail: readonly PlanState[]): Open => {
    const there = done.get(state);
    if (there !== undefined) return there;
    const about = `states.${state.key}`;
    const { facts, base } = state;
    let open: Open = { engine: false, shore: false, sun: false, charge: {}, on: [], positions: {} };
    if (facts.like !== undefined && facts.like.value !== "unknown") {
      const at = placed(base, facts.like.span);
      const model = byName.find(facts.like.value, at, `${about}.like`, say);
      if (model !== undefined && (model === state || trail.includes(model))) {
        say({
          id: "plan/like-itself",
          level: "error",
          at: [at],
          about: `${about}.like`,
          message: `the state \`${shown(state.key)}\` is like itself`,
          hint: "write one of them out in full",
        });
      } else if (model !== undefined) {
        const m = resolve(model, [...trail, state]);
        open = { ...m, charge: { ...m.charge }, on: [...m.on], positions: { ...m.positions } };
      }
    }
    const engine = known(facts.engine);
    if (engine !== undefined) open.engine = engine === "running";
    const shore = known(facts.shore);
    if (shore !== undefined) open.shore = shore === "in";
    const sun = known(facts.sun);
    if (sun !== undefined) open.sun = sun;
    const charge = known(facts.charge);
    if (charge !== undefined) {
      if ("low" in charge) {
        for (const store of stores) open.charge[store.id] = given(charge);
      } else {
        for (const one of charge) {
          if (one.value === "unknown") continue;
          const part = parts.find(one.name, placed(base, one.nameSpan), `${about}.charge`, say);
          if (part !== undefined) open.charge[part.key] = given(one.value);
        }
      }
    }
    const on = known(facts.on);
    if (on !== undefined) {
      open.on = on.flatMap((fact) => {
        if (fact.value === "unknown") return [];
        const part = parts.find(fact.value, placed(base, fact.span), `${about}.on`, say);
        return part === undefined ? [] : [part.key];
      });
    }
    for (const { part: name, partSpan, position, span } of state.positions) {
      const part = parts.find(name, placed(base, partSpan), about, say);
      if (part === undefined) continue;
      const at = placed(base, span);
      const word = foldName(position);
      const plain = word === "on" || word === "yes" ? "on" : word === "off" || word === "no" ? "off" : undefined;
      if (part.positions.length === 0) {
        if (plain === "on") open.on = [...open.on.filter((n) => n !== part.key), part.key];
        else if (plain === "off") open.on = open.on.filter((n) => n !== part.key);
        else {
          say({
            id: "system/position-unknown",
            level: "error",
            at: [at],
            about: `${about}.${part.key}`,
            message: `\`${shown(part.key)}\` has no positions; found \`${shown(position)}\``,
            hint: "write `on` or `off`",
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
    done.set(state, open);
    return open;
  };

  if (plan.states.length === 0) {
    const on = draws.filter((d) => !d.alwaysOn).map((d) => d.part);
    return [
      {
        id: "everything on",
        engine: false,
        shore: false,
        sun: false,
        charge: {},
        on: on.filter((name) => exclusive.every((group) => !group.includes(name) || hungriest(group, draws) === name)),
        positions: {},
      },
    ];
  }
  return plan.states.map((state) => {
    const open = resolve(state, []);
    for (const group of exclusive) {
      const together = group.filter((n) => open.on.includes(n));
      if (together.length > 1) {
        say({
          id: "system/never-together",
          level: "warning",
          at: [placed(state.base, state.keySpan)],
          about: `states.${state.key}`,
          message: `${listed(together)} never run together, yet both are on in \`${shown(state.key)}\``,
          hint: "take one of them out of the state, or out of `never together`",
        });
      }
    }
    return { id: state.key, ...open };
  });
}

/** Of loads that exclude each other the one that takes most stands for the group. */
function hungriest(group: readonly string[], draws: readonly Draw[]): string | undefined {
  const amps = (name: string) => draws.find((d) => d.part === name)?.levels[0]?.amps.high ?? 0;
  return [...group].sort((a, b) => amps(b) - amps(a))[0];
}
