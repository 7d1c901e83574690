import { coresNeeded } from "../../rules/index.ts";
import type { WrittenCable } from "../../plan/index.ts";
import type { Move } from "../case.ts";
import { put, textOf } from "../write.ts";

/** A cable of the same kind and size with as many cores as its circuits need: those that carry current, and the earth where one is asked for. */
export const moreCores: Move = (at) =>
  at.circuits.flatMap(({ circuit }) => {
    const { cable } = circuit;
    if (cable?.label == null) return [];
    const together = cable.circuits.flatMap((id) => at.build.circuit(id) ?? []);
    const { live, earth } = coresNeeded(together);
    const holder = cable.circuits.find((id) => textOf(at.document, ["circuits", id, "cable"]) !== null);
    if (holder === undefined) return [];
    return [
      labelsWith(cable.label, live, earth).map((label) => ({
        edits: [put(at.document, ["circuits", holder, "cable"], label)],
      })),
    ];
  });

/** Labels of a cable with so many cores, each as its kind is called; whether one is read so is found by trying it. */
function labelsWith({ make, size }: WrittenCable, live: number, earth: boolean): readonly string[] {
  const name = size?.name ?? make.size?.name;
  if (name === undefined) return [];
  const all = live + (earth ? 1 : 0);
  const gauge = `${name}/${all}`;
  const type = make.type ?? "";
  switch (make.family) {
    case "boat cable":
      return size?.system === "mm²" ? [`${all} x ${name} mm² boat cable`] : [`${gauge} boat cable`];
    case "building cable":
      return [`${name}/${live} w/G ${type === "" ? "NM-B" : type}`];
    case "flexible cord":
      return [`${gauge} ${type === "" ? "SOOW" : type}`];
    default:
      return size?.system === "mm²"
        ? [`${all}${earth ? "G" : "x"}${name} ${type}`.trim(), `${all + 1}G${name} ${type}`.trim()]
        : [`${gauge} boat cable`];
  }
}
