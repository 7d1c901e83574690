import type { System } from "../../system/index.ts";
import type { Page } from "./page.ts";
import { putText, textLine } from "./sketch.ts";
import { countsInFeet } from "./wire-view.ts";

/** Words over the columns of figures. */
export function drawHead({ hand, columns, x, y }: Page, system: System): void {
  const at = y(2) - 1;
  const origin = x(0);
  const heads: [string, number][] = [
    [countsInFeet(system) ? "ft" : "m", columns.length],
    ["A", columns.amps],
    ["drop", columns.percent],
    ...(columns.volts === null ? [] : [["V", columns.volts] satisfies [string, number]]),
  ];
  putText(hand.sketch, null, textLine([{ text: "load", faint: true }], [origin + columns.name, at]), "table");
  for (const [text, right] of heads)
    putText(hand.sketch, null, textLine([{ text, faint: true }], [origin + right, at], "end"), "table");
}
