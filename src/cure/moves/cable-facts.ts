import { proposedColours, functionOfCore } from "../../size/index.ts";
import { coresOf, type Fn } from "../../system/index.ts";
import { glands } from "../../reference/glands.ts";
import { colourName, schemeColours } from "../../wire/colour/index.ts";
import type { PrintedColour } from "../../wire/make/wire-make.ts";
import type { Move } from "../case.ts";
import { isWritten, put, takeOff } from "../write.ts";

/** Out of a cable that it shares: first the other circuits of it, then itself. */
export const ownCable: Move = (at) =>
  at.circuits.map(({ circuit }) => {
    const together = circuit.cable?.circuits ?? [];
    // The one that holds the label keeps it.
    const leaves = together.filter((id) => !isWritten(at.document, ["circuits", id, "cable"]));
    return leaves.map((id) => ({ edits: takeOff(at.document, ["circuits", id, "in cable"]) }));
  });

/** Out and back along the same ways. */
export const sameWay: Move = (at) =>
  at.circuits.map(({ id }) => [{ edits: takeOff(at.document, ["circuits", id, "return ways"]) }]);

/** Tails of half a metre, short enough for every set. */
export const shorterTail: Move = (at) =>
  at.circuits.map(({ id, circuit }) =>
    (circuit.cable?.circuits ?? [id])
      .filter((one) => isWritten(at.document, ["circuits", one, "tail"]))
      .map((one) => ({ edits: [put(at.document, ["circuits", one, "tail"], "0.5 m")] })),
  );

/** Glands by their thread, the narrowest first. */
export const fittingGland: Move = (at) =>
  at.circuits.map(({ id, circuit }) => {
    const holder = (circuit.cable?.circuits ?? [id]).find((one) => isWritten(at.document, ["circuits", one, "gland"]));
    return holder === undefined
      ? []
      : glands.rows.map(({ gland }) => ({ edits: [put(at.document, ["circuits", holder, "gland"], gland)] }));
  });

/** Whether a core has the colour of an earth, or a line that of a neutral. */
const isAnothers = (fn: Fn, [base]: PrintedColour): boolean =>
  fn !== "PE" && (base === "GNYE" || base === "GN" || (fn.startsWith("L") && (base === "WH" || base === "GY")));

/** Colours that the schemes propose, for the cores that have the colour of another. */
export const anotherCore: Move = ({ build, document, circuits }) =>
  circuits.map(({ id, circuit }) => {
    const path = ["circuits", id, "colour"];
    // What stands on a label cannot be written otherwise.
    if (!isWritten(document, path)) return [];
    const proposed = proposedColours(build.system.supplies);
    const cores = coresOf(circuit.conductors);
    const entries = cores.flatMap((fn): [string, string][] => {
      const own = circuit.colours.find((c) => c.fn === fn)?.colour;
      const name = fn === "pole" ? "+" : fn;
      if (own !== undefined && !isAnothers(fn, own)) return [[name, colourName(own)]];
      const wanted = functionOfCore(circuit.conductors, fn, circuit.current);
      if (wanted === null) return [];
      const usual = proposed.get(wanted) ?? schemeColours("iec-2017", wanted, circuit.current)[0];
      return usual === undefined ? [] : [[name, colourName(usual)]];
    });
    // In the order of the cores a list says it; where one has no usual colour, each is named.
    const value = entries.length === cores.length ? entries.map(([, name]) => name) : { entries };
    return entries.length === 0 ? [] : [{ edits: [put(document, path, value)] }];
  });

/** Cable for fixed wiring in place of a cord, as thick and with as many live cores. */
export const fixedCable: Move = (at) =>
  at.circuits.map(({ id, circuit }) => {
    const label = circuit.cable?.label;
    const path = ["circuits", id, "cable"];
    if (label?.size == null || !isWritten(at.document, path)) return [];
    const { name, system } = label.size;
    const earth = circuit.conductors.some(({ fn }) => fn === "PE");
    const live = coresOf(circuit.conductors).filter((fn) => fn !== "PE").length;
    const text = system === "mm²" ? `NYM-J ${live + (earth ? 1 : 0)}x${name}` : `${name}/${live} w/G NM-B`;
    return [{ edits: [put(at.document, path, text)] }];
  });

/** A hook-up lead as caravans have it: 25 m, the least area first. */
export const thickerLead: Move = ({ document, part }) =>
  part === undefined
    ? []
    : [
        ["2.5", "6", "16"].map((area) => ({
          edits: [
            put(document, ["parts", part.id, "lead cable"], `3G${area} H07RN-F`),
            ...(isWritten(document, ["parts", part.id, "lead"])
              ? [put(document, ["parts", part.id, "lead"], "25 m")]
              : []),
          ],
        })),
      ];
