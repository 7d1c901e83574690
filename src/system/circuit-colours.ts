import type { Diagnostic } from "../diagnostic.ts";
import { foldName, known, listed, placed, shown, type CircuitFacts, type PlanItem } from "../plan/index.ts";
import type { PrintedColour } from "../wire/make/wire-make.ts";
import type { Conductor, CoreColour } from "./system.ts";
import type { Fn } from "./terminal.ts";

/** The functions of a circuit's conductors, each once, in their order. */
export const coresOf = (conductors: readonly Conductor[]): readonly Fn[] => [...new Set(conductors.map((c) => c.fn))];

const isEarthColour = ([base, ...tracers]: PrintedColour): boolean =>
  base === "GNYE" || base === "BARE" || (base === "GN" && (tracers.length === 0 || tracers[0] === "YE"));

/**
 * The colours that a plan or a label gives to the cores of a circuit.
 *
 * Colours by core count as they are written. A list is taken in the order of the cores, green-yellow for the protective one; a colour alone is that of the first core.
 */
export function coloursOf(
  { facts, base, key }: PlanItem<CircuitFacts>,
  cores: readonly Fn[],
  say: (d: Diagnostic) => void,
): readonly CoreColour[] {
  const fact = facts.colour;
  const written = known(fact);
  if (fact === undefined || written === undefined) return [];
  const colours: CoreColour[] = [];
  const free = [...cores];
  const take = (fn: Fn, colour: PrintedColour): void => {
    colours.push({ fn, colour });
    free.splice(free.indexOf(fn), 1);
  };
  for (const one of written) {
    if (one.value === "unknown") {
      free.shift();
      continue;
    }
    if ("name" in one) {
      const fn = coreNamed(one.name, cores);
      if (fn !== undefined) {
        if (free.includes(fn)) take(fn, one.value);
        continue;
      }
      say({
        id: "system/colour-of-no-core",
        level: "warning",
        at: [placed(base, one.nameSpan)],
        about: `circuits.${key}.colour`,
        message: `\`${shown(key)}\` has no core \`${shown(one.name)}\` that a colour could belong to`,
        hint: `its cores are ${listed(cores)}`,
      });
      continue;
    }
    const earth = free.includes("PE") && isEarthColour(one.value) ? "PE" : undefined;
    const fn = earth ?? free.find((f) => f !== "PE") ?? free[0];
    if (fn !== undefined) take(fn, one.value);
  }
  return colours.sort((a, b) => cores.indexOf(a.fn) - cores.indexOf(b.fn));
}

/** A core by its name; a conductor between two points of one pole is the plus or the minus that it is called. */
function coreNamed(name: string, cores: readonly Fn[]): Fn | undefined {
  const folded = foldName(name);
  const found = cores.find((fn) => foldName(fn) === folded);
  return found ?? (cores.includes("pole") && (folded === "+" || folded === "-") ? "pole" : undefined);
}
