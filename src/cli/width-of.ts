import type { Given } from "./command.ts";
import { fitWidth, NARROWEST, WIDEST, type Terminal } from "./terminal.ts";

/** Columns to fit into: those asked for, else the terminal's; null where what was asked for is no number of columns. */
export function widthOf({ options }: Given, terminal: Terminal): number | null {
  const asked = options["width"];
  if (typeof asked !== "string") return terminal.width;
  const columns = Number(asked);
  return Number.isInteger(columns) && columns > 0 ? fitWidth(columns) : null;
}

export const WIDTH_PROBLEM = `\`--width\` takes a number of columns, ${NARROWEST} to ${WIDEST}`;
