import type { Assumption } from "../system/index.ts";

/**
 * The range that a default stands for, as texts of the plan: both ends, or the other choices. The ends are common practice: what a competent person
 * would still call usual. By the id of the assumption, without the nominal volts at its end; `perVolt` ends are shares of these.
 */
interface Range {
  readonly ends?: readonly string[];
  readonly perVolt?: readonly number[];
}

const ranges: Readonly<Record<string, Range>> = {
  "lowest-charge": { ends: ["10 %", "50 %"] },
  "battery-nominal": { perVolt: [1, 12.8 / 12] },
  "charging-volts": { perVolt: [13.8 / 12, 14.8 / 12] },
  "dc-dc-not-isolated": { ends: ["yes"] },
  "dc-dc-efficiency": { ends: ["85 %", "95 %"] },
  "solar-controller-efficiency": { ends: ["93 %", "98 %"] },
  "inverter-efficiency": { ends: ["80 %", "94 %"] },
  "inverter-idle": { ends: ["2 W", "40 W"] },
  "contact-resistance": { ends: ["0.05 mΩ", "1 mΩ"] },
  "shunt-resistance": { ends: ["0.05 mΩ", "0.5 mΩ"] },
  "structure-joint": { ends: ["0.05 mΩ", "1 mΩ"] },
  "motor-start-volts": { perVolt: [0.65, 0.85] },
  "start-time": { ends: ["0.2 s", "2 s"] },
  "lead-to-structure": { ends: ["1 m"] },
  "breakers-in-ways": { ends: ["fuse"] },
  "stock-metal": { ends: ["copper"] },
  "stock-strands": { ends: ["class 2", "class 6"] },
  "stock-insulation": { ends: ["70 °C", "105 °C"] },
  ambient: { ends: ["0 °C", "50 °C"] },
};

/**
 * What else a default could be, as it is written in a plan.
 *
 * @param positions of the part, for an assumption of where it stands
 * @returns nothing where it has no range
 * @example
 * alternativesOf({ id: "motor-start-volts-24" }) //=> ["15.6 V", "20.4 V"]
 */
export function alternativesOf({ id }: Pick<Assumption, "id">, positions: readonly string[] = []): readonly string[] {
  if (id.startsWith("position-")) return positions.slice(1);
  const own = ranges[id];
  if (own?.ends !== undefined) return own.ends;
  const [, name = "", volts = ""] = /^(.*)-(\d+(?:\.\d+)?)$/.exec(id) ?? [];
  return ranges[name]?.perVolt?.map((share) => `${Number((share * Number(volts)).toFixed(2))} V`) ?? [];
}
