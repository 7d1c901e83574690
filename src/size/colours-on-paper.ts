import { coresOf, type SystemCircuit } from "../system/index.ts";
import type { WireFunction } from "../wire/colour/index.ts";
import type { PrintedColour } from "../wire/make/wire-make.ts";
import { functionOfCore } from "./colour-scheme.ts";
import type { ColourOnPaper } from "./design.ts";

/** The letters of a colour with its tracers: `YE/RD`. */
const lettersOf = (colour: PrintedColour): string => colour.join("/");

/** What a schedule calls a core: a conductor between two points of one pole has no name of its own. */
const nameOf = (fn: string): string => (fn === "pole" ? "" : fn);

/**
 * The colours of a circuit's cores: those that the plan or a label gives, and for the others what a scheme proposes.
 *
 * @param isLead it carries current only in a fault, whatever pole it lands on
 */
export function coloursOnPaper(
  { conductors, colours, current, asFound }: SystemCircuit,
  proposed: ReadonlyMap<WireFunction, PrintedColour>,
  isLead = false,
): readonly ColourOnPaper[] {
  return coresOf(conductors).flatMap((fn): ColourOnPaper[] => {
    const given = colours.find((c) => c.fn === fn);
    if (given !== undefined) return [{ core: nameOf(fn), letters: lettersOf(given.colour), by: "plan" }];
    // What was found has the colour that it has.
    const wanted = asFound || proposed.size === 0 ? null : functionOfCore(conductors, fn, current);
    const bonding = isLead ? (proposed.get("DC bonding") ?? proposed.get("protective earth")) : undefined;
    const colour = wanted === null ? undefined : (bonding ?? proposed.get(wanted));
    return colour === undefined ? [] : [{ core: nameOf(fn), letters: lettersOf(colour), by: "proposed" }];
  });
}
