import { labelContextOf, readBoughtWire, type BoughtWire } from "../../size/index.ts";
import { makeOf } from "../../size/ladder.ts";
import type { ConductorMake } from "../../wire/index.ts";
import type { Build, CircuitView } from "../build.ts";

/** What the label of a bought wire can mean, where it was bought for this circuit. */
export const boughtOf = ({ supply, circuit }: CircuitView, label: string, drawn: ConductorMake): BoughtWire =>
  readBoughtWire(
    label,
    { ...drawn, insulationC: circuit.insulationC.low },
    drawn.size.system === "SAE" ? "vehicle" : labelContextOf(supply),
  );

/** The conductor that the design was computed with. */
export function drawnMake({ settled }: Build, { circuit, model }: CircuitView): ConductorMake | null {
  if (circuit.size === "unknown") return null;
  if (circuit.size !== undefined) return { ...makeOf(circuit), size: circuit.size };
  return model?.rungs?.ladder.makes[settled.chosen.rungs[model.position] ?? 0] ?? null;
}

const LONGEST_QUOTE = 60;
/** A person's words, cut where they are long, with a mark for what does not show. */
export const quoted = (text: string): string =>
  `“${text.slice(0, LONGEST_QUOTE).replace(/\p{C}/gu, "\ufffd")}${text.length > LONGEST_QUOTE ? "…" : ""}”`;
