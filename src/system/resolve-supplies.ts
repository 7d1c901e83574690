import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type Plan } from "../plan/index.ts";
import { indexNames, type NameIndex } from "./name-index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { Ledger } from "./fact-reader.ts";
import type { Supply } from "./system.ts";
import type { CurrentKind, Fn } from "./terminal.ts";

/** The supplies that the plan names, with the rule set of each; a plan that names none has a 12 V one, listed as assumed. */
export function resolveSupplies(
  plan: Plan,
  parts: NameIndex<BoundPart>,
  ledger: Ledger,
  say: (d: Diagnostic) => void,
): Supply[] {
  const systems = indexNames("system", plan.systems, (s) => s.key);
  for (const rule of plan.rules) systems.find(rule.key, placed(rule.base, rule.keySpan), `rules.${rule.key}`, say);

  const supplies = plan.systems.map((item): Supply => {
    const { facts, base, key } = item;
    const about = `systems.${key}`;
    const read = ledger.readerFor(about);
    const current: CurrentKind = known(facts.kind) ?? (foldName(key).startsWith("ac") ? "AC" : "DC");
    const nominal = known(facts.nominal)?.low ?? (current === "DC" ? 12 : 230);
    if (known(facts.nominal) === undefined) read.needed(facts.nominal, "nominal", nominal);
    const returnFact = facts.return;
    const returnPart =
      returnFact === undefined || returnFact.value === "unknown" || foldName(returnFact.value) === "none"
        ? undefined
        : parts.find(returnFact.value, placed(base, returnFact.span), `${about}.return`, say);
    const cores = known(facts.cores)?.flatMap((c): Fn[] => (c.value === "unknown" ? [] : [c.value]));
    const rules = plan.rules.find((r) => foldName(r.key) === foldName(key))?.text;
    return {
      id: key,
      current,
      nominal,
      highestVolts: known(facts["highest charging"])?.high ?? (current === "DC" ? (14.6 * nominal) / 12 : nominal),
      cores: cores ?? (current === "AC" ? ["L", "N", "PE"] : []),
      ...(returnPart === undefined ? {} : { returnPart: returnPart.key }),
      ...(rules === undefined ? {} : { rules }),
    };
  });
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

/** The supply that a circuit says it belongs to. */
export function supplyNamed(
  name: string,
  at: readonly [number, number],
  about: string,
  supplies: readonly Supply[],
  say: (d: Diagnostic) => void,
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
