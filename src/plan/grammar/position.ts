import { readQuantity } from "../../quantity/index.ts";
import type { Fact, Measure } from "../fact.ts";
import type { ValueRule } from "./rule.ts";
import { sayProblem } from "./values.ts";

/** x, y, z in metres along the axes that the plan names. */
export type Position = readonly [Measure, Measure, Measure];

export function position(): ValueRule<Position> {
  const says = "a position `[x, y, z]`, each a length with its unit";
  return {
    says,
    takes: { item: { dimensions: ["length"] } },
    schema: {
      anyOf: [{ type: "array", items: { type: "string" }, minItems: 3, maxItems: 3 }, { const: "unknown" }],
    },
    read(node, reading): Fact<Position> | undefined {
      if (node.kind === "scalar" && node.text.trim().toLowerCase() === "unknown") {
        return { value: "unknown", span: node.span };
      }
      if (node.kind !== "list" || node.items.length !== 3) {
        reading.say({
          id: "plan/position-expected",
          level: "error",
          at: node.span,
          message: `expected ${says}${node.kind === "list" ? `, found ${node.items.length} value${node.items.length === 1 ? "" : "s"}` : ""}`,
          hint: "write `[5.5 m, 1.1 m, 0.1 m]`; put a blank after each comma",
        });
        return undefined;
      }
      const axes: Measure[] = [];
      for (const item of node.items) {
        if (item.kind !== "scalar") {
          reading.say({
            id: "plan/position-expected",
            level: "error",
            at: item.span,
            message: `expected ${says}`,
            hint: "write `[5.5 m, 1.1 m, 0.1 m]`",
          });
          return undefined;
        }
        const result = readQuantity(item.text, "length");
        if (!result.ok) {
          for (const problem of result.problems) sayProblem(problem, item, "error", reading);
          return undefined;
        }
        // One unknown axis leaves the place unknown: a distance needs all three.
        if (result.amount.form === "unknown") return { value: "unknown", span: node.span };
        axes.push({ low: result.amount.low, high: result.amount.high, text: item.text.trim() });
      }
      const [x, y, z] = axes;
      if (x === undefined || y === undefined || z === undefined) return undefined;
      return { value: [x, y, z], span: node.span };
    },
  };
}
