import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type Plan, type SystemFacts } from "../plan/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import { checkRules } from "./check-rules.ts";
import type { Ledger } from "./fact-reader.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import type { Supply } from "./system.ts";
import { inCoreOrder, type CurrentKind, type Fn } from "./terminal.ts";

type Say = (d: Diagnostic) => void;

/** The supplies that the plan names, with the rule set of each; a plan that names none has a 12 V one. */
export function resolveSupplies(plan: Plan, parts: NameIndex<BoundPart>, ledger: Ledger, say: Say): Supply[] {
  const systems = indexNames("system", plan.systems, (s) => s.key);
  for (const rule of plan.rules) systems.find(rule.key, placed(rule.base, rule.keySpan), `rules.${rule.key}`, say);

  const supplies = plan.systems.map((item) => resolveSupply(item, plan, parts, ledger, say));
  checkRules(plan, supplies, ledger, say);
  if (!supplies.some((s) => s.current === "DC")) {
    if (plan.circuits.length > 0 && plan.systems.length === 0) {
      say({
        id: "system/no-supply",
        level: "warning",
        at: [],
        about: "systems",
        message: "the plan names no supply; a 12 V one is assumed and its returns lead nowhere",
        hint: "write `systems: { DC: { kind: DC, nominal: 12 V, return: BN } }`",
      });
    }
    supplies.unshift({ id: "DC", current: "DC", nominal: 12, highestVolts: 14.6, cores: [] });
  }
  return supplies;
}

function resolveSupply(
  { key, base, keySpan, facts }: Plan["systems"][number],
  plan: Plan,
  parts: NameIndex<BoundPart>,
  ledger: Ledger,
  say: Say,
): Supply {
  const about = `systems.${key}`;
  const said = known(facts.kind) ?? currentOf(key, facts);
  if (said === undefined) {
    say({
      id: "system/current-open",
      level: "error",
      at: [placed(base, keySpan)],
      about,
      message: `the system \`${shown(key)}\` does not say whether it is direct or alternating current; direct is assumed`,
      hint: "write `kind: DC` or `kind: AC`",
    });
  }
  const current = said ?? "DC";
  const nominal = known(facts.nominal)?.low ?? (current === "DC" ? 12 : 230);
  if (known(facts.nominal) === undefined) ledger.readerFor(about).miss(facts.nominal, "nominal");
  const cores = known(facts.cores)?.flatMap((c): Fn[] => (c.value === "unknown" ? [] : [c.value]));
  const phases = known(facts.phases);
  const hertz = known(facts.frequency)?.high;
  if (phases === "three" || cores?.includes("L3") === true) {
    say({
      id: "system/three-phases",
      level: "error",
      at: [placed(base, keySpan)],
      about,
      message: `\`${shown(key)}\` has three phases, which nothing here works out: what is said of its circuits cannot be leaned on`,
      hint: "write each phase as a supply of its own, `cores: [L, N, PE]`, where nothing stands between two of them",
    });
  }
  const rules = plan.rules.find((r) => foldName(r.key) === foldName(key))?.text;
  const returnPart = findReturnPart(facts.return, base, about, parts, say);
  const earthed = isEarthed(facts["earthed at"], base, about, parts, say);
  return {
    id: key,
    current,
    nominal,
    highestVolts: known(facts["highest charging"])?.high ?? (current === "DC" ? (14.6 * nominal) / 12 : nominal),
    cores: inCoreOrder(cores ?? (current === "AC" ? ["L", "N", "PE"] : [])),
    ...(returnPart === undefined ? {} : { returnPart: returnPart.key }),
    ...(rules === undefined ? {} : { rules }),
    ...(phases === undefined ? {} : { phases }),
    ...(hertz === undefined ? {} : { hertz }),
    ...(earthed === undefined ? {} : { earthed }),
  };
}

/** Whether its return is joined to earth; undefined: the plan does not say. */
function isEarthed(
  fact: SystemFacts["earthed at"],
  base: number,
  about: string,
  parts: NameIndex<BoundPart>,
  say: Say,
): Supply["earthed"] {
  if (fact === undefined) return undefined;
  if (fact.value === "unknown") return "unknown";
  if (foldName(fact.value) === "none") return false;
  parts.find(fact.value, placed(base, fact.span), `${about}.earthed at`, say);
  return true;
}

/** A current that the plan leaves no doubt about without saying `kind`. */
function currentOf(key: string, facts: SystemFacts): CurrentKind | undefined {
  const word = /^(ac|dc)(?![a-z])/.exec(foldName(key))?.[1];
  if (word !== undefined) return word === "ac" ? "AC" : "DC";
  if (facts.frequency !== undefined || facts.phases !== undefined || facts.cores !== undefined) return "AC";
  return facts.poles === undefined ? undefined : "DC";
}

function findReturnPart(
  fact: SystemFacts["return"],
  base: number,
  about: string,
  parts: NameIndex<BoundPart>,
  say: Say,
): BoundPart | undefined {
  if (fact === undefined || fact.value === "unknown" || foldName(fact.value) === "none") return undefined;
  const at = placed(base, fact.span);
  const part = parts.find(fact.value, at, `${about}.return`, say);
  if (part !== undefined && part.ports[0]?.shape === "line") sayNoMinus(part, at, `${about}.return`, say);
  return part;
}

/** A return may not land on a part whose metal is all of the other pole. */
export function sayNoMinus(part: BoundPart, at: readonly [number, number], about: string, say: Say): void {
  say({
    id: "system/no-minus",
    level: "error",
    at: [at],
    about,
    message: `\`${shown(part.key)}\` has no minus that a return could land on`,
    hint:
      part.traits.distributes === true
        ? `write \`negative bar: yes\` under \`${shown(part.key)}\`, or name a bus bar`
        : "name a bus bar, a panel with a negative bar, or a battery",
  });
}

/**
 * Volts between the conductors of a circuit: of a split-phase or three-phase supply, those between two lines, or from one line to neutral.
 */
export function voltsAcross(supply: Supply, cores: readonly Fn[]): number {
  const lines = cores.filter((c) => c !== "N" && c !== "PE").length;
  if (lines !== 1 || !cores.includes("N")) return supply.nominal;
  if (supply.phases === "split") return supply.nominal / 2;
  return supply.phases === "three" ? supply.nominal / Math.sqrt(3) : supply.nominal;
}

/** The supply that a circuit or a part says it belongs to. */
export function supplyNamed(
  name: string,
  at: readonly [number, number],
  about: string,
  supplies: readonly Supply[],
  say: Say,
): Supply | undefined {
  const found = supplies.find((s) => foldName(s.id) === foldName(name));
  if (found === undefined) {
    say({
      id: "system/system-unknown",
      level: "error",
      at: [at],
      about,
      message: `no system is called \`${shown(name)}\``,
      hint: `the systems are ${listed(supplies.map((s) => s.id))}`,
    });
  }
  return found;
}
